"""Shells: their bands, and what of their insides was measured."""

from dataclasses import dataclass
from itertools import pairwise

from helmwright.catalogue.reading.table import Table
from helmwright.catalogue.sheet import Shell
from helmwright.catalogue.usual import USUAL_MASS, USUAL_MASS_CENTER, USUAL_YOUTH_MASS


@dataclass(frozen=True)
class ShellRow:
    """One shell as the sheet has it.

    Parameters
    ----------
    table
        Its section.
    shell
        The shell; an inside number that the sheet leaves out holds a stand-in.
    given
        The inside numbers that the sheet gives [mm], by their keys.
    """

    table: Table
    shell: Shell
    given: dict[str, float]


_CHART = 'the two ends of the band, such as ["560 mm", "580 mm"]'
_GROWING = ("inside_length", "inside_breadth", "inside_depth", "jaw_width")
_INSIDES = {
    "inside_length": (150, 330),
    "inside_breadth": (120, 280),
    "inside_depth": (50, 150),
    "jaw_width": (100, 260),
    "front_edge": (20, 100),
}
_MASS_KEYS = ("mass_kg", "mass_center_ahead", "mass_center_above")


def read_shells(tables: list[Table], *, youth: bool) -> list[ShellRow]:
    """The shells that can be read, with faults noted for the rest and for their row of sizes."""
    rows = [_row(table, youth=youth) for table in tables]
    sound = [row for row in rows if row.table.close()]
    for smaller, larger in pairwise(sound):
        _check_step(smaller, larger)
    return [row for row in sound if row.table.sound]


def _row(table: Table, *, youth: bool) -> ShellRow:
    """One shell; what the sheet leaves out of its mass is as usual."""
    number = table.whole("number", 1, 20)
    table.title = f"shell {number}" if "number" in table.data else table.title
    low, high = _chart(table)
    given = {key: table.length(key, *ends) for key, ends in _INSIDES.items() if table.may_have(key)}
    mass = USUAL_YOUTH_MASS if youth else USUAL_MASS
    inside = {f"{key}_mm": given.get(key, float(ends[0])) for key, ends in _INSIDES.items()}
    shell = Shell(
        number=number,
        name=table.text("name", "the maker's own word for the size", default=f"shell {number}"),
        chart_low_mm=low,
        chart_high_mm=high,
        **inside,
        mass_kg=table.number("mass_kg", 0.5, 4.0, "kg", default=mass.value),
        center_of_mass_mm=(
            table.length("mass_center_ahead", -50, 80, default=USUAL_MASS_CENTER[0].value),
            table.length("mass_center_above", -20, 120, default=USUAL_MASS_CENTER[1].value),
        ),
        assumed=tuple(key for key in _MASS_KEYS if not table.may_have(key)),
    )
    return ShellRow(table, shell, given)


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


def _check_step(smaller: ShellRow, larger: ShellRow) -> None:
    """Note what does not grow from one shell to the next."""
    before, now, table = smaller.shell, larger.shell, larger.table
    if now.number <= before.number:
        wrong = f"shell {now.number} comes after shell {before.number}"
        table.fault("number", wrong, "Number the shells upward from the smallest")
    _check_bands(before, table, now)
    for key in _GROWING:
        if larger.given.get(key, 1e9) < smaller.given.get(key, 0.0):
            wrong = (
                f"{larger.given[key]:g} mm is smaller than the {smaller.given[key]:g} mm of shell "
                f"{before.number}"
            )
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
