"""Where a face guard's bars and a chin strap's snaps are: numbers that a rule on a helmet gives.

Bars are counted from the middle of the front edge, because that edge is where the face begins:
the helmet may stand a little askew, and the two short distances are still right. Snaps are
counted from the center of the ear opening, as every other place on a shell is.
"""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED


class FaceArea(StrEnum):
    """What a face guard covers or leaves open."""

    MOUTH = "mouth"
    JAW = "jaw"
    NOSE = "nose"
    EYES = "eyes"


@dataclass(frozen=True, slots=True)
class BarPlace:
    """Where a bar crosses the middle plane, the helmet worn level.

    Parameters
    ----------
    ahead_mm
        Of the inside of the front edge, to the middle of the bar [mm].
    below_mm
        The front edge, likewise [mm].
    """

    ahead_mm: float
    below_mm: float


@dataclass(frozen=True, slots=True)
class Snap:
    """Where one point of a strap fastens, on either side of the shell.

    Parameters
    ----------
    ahead_mm, above_mm
        Of the center of the ear opening [mm].
    shortest_mm, longest_mm
        The strap from the edge of the cup to this snap, as far as its buckle lets it [mm].
    """

    ahead_mm: float
    above_mm: float
    shortest_mm: float
    longest_mm: float


BAR_THICKNESS = Figure(6.0, "mm", ASSUMED, note="thickness of a bar where the sheet gives none")
USUAL_AHEAD = Figure(
    65.0, "mm", ASSUMED, spread=10.0, note="bars ahead of the front edge where the sheet is silent"
)
USUAL_LOWEST = Figure(
    142.0, "mm", ASSUMED, spread=10.0, note="lowest bar below the front edge, likewise"
)
USUAL_TOP = {
    FaceArea.EYES: Figure(
        45.0, "mm", ASSUMED, note="highest bar of a guard over the eyes, likewise"
    ),
    FaceArea.NOSE: Figure(
        70.0, "mm", ASSUMED, note="the same where the nose is the highest covered"
    ),
    FaceArea.MOUTH: Figure(98.0, "mm", ASSUMED, note="the same where the mouth is"),
    FaceArea.JAW: Figure(130.0, "mm", ASSUMED, note="the same where the jaw is"),
}

CUP_WIDTH = Figure(90.0, "mm", ASSUMED, note="a cup from edge to edge where the sheet gives none")
WALL = Figure(8.0, "mm", ASSUMED, note="shell and snap outside the inside width at the jaw pads")


def usual_places(covers: tuple[FaceArea, ...], bars: int) -> tuple[BarPlace, ...]:
    """Places of the bars of a guard whose sheet gives none, top to bottom; assumed, and wide.

    Parameters
    ----------
    covers
        The parts of the face behind a bar.
    bars
        How many bars run across.
    """
    top = min(USUAL_TOP[area].value for area in covers or (FaceArea.JAW,))
    step = (USUAL_LOWEST.value - top) / max(bars - 1, 1)
    return tuple(BarPlace(USUAL_AHEAD.value, top + step * place) for place in range(bars))
