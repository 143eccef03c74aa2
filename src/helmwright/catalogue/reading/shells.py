"""Shells, and how their insides curve."""

from itertools import pairwise

from helmwright.catalogue.reading.table import Table
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
    if shell.chart_low_mm < smaller.chart_high_mm:
        wrong = (
            f"the band starts at {shell.chart_low_mm:g} mm, inside the band of shell "
            f"{smaller.number}, which ends at {smaller.chart_high_mm:g} mm"
        )
        right = f"Start it at {smaller.chart_high_mm:g} mm or above, and list the smallest first"
        table.fault("chart", wrong, right)
    for key in _GROWING:
        before, now = getattr(smaller, f"{key}_mm"), getattr(shell, f"{key}_mm")
        if now < before:
            wrong = f"{now:g} mm is smaller than the {before:g} mm of shell {smaller.number}"
            table.fault(key, wrong, "A larger shell is no smaller inside: measure both again")


def read_form(table: Table | None) -> ShellForm:
    """How the shells curve inside; what a sheet does not say is as in the usual form."""
    if table is None:
        return USUAL_FORM
    form = ShellForm(
        level_mm=table.length("level", 0, 80, default=USUAL_FORM.level_mm),
        section_exponent=_exponent(table, "section_exponent", 1.8, 4.0),
        dome_exponent=_exponent(table, "dome_exponent", 1.5, 4.0),
        jaw_height_mm=table.length("jaw_height", -90, 20, default=USUAL_FORM.jaw_height_mm),
        rear_taper=_exponent(table, "rear_taper", 0.5, 4.0),
        front_slope=_exponent(table, "front_slope", 0.0, 1.0),
    )
    table.close()
    return form


def _exponent(table: Table, key: str, low: float, high: float) -> float:
    return table.number(key, low, high, "", default=getattr(USUAL_FORM, key))
