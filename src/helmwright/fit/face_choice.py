"""Which face guard and chin strap for one player: what the sheet allows, and in which order."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from helmwright.catalogue.parts import ChinStrap, FaceGuard, Position
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.face_outlook import FaceOutlook, GuardOutlook, StrapOutlook
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

ALIKE = Figure(0.1, "1", ASSUMED, note="guards whose chances differ by less are called alike")


@dataclass(frozen=True, slots=True)
class FaceWish:
    """What a player brings to the choice.

    Parameters
    ----------
    positions
        Where the player plays; empty where nobody said.
    glasses
        Whether glasses are worn; None where nobody said.
    guard
        The guard asked for, by its name on the sheet; empty for none.
    """

    positions: tuple[Position, ...] = ()
    glasses: bool | None = None
    guard: str = ""


@dataclass(frozen=True, slots=True)
class Refusal:
    """A guard that is not proposed, and why.

    `by_position` is true where nothing but the position speaks against it.
    """

    guard: str
    why: str
    by_position: bool = False


@dataclass(frozen=True, slots=True)
class FaceSet:
    """A guard with the strap that goes with it; no strap where the sheet lists none."""

    guard: GuardOutlook
    strap: StrapOutlook | None


@dataclass(frozen=True, slots=True)
class FaceChoice:
    """The answer.

    Parameters
    ----------
    wish
        What was asked.
    allowed
        What may be used, best first; what the player asked for comes first where it is allowed.
    refused
        What may not, and why; what the player asked for first.
    """

    wish: FaceWish
    allowed: tuple[FaceSet, ...]
    refused: tuple[Refusal, ...]

    @property
    def wish_refused(self) -> Refusal | None:
        """Why the player's own choice is refused; None where it is not, or there is none."""
        asked = plain(self.wish.guard)
        return next((each for each in self.refused if asked and plain(each.guard) == asked), None)


def choose_face(sheet: ModelSheet, outlook: FaceOutlook, wish: FaceWish) -> FaceChoice:
    """Rank the guards that the sheet allows this player, each with its strap.

    Parameters
    ----------
    sheet
        The model.
    outlook
        Guards and straps before this face.
    wish
        Position, glasses, the player's own choice.

    Notes
    -----
    Refused: a guard that is not on the sheet, not listed for the shell, not for glasses where
    they are worn, not made for the player's positions, or left without a strap by the sheet's
    exclusions. The rest are ranked by what is free to see, then by the nose's distance, each to a
    tenth of chance, then by mass. A guard for one of several positions will do.
    """
    seen = {each.guard.name: each for each in outlook.guards}
    allowed, refused = [], []
    for guard in sheet.face_guards:
        why, position = _why_not(sheet, guard, outlook, wish), _why_not_here(guard, wish)
        if why or position:
            refused.append(Refusal(guard.name, why or position or "", by_position=why is None))
        else:
            allowed.append(FaceSet(seen[guard.name], _strap(sheet, guard, outlook.straps)))
    asked = plain(wish.guard)
    if asked and asked not in {plain(guard.name) for guard in sheet.face_guards}:
        refused.append(Refusal(wish.guard, _unknown(sheet, asked)))
    return FaceChoice(
        wish,
        tuple(
            sorted(allowed, key=lambda each: (_other(each.guard.guard.name, asked), _rank(each)))
        ),
        tuple(sorted(refused, key=lambda each: _other(each.guard, asked))),
    )


def excludes(sheet: ModelSheet, guard: FaceGuard, strap: ChinStrap) -> str | None:
    """Why the sheet forbids the two in one helmet; None where it does not."""
    both = {guard.name, strap.name}
    return next((each.why for each in sheet.exclusions if set(each.parts) <= both), None)


def plain(name: str) -> str:
    """A name as it is compared: without regard to capitals, spaces and punctuation."""
    return " ".join(re.findall(r"\w+", name.lower()))


def _other(name: str, asked: str) -> bool:
    return plain(name) != asked


def _unknown(sheet: ModelSheet, asked: str) -> str:
    names = {plain(guard.name): guard.name for guard in sheet.face_guards}
    near = get_close_matches(asked, names, n=1)
    if near:
        return f'the sheet of {sheet.model} lists no such guard. Did you mean "{names[near[0]]}"?'
    listed = "; ".join(names.values()) or "none"
    return f"the sheet of {sheet.model} lists no such guard; it lists: {listed}"


def _why_not(
    sheet: ModelSheet, guard: FaceGuard, outlook: FaceOutlook, wish: FaceWish
) -> str | None:
    """Why a guard is refused whoever plays where; None where it is not."""
    if outlook.shell not in guard.shells:
        shells = ", ".join(map(str, guard.shells))
        return f"the sheet lists it for shell {shells}, not for shell {outlook.shell}"
    if wish.glasses and not guard.glasses:
        return "the sheet says that glasses cannot be worn under it"
    on_shell = [strap for strap in sheet.chin_straps if outlook.shell in strap.shells]
    reasons = [excludes(sheet, guard, strap) for strap in on_shell]
    if reasons and all(reasons):
        return f"no strap for shell {outlook.shell} may go with it: {reasons[0]}"
    return None


def _why_not_here(guard: FaceGuard, wish: FaceWish) -> str | None:
    """Why a guard is not for the player's positions; None where it is, or nothing is said."""
    if not (wish.positions and guard.positions) or set(wish.positions) & set(guard.positions):
        return None
    made, plays = (", ".join(each) for each in (guard.positions, wish.positions))
    return f"the sheet makes it for {made}; not for {plays}"


def _strap(
    sheet: ModelSheet, guard: FaceGuard, straps: Sequence[StrapOutlook]
) -> StrapOutlook | None:
    """Of the straps that may go with a guard, the one with the likeliest cup; else the first."""
    free = [each for each in straps if excludes(sheet, guard, each.strap) is None]
    return max(free, key=_suits, default=None)


def _suits(strap: StrapOutlook) -> int:
    reach = [point.in_reach for point in strap.points]
    cup = sum(chance for _, chance in strap.sizes)
    return _tenth(min([*reach, cup] if strap.sizes else reach, default=0.0))


def _rank(each: FaceSet) -> tuple[int, int, float, str]:
    guard = each.guard
    mass = guard.guard.mass_kg
    return (
        -_tenth(guard.sight),
        -_tenth(guard.nose_right),
        float("inf") if mass is None else mass,
        guard.guard.name,
    )


def _tenth(chance: float) -> int:
    return round(chance / ALIKE.value)
