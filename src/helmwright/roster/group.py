"""What shows over a whole roster before it shows in one head: a tape or caliper that is off."""

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import product

from helmwright.anatomy import (
    Finding,
    Over,
    Sex,
    Touch,
    combined,
    excess_over_ellipse,
    group_excess_finding,
)
from helmwright.anatomy.age import ADULT_AGE
from helmwright.anatomy.covering import thicknesses
from helmwright.anatomy.head_prior import age_interval
from helmwright.anatomy.prior import TAPE_OFFSET
from helmwright.roster.player import Player, some_names
from helmwright.roster.remark import Remark
from helmwright.units import inches

LEAST_HEADS = 8
"""Heads from which on a group is spoken of (assumed)."""

MOSTLY_MALE = 0.9
"""Share of males from which on players of unstated sex count as men (assumed)."""

_OFFSET_SDS = 2.0
_OUTLINE = ("tape_circumference", "head_length", "head_breadth")


def group_notices(players: Sequence[Player]) -> tuple[Remark, ...]:
    """Notices about all the readings together: circumferences long or short for the calipers."""
    return tuple(_notices(players))


def _notices(players: Sequence[Player]) -> Iterator[Remark]:
    for sex, young in product(Sex, (False, True)):
        excesses = [
            excess
            for player in players
            if _counted_as(player) is sex and _is_youth(player) is young
            for excess in _excess(player)
        ]
        finding = _finding(excesses, sex, young=young) if len(excesses) >= LEAST_HEADS else None
        if finding is not None:
            wrong = finding.message.rstrip(".")
            yield Remark(0, "tape, length and breadth", "", wrong, finding.suggestion or "")


def _counted_as(player: Player) -> Sex | None:
    if player.sex is None:
        return Sex.MALE if player.male_share >= MOSTLY_MALE else None
    return player.sex


def _is_youth(player: Player) -> bool | None:
    """Whether the player counts as a youth; neither where it may be either."""
    ages = age_interval(player.age_years, player.ages)
    if ages is None or ages[0] >= ADULT_AGE.value:
        return False
    return True if ages[1] <= ADULT_AGE.value else None


def _excess(player: Player) -> Iterable[float]:
    """The head's excess over its ellipse on the surveys' plane [mm], where all three were read.

    The surveys' women were taped over their hair: a woman who is said to be bare is no such case.
    """
    counted = (Over.UNSTATED,) if player.sex is Sex.FEMALE else (Over.UNSTATED, Over.BARE)
    bare = {
        g.measure: g.value_mm
        for g in combined(player.readings)
        if g.over in counted and g.touch is Touch.DRAWN_IN
    }
    if all(measure in bare for measure in _OUTLINE):
        tape, length, breadth = (bare[measure] for measure in _OUTLINE)
        yield excess_over_ellipse(tape - TAPE_OFFSET.value, length, breadth)


def _finding(excesses: Sequence[float], sex: Sex, *, young: bool) -> Finding | None:
    """The finding, unless an offset of the tape's plane within its spread would explain it."""
    doubt = _OFFSET_SDS * (TAPE_OFFSET.spread or 0.0)
    either_way = [
        group_excess_finding([excess + shift for excess in excesses], sex, young=young)
        for shift in (-doubt, doubt)
    ]
    return group_excess_finding(list(excesses), sex, young=young) if all(either_way) else None


def unsaid_hair_notices(players: Sequence[Player]) -> tuple[Remark, ...]:
    """One notice about the women whose tape went over hair of which nothing was said."""
    names = [player.label for player in players if _hair_unsaid(player)]
    if not names:
        return ()
    written = partial(inches, denominator=16, mark=" in")
    firm, spread = thicknesses(Over.UNSTATED, Sex.FEMALE.value)[0]
    most = firm + _OFFSET_SDS * spread
    return (
        Remark(
            0,
            "worn",
            "",
            f"nothing was said of the hair of {some_names(names)}: taken to be as women of the"
            f" surveys had it, {written(firm)} ({firm:.1f} mm) under the tape, none to"
            f" {written(most)} 19 times of 20 (assumed)",
            "say bare, short hair, thick hair or braids",
        ),
    )


def _hair_unsaid(player: Player) -> bool:
    grown = player.ages is None and (player.age_years or ADULT_AGE.value) >= ADULT_AGE.value
    taped = any(
        reading.measure == _OUTLINE[0] and Over.UNSTATED in reading.kinds
        for reading in player.readings
    )
    return player.sex is Sex.FEMALE and grown and taped
