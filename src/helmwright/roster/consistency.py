"""Readings that do not go with the others of the same head, named for the person who took them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from helmwright.anatomy import (
    Combined,
    Finding,
    FindingKind,
    check_readings,
    combined,
)
from helmwright.roster.columns import Column
from helmwright.roster.player import Player
from helmwright.roster.remark import Remark
from helmwright.units import inches

Entry = tuple[Column, str]

HOPELESS_TIMES = 3.0
"""Readings this many times further apart than clean ones are not averaged (assumed)."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What is to be said about one head's readings; a problem keeps the head from an answer."""

    problems: tuple[Remark, ...]
    notices: tuple[Remark, ...]


def check_head(player: Player, measured: Sequence[Entry], who: str) -> Checked:
    """Everything about the readings of one player that a person should look at, by column."""
    hopeless = tuple(_hopeless(player, measured, who))
    if hopeless:
        return Checked(hopeless, ())
    findings = check_readings(player.readings, **player.stated)
    said = [(f.blocks, _remark(f, player, measured, who)) for f in findings]
    return Checked(
        tuple(remark for blocks, remark in said if blocks),
        tuple(remark for blocks, remark in said if not blocks),
    )


def _hopeless(player: Player, measured: Sequence[Entry], who: str) -> Iterator[Remark]:
    """Repeats so far apart that one of them is misread, and their mean would be neither."""
    for group in combined(player.readings):
        if group.set_aside_mm is None and group.apart_mm > HOPELESS_TIMES * group.limit_mm:
            place, value = _cells((group.measure,), measured)
            wrong = f"{_apart(group)}, so one of them is misread"
            yield Remark(player.row, place, value, wrong, "measure again", who)


def _remark(finding: Finding, player: Player, measured: Sequence[Entry], who: str) -> Remark:
    """One finding, with the columns and cells that it speaks of."""
    place, value = _cells(finding.measures, measured)
    wrong, right = finding.message.rstrip("."), finding.suggestion or ""
    if finding.kind == FindingKind.REPEATS_APART:
        group = max(
            (g for g in combined(player.readings) if g.measure == finding.measures[0]),
            key=lambda each: each.apart_mm / each.limit_mm,
        )
        limit = inches(group.limit_mm, denominator=16, mark=" in")
        wrong = f"{_apart(group)}; clean ones stay within {limit}, 19 times of 20"
        right = "take one more; until then their mean stands"
    return Remark(player.row, place, value, wrong, right, who)


def _apart(group: Combined) -> str:
    """How far a measure's readings lie apart."""
    return f"the readings lie {inches(group.apart_mm, denominator=16, mark=' in')} apart"


def _cells(measures: Sequence[str], measured: Sequence[Entry]) -> tuple[str, str]:
    """Headings and cells of the measures, joined."""
    entries = [(column, cell) for column, cell in measured if column.measure in measures]
    place = " and ".join(column.heading for column, _ in entries)
    return place, " and ".join(cell for _, cell in entries)
