"""Face guards, chin straps, hardware, exclusions and the maker's instructions."""

from helmwright.catalogue.face_places import FaceArea
from helmwright.catalogue.instruction import MEASURED_TOPICS, FitTopic, Instruction
from helmwright.catalogue.parts import (
    HARDWARE_KINDS,
    ChinStrap,
    Exclusion,
    FaceGuard,
    Hardware,
    Position,
)
from helmwright.catalogue.reading.face import (
    read_bar_thickness,
    read_chin_arcs,
    read_mass_center,
    read_optional_width,
    read_places,
    read_side_opening,
    read_snaps,
)
from helmwright.catalogue.reading.pads import price
from helmwright.catalogue.reading.table import Table

_SHELLS = "the numbers of the shells it goes on, such as [1, 2, 3]; leave it out for all"


def read_guard(table: Table, shells: tuple[int, ...]) -> FaceGuard:
    """One face guard."""
    areas = [area.value for area in FaceArea]
    bars = table.whole("bars", 1, 12)
    guard = FaceGuard(
        name=_name(table, "face guard"),
        covers=_areas(table, "covers"),
        leaves_open=_areas(table, "leaves_open"),
        bars=bars,
        upright=table.flag("upright", "true where a bar runs up the middle, or false"),
        wires=table.whole("wires", 1, 2),
        glasses=table.flag("glasses", "true where a player can wear glasses under it, or false"),
        positions=tuple(
            Position(word)
            for word in table.texts(
                "positions",
                "who it is made for; leave it out for everybody",
                choices=list(Position),
                optional=True,
            )
            if word in tuple(Position)
        ),
        shells=_shells(table, shells),
        mass_kg=table.number("mass_kg", 0.05, 1.5, "kg") if table.may_have("mass_kg") else None,
        price_usd=price(table),
        part_number=table.text("part_number", "its part number", default=""),
        places=read_places(table, bars),
        bar_mm=read_bar_thickness(table),
        mass_center=read_mass_center(table),
        side_opening_mm=read_side_opening(table),
    )
    named = [*guard.covers, *guard.leaves_open]
    if table.sound and sorted(named) != sorted(areas):
        wrong = "covers and leaves_open together must name each part of the face once"
        table.fault("leaves_open", wrong, "Put each of these under one: " + ", ".join(areas))
    table.close()
    return guard


def read_strap(table: Table, shells: tuple[int, ...]) -> ChinStrap:
    """One chin strap."""
    points = table.whole("points", 4, 6)
    sizes = table.texts("sizes", "the sizes it comes in", optional=True)
    strap = ChinStrap(
        name=_name(table, "chin strap"),
        points=points,
        cup=table.text("cup", "the kind of cup", choices=("soft", "hard")),
        sizes=sizes,
        shells=_shells(table, shells),
        price_usd=price(table),
        part_numbers=table.texts("part_numbers", "one part number a size", optional=True),
        snaps=read_snaps(table, points),
        across_mm=read_optional_width(table, "snaps_across", 120.0, 320.0),
        cup_mm=read_optional_width(table, "cup_width", 30.0, 160.0),
        chin_arcs_mm=read_chin_arcs(table, sizes),
    )
    if table.sound and strap.points == 5:
        table.fault("points", "5 is no even number", "Write 4 or 6")
    if strap.part_numbers and len(strap.part_numbers) != max(len(strap.sizes), 1):
        wrong = f"part numbers: {len(strap.part_numbers)}; sizes: {max(len(strap.sizes), 1)}"
        table.fault("part_numbers", wrong, "Write one part number for each size, in order")
    table.close()
    return strap


def read_hardware(table: Table) -> Hardware:
    """One kind of clip, screw or the like."""
    piece = Hardware(
        name=_name(table, "hardware"),
        kind=table.text("kind", "the kind of piece", choices=HARDWARE_KINDS),
        place=table.text("place", "where on the helmet"),
        count=table.whole("count", 1, 60),
        price_usd=price(table),
        part_number=table.text("part_number", "its part number", default=""),
    )
    table.close()
    return piece


def read_exclusion(table: Table, names: set[str]) -> Exclusion:
    """Parts that must not be together."""
    parts = table.texts("parts", "the names of the parts", choices=sorted(names))
    if table.sound and len(set(parts)) < 2:
        table.fault("parts", "one part excludes nothing", "Name at least two different parts")
    exclusion = Exclusion(parts, table.text("why", "the reason, in a sentence"))
    table.close()
    return exclusion


def read_instruction(table: Table) -> Instruction | None:
    """One instruction of the maker's; None where it cannot be read."""
    word = table.text("about", "what it is about", choices=list(FitTopic))
    says = table.text("says", "the instruction in a sentence or two")
    accept = table.lengths(
        "accept", 'two lengths, such as ["3/4 in", "1 in"]', 0, 150, optional=True
    )
    if table.may_have("accept") and table.sound:
        _check_accept(table, FitTopic(word), tuple(length for _, length in accept))
    if not table.close():
        return None
    ends = (accept[0][1], accept[1][1]) if accept else None
    return Instruction(FitTopic(word), says, ends)


def _check_accept(table: Table, topic: FitTopic, ends: tuple[float, ...]) -> None:
    """Note an interval that is none, or that the topic cannot have."""
    if topic not in MEASURED_TOPICS:
        wrong = f"{topic} is not a length"
        right = "Leave accept out; only these take it: " + ", ".join(MEASURED_TOPICS)
        table.fault("accept", wrong, right)
    elif len(ends) != 2 or ends[0] >= ends[1]:
        table.fault("accept", "this is no interval", "Write two lengths, the smaller one first")


def _name(table: Table, kind: str) -> str:
    """The part's name, which then stands in messages."""
    name = table.text("name", f"what to call this {kind}")
    table.title = f'{kind} "{name}"' if name else table.title
    return name


def _areas(table: Table, key: str) -> tuple[FaceArea, ...]:
    """Parts of the face; the list may be left out where there are none."""
    words = table.texts(
        key, "parts of the face", choices=[area.value for area in FaceArea], optional=True
    )
    return tuple(FaceArea(word) for word in words if word in tuple(FaceArea))


def _shells(table: Table, shells: tuple[int, ...]) -> tuple[int, ...]:
    """The shells that a part goes on; all where the sheet does not say."""
    if not table.may_have("shells"):
        return shells
    chosen = table.listed("shells", _SHELLS)
    for place, number in enumerate(chosen):
        if isinstance(number, bool) or number not in shells:
            wrong = f"there is no shell {number}"
            right = "Write some of: " + ", ".join(map(str, shells))
            table.fault("shells", wrong, right, item=place)
    return tuple(number for number in chosen if isinstance(number, int))
