"""How the shells curve inside, and what is believed of insides that nobody measured."""

from collections.abc import Mapping
from dataclasses import replace
from math import ceil, floor

from helmwright.belief import exactly
from helmwright.catalogue.hollow import (
    CROWN_OVER_LEVEL_MM,
    JAW_BELOW_LEVEL_MM,
    jaw_widths_mm,
)
from helmwright.catalogue.insides import INSIDE_NUMBERS, InsideBelief, quantity
from helmwright.catalogue.reading.shells import ShellRow
from helmwright.catalogue.reading.table import Table, interval
from helmwright.catalogue.sheet import USUAL_FORM, PadKind, Shell, ShellForm
from helmwright.catalogue.usual import completed, usual_head, usual_insides, usual_rear_taper
from helmwright.catalogue.zone import ZONES, Zone

Shells = list[tuple[Table, Shell]]


def read_insides(
    form_table: Table | None,
    rows: list[ShellRow],
    pads: Mapping[Zone, PadKind],
    ages: tuple[float, float] | None,
) -> tuple[ShellForm, Shells, InsideBelief | None]:
    """Form and shells, and what is believed of the insides; None where all were measured.

    Notes
    -----
    What the sheet gives counts as exact. What it leaves out is the usual, corrected by what was
    given for this shell and the others: the errors of the sizes hang together.
    """
    form = read_form(form_table)
    lacking = any(len(row.given) < len(INSIDE_NUMBERS) for row in rows)
    numbers = [row.shell.number for row in rows]
    if not lacking or len(set(numbers)) < len(numbers) or set(pads) != set(ZONES):
        return form, [(row.table, row.shell) for row in rows], None
    heads = {row.shell.number: usual_head(ages, _middle(row.shell)) for row in rows}
    given = [
        exactly(quantity(row.shell.number, key), value)
        for row in rows
        for key, value in row.given.items()
    ]
    insides = usual_insides(heads, pads).given(given)
    if form_table is None or "rear_taper" not in form_table.data:
        middle = rows[len(rows) // 2].shell.number
        length = float(insides.of(middle).mean[0])
        taper = usual_rear_taper(form, heads[middle], length, pads[Zone.NAPE])
        form = replace(form, rear_taper=taper)
    whole = completed([row.shell for row in rows], insides, form)
    return form, [(row.table, shell) for row, shell in zip(rows, whole, strict=True)], insides


def _middle(shell: Shell) -> float:
    return 0.5 * (shell.chart_low_mm + shell.chart_high_mm)


def check_hollows(table: Table | None, form: ShellForm, shells: list[tuple[Table, Shell]]) -> None:
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
