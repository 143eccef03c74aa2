"""Ages: what may be stated, and how far a head of that age is an adult's."""

from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

YOUNGEST = 8.0
"""Heads are modeled from this age on [years]."""

OLDEST = 90.0
"""No player is older [years]."""

LEAVES_YOUTH = Figure(
    16.0, "years", ASSUMED, note="Up to this age a head is drawn from the youth surveys alone."
)
ADULT_AGE = Figure(
    20.0, "years", ASSUMED, note="From this age on a head is drawn from the adult surveys alone."
)


class AgeError(ValueError):
    """An age was stated that nobody on a roster has, or for which there is no survey."""


def checked_age(age_years: float) -> float:
    """The age, where it is one.

    Raises
    ------
    AgeError
        For an age under 8, for which no survey is carried, or over 90 years.
    """
    if not YOUNGEST <= age_years <= OLDEST:
        why = "heads are modeled from 8 years on" if 0.0 <= age_years < YOUNGEST else "check it"
        raise AgeError(f"age {age_years:g} is outside {YOUNGEST:g} to {OLDEST:g} years: {why}")
    return age_years


def is_whole(age_years: float) -> bool:
    """Whether an age is given in completed years, which run on for up to a year."""
    return float(age_years).is_integer()


def adult_share(age_years: float) -> float:
    """How far a head of that age is drawn from the adult surveys, 0 to 1.

    Notes
    -----
    `3 s^2 - 2 s^3` with s from 0 to 1 between LEAVES_YOUTH and ADULT_AGE: neither the share nor
    its slope jumps anywhere.
    """
    s = (age_years - LEAVES_YOUTH.value) / (ADULT_AGE.value - LEAVES_YOUTH.value)
    s = min(max(s, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)
