"""What becomes of air cells away from where they were filled, as a page."""

from helmwright.catalogue.air import Surroundings, free_volume_ratio, rigid_gauge_kpa
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.field import BladderShift, FieldOutlook, ZoneShift
from helmwright.fit.fill import bladders
from helmwright.fit.outlook import Build, Spread
from helmwright.reports.air import PSI_PER_KPA
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import give_or_take, model_words, of_hundred
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import inches, thickness
from helmwright.units.elevation import METERS_PER_FOOT
from helmwright.units.temperature import fahrenheit_of

WIDTHS = (30, 18)
ZONE_WIDTHS = (8, 16, 16)

NOT_MODELED = (
    "Not modeled: leak, air in tubes and valves, foam that stiffens in the cold, weather that moves"
    " the air pressure by some 3 kPa, air that is not yet as cold as the field. What is computed is"
    " a helmet put on again in the field."
)
AGAIN = (
    "Let the cells take the field's temperature, then check every zone on the head and fill again"
    " by feel; check weekly, and after every journey."
)
FEEL_ASSUMED = (
    "Assumed: the pressure at which a fill feels snug, how far fitters differ in it, and the share"
    " that a full cell's skin carries. Air itself follows the gas law and the standard atmosphere."
)


def surroundings_words(place: Surroundings) -> str:
    """Air around, as people say it: "32 F, 5280 ft"."""
    feet = place.elevation_m / METERS_PER_FOOT
    return f"{fahrenheit_of(place.temperature_c):.0f} F, {feet:.0f} ft"


def limits_page(sheet: ModelSheet, room: Surroundings, field: Surroundings, width: int) -> str:
    """What the gas law says of the sheet's cells before any head is known."""
    lines = [
        f"Model: {model_words(sheet)}",
        *_where(room, field, width),
        *_limits(sheet, room, field, width),
    ]
    lines += wrapped('Name a head, such as --tape "22 5/8", to hear what lies between.', width)
    return "\n".join([*lines, *_end(width)]) + "\n"


def air_page(outlook: FieldOutlook, build: Build, sheet: ModelSheet, seed: int, width: int) -> str:
    """The page of one build."""
    room, field = outlook.room, outlook.field
    pads = ", ".join(
        f"{zone} {thickness(kind.thicknesses_mm[index], kind.labels[index])}"
        for zone, kind, index in zip(ZONES, sheet.pads, build.pads, strict=True)
        if kind.seats
    )
    lines = [
        *wrapped(f"Model: {model_words(sheet)}", width),
        *wrapped(f"Best build: shell {build.shell}; {pads}.", width),
        *_where(room, field, width),
        "",
        columns(("", "in the room", "in the field"), WIDTHS),
        _row("Fits", *(of_hundred(each.value) for each in outlook.fits)),
        *(line for each in outlook.bladders for line in _bladder(each)),
        _row("Front edge above the brow", *(inches(each.mean) for each in outlook.brow_mm)),
        "",
        columns(("Zone", "kPa", "loose, of 100", "tight, of 100"), ZONE_WIDTHS),
        *(_zone(zone) for zone in outlook.zones),
        *_limits(sheet, room, field, width),
        *_end(width),
        *wrapped(
            f"Counted on {outlook.draws} fresh draws, the same in both places; seed {seed} gives"
            f" them again. Fits: {give_or_take(max(each.error for each in outlook.fits))}.",
            width,
        ),
    ]
    return "\n".join(lines) + "\n"


def _where(room: Surroundings, field: Surroundings, width: int) -> list[str]:
    told = f"Filled by feel at {surroundings_words(room)}; worn at {surroundings_words(field)}."
    return wrapped(told, width)


def _row(name: str, room: str, field: str) -> str:
    return columns((name, room, field), WIDTHS)


def _bladder(each: BladderShift) -> list[str]:
    name = ", ".join(str(zone) for zone in each.zones)
    return [
        _row(f"Air in {name}", *(_gauge(gauge) for gauge in each.gauge_kpa)),
        _row("  its space", "1", f"{each.volume.mean:.2f}"),
    ]


def _gauge(gauge: Spread) -> str:
    return _psi(gauge.mean)


def _psi(kpa: float) -> str:
    return f"{kpa * PSI_PER_KPA:.1f} psi ({kpa:.1f} kPa)"


def _zone(shift: ZoneShift) -> str:
    """Each before and after: "2.7 to 2.3"."""
    one, two = shift.pressure_kpa
    return columns(
        (
            str(shift.zone),
            f"{one.mean:.1f} to {two.mean:.1f}",
            f"{100 * shift.loose[0]:.0f} to {100 * shift.loose[1]:.0f}",
            f"{100 * shift.tight[0]:.0f} to {100 * shift.tight[1]:.0f}",
        ),
        ZONE_WIDTHS,
    )


def _limits(sheet: ModelSheet, room: Surroundings, field: Surroundings, width: int) -> list[str]:
    """Between which two limits the change must lie."""
    said = []
    for each in bladders(sheet):
        gauge = each.cell.gauge_kpa
        rigid = rigid_gauge_kpa(gauge, room, field)
        ratio = free_volume_ratio(gauge, room, field)
        name = ", ".join(str(zone) for zone in each.zones)
        told = (
            f"{name}, filled to {_psi(gauge)}: a rigid cell would read {_psi(rigid)}, which"
            f" overstates it; one that gives freely would keep its pressure and take {ratio:.2f} of"
            " its space. A real one lies between, for foam and the other pads give"
        )
        said.append(told + (", or is slack." if rigid < 0 else "."))
    return [*heading("The limits, by the gas law", width), *bullets(said, width)]


def _end(width: int) -> list[str]:
    return [
        *heading("Who decides", width),
        *bullets((AGAIN, *CAUTIONS, NOT_MODELED, FEEL_ASSUMED, ASSUMED), width),
    ]
