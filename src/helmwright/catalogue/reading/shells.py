"""Shells, and how their insides curve."""

from itertools import pairwise
from math import ceil, floor

from helmwright.catalogue.hollow import (
    CROWN_OVER_LEVEL_MM,
    JAW_BELOW_LEVEL_MM,
    jaw_widths_mm,
)
from helmwright.catalogue.reading.table import Table, interval
from helmwright.catalogue.sheet import USUAL_FORM, Shell, ShellForm

Read = tuple[Table, Shell]

_CHART = 'the two ends of the band, such as ["560 mm", "580 mm"]'
_GROWING = ("inside_length", "inside_breadth", "inside_depth", "jaw_width")


def read_shells(tables: list[Table]) -> list[Read]:
    """The shells that can be read, with faults noted for the rest and for their row of sizes."""
    shells = [(table, _shell(table)) for table in tables]
    sound = [(table, shell) for table, shell in shells if table.close()]
    for (_, smaller), (table, shell) in pairwise(sound):
        _check_step(smaller, table, shell)
    return [(table, shell) for table, shell in sound if table.sound]


def _shell(table: Table) -> Shell:
    """One shell."""
    number = table.whole("number", 1, 20)
    table.title = f"shell {number}" if "number" in table.data else table.title
    low, high = _chart(table)
    return Shell(
        number=number,
        name=table.text("name", "the maker's own word for the size", default=f"shell {number}"),
        chart_low_mm=low,
        chart_high_mm=high,
        inside_length_mm=table.length("inside_length", 150, 330),
        inside_breadth_mm=table.length("inside_breadth", 120, 280),
        inside_depth_mm=table.length("inside_depth", 50, 150),
        jaw_width_mm=table.length("jaw_width", 100, 260),
        front_edge_mm=table.length("front_edge", 20, 100),
        mass_kg=table.number("mass_kg", 0.5, 4.0, "kg"),
        center_of_mass_mm=(
            table.length("mass_center_ahead", -50, 80),
            table.length("mass_center_above", -20, 120),
        ),
    )


def _chart(table: Table) -> tuple[float, float]:
    """The chart's band [mm]."""
    ends = table.lengths("chart", _CHART, 400, 760)
    if len(ends) != 2:
        if ends:
            table.fault("chart", f"a band has two ends, not {len(ends)}", f"Write {_CHART}")
        return 400.0, 760.0
    (low_text, low), (high_text, high) = ends
    if low >= high:
        wrong = f'the band runs from "{low_text}" down to "{high_text}"'
        table.fault("chart", wrong, "Write the smaller end first")
    return low, high


def _check_step(smaller: Shell, table: Table, shell: Shell) -> None:
    """Note what does not grow from one shell to the next."""
    if shell.number <= smaller.number:
        wrong = f"shell {shell.number} comes after shell {smaller.number}"
        table.fault("number", wrong, "Number the shells upward from the smallest")
    _check_bands(smaller, table, shell)
    for key in _GROWING:
        before, now = getattr(smaller, f"{key}_mm"), getattr(shell, f"{key}_mm")
        if now < before:
            wrong = f"{now:g} mm is smaller than the {before:g} mm of shell {smaller.number}"
            table.fault(key, wrong, "A larger shell is no smaller inside: measure both again")


def _check_bands(smaller: Shell, table: Table, shell: Shell) -> None:
    """Note a band that does not go on from the one before; the two may overlap."""
    for end, word in (("chart_low_mm", "starts"), ("chart_high_mm", "ends")):
        before, now = getattr(smaller, end), getattr(shell, end)
        if now <= before:
            wrong = (
                f"the band {word} at {now:g} mm, where that of shell {smaller.number} {word} at "
                f"{before:g} mm"
            )
            right = (
                "Bands may overlap, but both ends must grow from shell to shell: list the "
                "smallest first, and check the figures"
            )
            table.fault("chart", wrong, right)
            return


def check_hollows(table: Table | None, form: ShellForm, shells: list[Read]) -> None:
    """Note what makes no smooth inside: a level, crown or jaw that do not go together."""
    if table is not None and not table.sound:
        return
    if table is not None and form.level_mm - form.jaw_height_mm < JAW_BELOW_LEVEL_MM:
        wrong = f"{form.jaw_height_mm:g} mm is not well below the level of {form.level_mm:g} mm"
        right = f"Write a height that is {JAW_BELOW_LEVEL_MM:g} mm or more below the level"
        table.fault("jaw_height", wrong, right)
        return
    for shell_table, shell in shells:
        _check_hollow(shell_table, shell, form)


def _check_hollow(table: Table, shell: Shell, form: ShellForm) -> None:
    """Note the numbers of one shell that no smooth inside has."""
    if shell.crown_mm < form.level_mm + CROWN_OVER_LEVEL_MM:
        wrong = (
            f"the crown, front edge and depth together, lies {shell.crown_mm:g} mm above the ear "
            f"opening, and the level of length and breadth at {form.level_mm:g} mm"
        )
        right = (
            f"The crown lies {CROWN_OVER_LEVEL_MM:g} mm or more above the level: measure "
            "front_edge and inside_depth again, or correct the level under [form]"
        )
        table.fault("inside_depth", wrong, right)
    low, high = jaw_widths_mm(shell, form)
    if not low <= shell.jaw_width_mm <= high:
        wrong = (
            f"{shell.jaw_width_mm:g} mm does not go with a breadth of "
            f"{shell.inside_breadth_mm:g} mm at a level of {form.level_mm:g} mm"
        )
        right = (
            f"At {form.jaw_height_mm:g} mm the inside can be {interval(ceil(low), floor(high))} "
            "wide: measure jaw_width and inside_breadth again, or correct jaw_height under [form]"
        )
        table.fault("jaw_width", wrong, right)


def read_form(table: Table | None) -> ShellForm:
    """How the shells curve inside; what a sheet does not say is as in the usual form."""
    if table is None:
        return USUAL_FORM
    form = ShellForm(
        level_mm=table.length("level", 0, 80, default=USUAL_FORM.level_mm),
        section_exponent=_exponent(table, "section_exponent", 1.8, 4.0),
        dome_exponent=_exponent(table, "dome_exponent", 1.5, 4.0),
        jaw_height_mm=table.length("jaw_height", -90, 20, default=USUAL_FORM.jaw_height_mm),
        rear_taper=_exponent(table, "rear_taper", 1.1, 4.0),
        front_slope=_exponent(table, "front_slope", 0.0, 1.0),
    )
    table.close()
    return form


def _exponent(table: Table, key: str, low: float, high: float) -> float:
    return table.number(key, low, high, "", default=getattr(USUAL_FORM, key))
