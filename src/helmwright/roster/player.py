"""A player as the roster gives him, and the roster as a whole."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from helmwright.anatomy import MeasurerError, Over, Reading, Sex
from helmwright.anatomy.prior import MALE_SHARE, Stated
from helmwright.roster.remark import Remark
from helmwright.roster.table import Table


@dataclass(frozen=True, slots=True)
class Player:
    """One player: who, and what was read off tape and caliper.

    The row is what tells players apart: a jersey number is no key, and duplicates are legal.

    Parameters
    ----------
    row
        Row number as a spreadsheet shows it; 0 for a player who stands in no file.
    number, name, position
        As written.
    sex, stature_mm, weight_kg
        Covariates of the head, where they are given.
    male_share
        Chance of male before anything is read, where sex is not stated [1].
    readings
        Readings of the head, in the order of the columns.
    build_now
        What is in the helmet now, as written; empty where nobody said.
    glasses
        Whether glasses are worn to play; None where nobody said.
    guard
        The face guard asked for, as written; empty where nobody asked.
    age_years
        Age, in completed years where whole; None where not stated [years].
    ages
        Youngest and oldest that the player may be, where the age is not stated [years]. With
        neither, an adult. No date of birth is kept.
    worn
        What will be worn under the helmet, where somebody said; a bare head is said too.

    """

    row: int
    number: str = ""
    name: str = ""
    position: str = ""
    sex: Sex | None = None
    stature_mm: float | None = None
    weight_kg: float | None = None
    readings: tuple[Reading, ...] = ()
    male_share: float = MALE_SHARE.value
    build_now: str = ""
    glasses: bool | None = None
    guard: str = ""
    worn: tuple[Over, ...] | None = None
    age_years: float | None = None
    ages: tuple[float, float] | None = None

    @property
    def stated(self) -> Stated:
        """What is known of the player before any reading, as the head's estimate takes it."""
        return Stated(
            sex=self.sex,
            stature_mm=self.stature_mm,
            weight_kg=self.weight_kg,
            male_share=self.male_share,
            age_years=self.age_years,
            ages=self.ages,
        )

    @property
    def label(self) -> str:
        """What to call the player in a list."""
        numbered = f"no. {self.number}" if self.number else ""
        return self.name or numbered or (f"row {self.row}" if self.row else "this player")


NAMES_SHOWN = 5
"""Of more players the first are named."""


def some_names(names: Sequence[str]) -> str:
    """All of a few names, or the first of many: "Teal, Coot"."""
    more = len(names) - NAMES_SHOWN
    return ", ".join(names) if more <= 1 else f"{', '.join(names[:NAMES_SHOWN])} and {more} more"


@dataclass(frozen=True, slots=True)
class Roster:
    """What a file holds: the players that can be answered, and what was found on the way.

    Parameters
    ----------
    players
        In the order of the file.
    problems
        Why a row is not answered; a row may have several.
    notices
        What to look at, though the row is answered.
    table
        The table that was read, with its cells as written; None for players of no file.
    measurers
        How well each person who measures does, where the roster says who did.

    """

    players: tuple[Player, ...]
    problems: tuple[Remark, ...] = ()
    notices: tuple[Remark, ...] = ()
    table: Table | None = field(default=None, compare=False, repr=False)
    measurers: tuple[MeasurerError, ...] = ()
