"""What a face guard leaves to see, and how far it stands from the nose: geometry alone."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.face import PUPILS_APART
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, MCGUINE_1997

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

EDGE_THICKNESS = Figure(5.0, "mm", ASSUMED, note="thickness of the shell at its front edge")
LEAST_UP = Figure(
    25.0, "deg", ASSUMED, note="free angle above the level line that lets a player see a high ball"
)
FINGER = Figure(19.05, "mm", ASSUMED, note="breadth of a finger where fingers are the rule")
LEAST_NOSE = Figure(
    50.8, "mm", MCGUINE_1997, note="nose to bar: the least that a survey of helmets asked for"
)
MOST_NOSE = Figure(69.85, "mm", ASSUMED, note="nose to bar: three broad fingers, 2 3/4 in")

NOTHING = -1
EDGE = 0
OPEN_DEG = 90.0
BEND_PIECES = 12
"""Straight pieces for a bend; on a quarter circle of 75 mm none is off by more than 0.2 mm."""


@dataclass(frozen=True)
class Sight:
    """The view of n eyes in the middle plane.

    Parameters
    ----------
    up_deg, down_deg
        Free angle above and below the level line, shape (n,) [deg]; 0 where it is barred.
    barred_by
        What stands in the level line: NOTHING, EDGE, or a bar from 1, shape (n,).
    """

    up_deg: Floats
    down_deg: Floats
    barred_by: Integers


def sight_past(eye: Floats, edge: Floats, bars: Floats, radius_mm: float) -> Sight:
    """The view past a front edge and the bars of a guard.

    Parameters
    ----------
    eye, edge
        Eye point and inner front edge, ahead and above, shape (n, 2) [mm].
    bars
        Middles of the bars, shape (n, b, 2) [mm].
    radius_mm
        Of a bar [mm].

    Notes
    -----
    A bar of radius r at the distance d hides the angle from t - a to t + a, t its own elevation
    and sin a = r / d; one in the eye, which only a slip on a sheet can put there, hides all. The
    front edge hides all above the elevation of its outer lip. Valid in the middle plane; the sides
    of a guard and a visor are left out.
    """
    out, up = (edge - eye).T
    lip = np.degrees(np.arctan2(up, np.maximum(out + EDGE_THICKNESS.value, 1.0)))
    ray = bars - eye[:, None, :]
    far = np.linalg.norm(ray, axis=-1)
    middle = np.degrees(np.arctan2(ray[..., 1], ray[..., 0]))
    half = np.degrees(np.arcsin(np.minimum(radius_mm / np.maximum(far, 1e-9), 1.0)))
    low, high = middle - half, middle + half
    barred = ((low < 0.0) & (high > 0.0)) | (far <= radius_mm)
    by = np.where(barred.any(axis=1), barred.argmax(axis=1) + 1, NOTHING)
    by = np.where(lip <= 0.0, EDGE, by)
    above = np.where(low >= 0.0, low, OPEN_DEG).min(axis=1, initial=OPEN_DEG)
    below = np.where(high <= 0.0, -high, OPEN_DEG).min(axis=1, initial=OPEN_DEG)
    clear = by == NOTHING
    return Sight(np.where(clear, np.minimum(above, lip), 0.0), np.where(clear, below, 0.0), by)


def side_sight_deg(eye_ahead: Floats, edge_ahead: Floats, clear_across_mm: float) -> Floats:
    """Free angle from straight ahead to one's own side, shape (n,) [deg].

    Parameters
    ----------
    eye_ahead, edge_ahead
        How far ahead the eyes and the guard's sides are, shape (n,) [mm].
    clear_across_mm
        From side to side between them [mm].

    Notes
    -----
    The angle whose tangent is the way aside over the way ahead; more than 90 where the guard's
    side lies behind the eye. The wearer's own face, which ends the view there, is left out.
    """
    aside = (clear_across_mm - PUPILS_APART.value) / 2.0
    return np.asarray(np.degrees(np.arctan2(aside, edge_ahead - eye_ahead)))


def nose_clearance(
    nose: Floats, edge: Floats, bars: Floats, radius_mm: float, *, upright: bool
) -> tuple[Floats, Integers]:
    """Distance from the tip of the nose to the nearest bar, and which one that is.

    Parameters
    ----------
    nose, edge
        Tip of the nose and front edge, shape (n, 2) [mm].
    bars
        Middles of the bars, top to bottom, shape (n, b, 2) [mm].
    radius_mm
        Of a bar [mm].
    upright
        Whether a bar runs down the middle from the front edge to the first one across.

    Returns
    -------
    tuple of ndarray
        To the surface of the bar, shape (n,) [mm], below 0 where it touches; and the bar from 1,
        shape (n,).

    Notes
    -----
    An upright bar is a bent wire: it leaves the shell level, outside its edge, and comes down plumb
    on the first bar, as a quarter of an ellipse does (assumed). It counts as the first bar.
    """
    apart = np.linalg.norm(bars - nose[:, None, :], axis=-1)
    if upright:
        start = edge + np.array([EDGE_THICKNESS.value + radius_mm, 0.0])
        apart[:, 0] = np.minimum(apart[:, 0], _to_bend(nose, start, bars[:, 0]))
    return apart.min(axis=1) - radius_mm, apart.argmin(axis=1) + 1


def _to_bend(point: Floats, start: Floats, end: Floats) -> Floats:
    """Distance of points from quarters of ellipses, level at the start, plumb at the end, (n,)."""
    turn = np.linspace(0.0, np.pi / 2.0, BEND_PIECES + 1)
    shares = np.column_stack([np.sin(turn), 1.0 - np.cos(turn)])
    bend = start[:, None, :] + shares * (end - start)[:, None, :]
    pieces = zip(bend.swapaxes(0, 1), bend.swapaxes(0, 1)[1:], strict=False)
    return np.asarray(np.min([_to_segment(point, *piece) for piece in pieces], axis=0))


def _to_segment(point: Floats, start: Floats, end: Floats) -> Floats:
    """Distance of points from segments, row by row, shape (n,)."""
    along = end - start
    share = ((point - start) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-9)
    nearest = start + np.clip(share, 0.0, 1.0)[:, None] * along
    return np.asarray(np.linalg.norm(point - nearest, axis=1))
