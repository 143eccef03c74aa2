"""What the estimate leads to expect at a check: brow, nose, sight, lengths of the strap."""

from dataclasses import dataclass

import numpy as np

from helmwright.catalogue.instruction import FitTopic
from helmwright.fit.cloud import Cloud
from helmwright.fit.face import face_outlook
from helmwright.fit.face_choice import FaceWish, choose_face
from helmwright.fit.face_outlook import GuardOutlook, PointOutlook, StrapOutlook
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.outlook import Build, Spread
from helmwright.units import inches
from helmwright.visit.check import Check
from helmwright.visit.check_list import Protocol

FACE_ASSUMED = "Where eyes, nose and chin lie is assumed; the check on the head decides."
"""Said wherever a person reads what is expected of guard and strap."""

BROW_ASSUMED = "By the model, strap fastened; hair and a head's bumps are assumed."
"""Said wherever a person reads the expected brow height."""

REACHED = 0.95
"""A buckle that allows a length on fewer of such faces is told to fall short (assumed)."""

_PLACES = {2: ("high", "low"), 3: ("high", "middle", "low")}


@dataclass(frozen=True, slots=True)
class FaceStart:
    """Guard and strap to begin with, before such faces; None where the sheet has none to give."""

    guard: GuardOutlook | None
    strap: StrapOutlook | None


@dataclass(frozen=True, slots=True)
class StrapStart:
    """What one point of a strap is set to before it is tried, left and right alike.

    Parameters
    ----------
    place
        Which point of one side, by its height.
    start_mm
        From the edge of the cup to the snap, to the eighth of an inch [mm].
    low_mm, high_mm
        Nine of ten such faces need a length between these [mm].
    in_reach
        Chance that the buckle allows what the face needs [1].
    """

    place: str
    start_mm: float
    low_mm: float
    high_mm: float
    in_reach: float


@dataclass(frozen=True, slots=True)
class Expectation:
    """What is expected at one check.

    Parameters
    ----------
    check
        The check's key.
    says
        In plain words, inches first.
    assumed
        What it leans on, to be shown with it.
    length_mm
        The expected length, where the check reads one.
    strap
        Where to begin with each point, at the check of the strap.
    """

    check: str
    says: str
    assumed: str
    length_mm: Spread | None = None
    strap: tuple[StrapStart, ...] = ()


def expectations(
    protocol: Protocol, *, brow_mm: Spread | None = None, face: FaceStart | None = None
) -> dict[str, Expectation]:
    """What to expect at each check that something is known of, by its key.

    Parameters
    ----------
    protocol
        The checks.
    brow_mm
        The brow height of the build on such heads [mm]; None where it was not computed.
    face
        Guard and strap before such faces; None where nobody asked.
    """
    guard, strap = (face.guard, face.strap) if face else (None, None)
    found: list[Expectation | None] = []
    for check in protocol.checks:
        if check.sign is Sign.BROW and brow_mm is not None:
            found.append(_brow(check.key, brow_mm))
        elif check.sign is Sign.NOSE and guard is not None:
            found.append(_nose(check, guard))
        elif check.sign is Sign.SIGHT and guard is not None:
            found.append(_sight(check.key, guard))
    if strap is not None:
        found.append(_strap(protocol, strap))
    return {each.check: each for each in found if each is not None}


def face_start(
    cloud: Cloud, build: Build, *, rng: np.random.Generator, wish: FaceWish | None = None
) -> FaceStart:
    """The guard that suits best among those allowed, with its strap, before such faces.

    Parameters
    ----------
    cloud
        The heads that are believed possible now.
    build
        The build.
    rng
        The random generator.
    wish
        Position, glasses, the player's own choice.

    Notes
    -----
    Where no guard is listed or allowed, the strap is the first that the sheet lists for the shell.
    """
    parts, counts = np.unique(cloud.part_of, return_counts=True)
    labels = tuple(cloud.estimate.belief.labels[part] for part in parts)
    outlook = face_outlook(
        cloud.trial(build.shell), cloud.heads, build, rng=rng, labels=labels,
        weights=counts / counts.sum(),
    )  # fmt: skip
    allowed = choose_face(cloud.sheet, outlook, wish or FaceWish()).allowed
    if allowed:
        return FaceStart(allowed[0].guard, allowed[0].strap)
    return FaceStart(None, outlook.straps[0] if outlook.straps else None)


def strap_starts(strap: StrapOutlook) -> tuple[StrapStart, ...]:
    """The starting length of every point of one side; empty where the sheet gives no snaps."""
    count = len(strap.points)
    places = _PLACES.get(count, tuple(f"number {place}" for place in range(1, count + 1)))
    return tuple(_start(place, point) for place, point in zip(places, strap.points, strict=True))


def _start(place: str, point: PointOutlook) -> StrapStart:
    spread = point.start_mm
    eighth = 25.4 / 8.0
    start = round(spread.median / eighth) * eighth
    return StrapStart(place, start, spread.low, spread.high, point.in_reach)


def _brow(key: str, brow: Spread) -> Expectation:
    says = f"Expect about {_told(brow, 16)} from brow to edge."
    return Expectation(key, says, BROW_ASSUMED, length_mm=brow)


def _nose(check: Check, guard: GuardOutlook) -> Expectation:
    says = f"Expect about {_told(guard.nose_mm, 8)} with the guard {guard.guard.name}."
    if not guard.from_sheet:
        says += " The sheet does not say where its bars are: usual places."
    if check.length is not None and check.length.grade(guard.nose_mm.median) is not Grade.RIGHT:
        says += " That is not what is accepted: have another guard at hand."
    return Expectation(check.key, says, FACE_ASSUMED, length_mm=guard.nose_mm)


def _sight(key: str, guard: GuardOutlook) -> Expectation:
    says = f"Expect the line straight ahead to be free on {_of_hundred(guard.level_clear)}."
    if guard.level_clear < REACHED:
        bar = guard.level_bar
        where = f"bar {bar} from the top" if bar else "the front edge"
        says += f" If not, {where} stands in it most often."
    return Expectation(key, says, FACE_ASSUMED)


def _strap(protocol: Protocol, strap: StrapOutlook) -> Expectation | None:
    """What to set the strap to, at the first check that is about it."""
    about = [check for check in protocol.checks if check.topic is FitTopic.CHIN_STRAP]
    if not about:
        return None
    starts = strap_starts(strap)
    says = f"{strap.strap.name.capitalize()}{f', {strap.size} cup' if strap.size else ''}."
    if starts:
        lengths = ", ".join(f"{each.place} {inches(each.start_mm)} in" for each in starts)
        says += f" Start, from cup to snap: {lengths}. Left and right alike."
    else:
        says += " The sheet gives no lengths: begin with all points alike."
    short = [each.place for each in starts if each.in_reach < REACHED]
    if short:
        says += f" Some faces need more or less than the buckle gives: {' and '.join(short)}."
    return Expectation(about[0].key, says, FACE_ASSUMED, strap=starts)


def _told(spread: Spread, parts: int) -> str:
    """The middle, and where nine of ten lie."""
    middle, low, high = (
        inches(each, denominator=parts) for each in (spread.median, spread.low, spread.high)
    )
    return f"{middle} in ({low} to {high}, 9 of 10)"


def _of_hundred(chance: float) -> str:
    return f"{min(max(round(100 * chance), 1), 99)} of 100 such faces"
