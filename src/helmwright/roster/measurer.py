"""Those who measure: whose repeats lie too far apart, and who reads more than another."""

from collections.abc import Iterator, Sequence

from helmwright.anatomy import MeasurerError, MeasurerGap, measure_of, measurer_gaps
from helmwright.roster.player import Player
from helmwright.roster.remark import Remark
from helmwright.units import inches


def measurer_notices(
    players: Sequence[Player], errors: Sequence[MeasurerError]
) -> tuple[Remark, ...]:
    """Notices about persons who measure, over the whole roster."""
    return (*_wide(errors), *_apart(players, errors))


def _wide(errors: Sequence[MeasurerError]) -> Iterator[Remark]:
    """One notice for each person whose repeats lie further apart than usual."""
    past: dict[str, list[MeasurerError]] = {}
    for each in errors:
        if each.is_past_usual:
            past.setdefault(each.by, []).append(each)
    for by, wide in past.items():
        told = "; ".join(
            f"{measure_of(each.measure).name} {_mm(each.own_mm)}, usual {_mm(each.usual_mm)}"
            for each in wide
        )
        yield Remark(
            0,
            "measured by",
            by,
            f"repeats lie further apart than usual (technical error: {told}); the readings count"
            " for less",
            "go through the landmarks together, and take two readings of each head",
        )


def _apart(players: Sequence[Player], errors: Sequence[MeasurerError]) -> Iterator[Remark]:
    known = {(each.by, each.measure): each.used_mm for each in errors}
    for gap in measurer_gaps([player.readings for player in players], known):
        if gap.is_clear:
            yield Remark(0, "measured by", f"{gap.by} and {gap.other}", *_gap_words(gap))


def _gap_words(gap: MeasurerGap) -> tuple[str, str]:
    much = f"{inches(gap.gap_mm, denominator=16, mark=' in')} ({_mm(gap.gap_mm)})"
    wrong = (
        f"on {gap.people} heads that both measured, {gap.by} reads {measure_of(gap.measure).name}"
        f" {much} more than {gap.other} on average; nothing was changed"
    )
    return wrong, "measure one head together, and agree on landmarks and touch"


def _mm(value: float) -> str:
    return f"{value:.1f} mm"
