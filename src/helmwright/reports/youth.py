"""What is said where a player is, or may be, a youth."""

from collections.abc import Iterable

from helmwright.anatomy import HeadEstimate
from helmwright.anatomy.age import ADULT_AGE
from helmwright.anatomy.head_prior import age_interval
from helmwright.reports.chances import of_hundred
from helmwright.roster import Player

YOUTH_ASSUMED = (
    "Youths: eyebrow, jaw and chin are carried down from adults in proportion, and how fast one"
    " head grows is assumed too. Fit again as they grow."
)


def is_youth(player: Player) -> bool:
    """Whether the player is, or may be, younger than an adult of the surveys."""
    ages = age_interval(player.age_years, player.ages)
    return ages is not None and ages[0] < ADULT_AGE.value


def youth_lines(players: Iterable[Player]) -> tuple[str, ...]:
    """What is assumed of youths, where one is among the players."""
    return (YOUTH_ASSUMED,) if any(is_youth(player) for player in players) else ()


def likely_age(head: HeadEstimate) -> str:
    """Where the age is not stated, the year that the readings make likeliest; else nothing."""
    chances = head.age_chances
    if len(chances) < 2:
        return ""
    age, chance = max(chances.items(), key=lambda each: each[1])
    return (
        f"Age not stated; {age} years is likeliest by the readings, {of_hundred(chance)}, and every"
        " year of the range is weighed."
    )
