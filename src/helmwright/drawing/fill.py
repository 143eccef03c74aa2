"""Hatching and dots: fills as strokes and points, so that every form of a drawing can show them."""

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

DOT_MM = 2.9
"""Distance of dots in a row and of their rows [mm]."""


def hatches(outline: Floats, spacing_mm: float, angle_deg: float = 45.0) -> Floats:
    """Parallel strokes inside a closed outline.

    Parameters
    ----------
    outline
        Corners of a simple polygon, shape (n, 2) [mm].
    spacing_mm
        Distance of the strokes [mm].
    angle_deg
        Their direction from level [deg].

    Returns
    -------
    Both ends of each stroke, shape (h, 2, 2) [mm].

    Notes
    -----
    Each hatch is a line across the plane; where it crosses the outline it goes in or out by turns.
    The strokes stand on one grid through the origin, so that neighbors line up.
    """
    angle = np.radians(angle_deg)
    along = np.array([np.cos(angle), np.sin(angle)])
    across = np.array([-np.sin(angle), np.cos(angle)])
    depth = _levels(outline @ across, spacing_mm)
    ends, level = _crossings(outline @ along, outline @ across, depth)
    return np.asarray(
        ends.reshape(-1, 2, 1) * along + depth[level.reshape(-1, 2)][..., None] * across
    )


def dots(outline: Floats, spacing_mm: float) -> Floats:
    """Points of a staggered grid inside a closed outline, shape (d, 2) [mm]."""
    heights = _levels(outline[:, 1], spacing_mm)
    ends, level = _crossings(outline[:, 0], outline[:, 1], heights)
    first, last = ends.reshape(-1, 2).T
    row = heights[level[::2]]
    shift = 0.5 * spacing_mm * (np.round(row / spacing_mm) % 2)
    start = np.ceil((first - shift) / spacing_mm) * spacing_mm + shift
    count = np.maximum(np.ceil((last - start) / spacing_mm), 0.0).astype(int)
    step = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    return np.column_stack([np.repeat(start, count) + spacing_mm * step, np.repeat(row, count)])


def _levels(depth: Floats, spacing: float) -> Floats:
    """The grid's levels that cross the outline."""
    first, last = np.ceil(depth.min() / spacing), np.floor(depth.max() / spacing)
    return np.asarray(spacing * np.arange(first, last + 1))


def _crossings(
    along: Floats, depth: Floats, levels: Floats
) -> tuple[Floats, npt.NDArray[np.int64]]:
    """Where the outline crosses each level, rising, and the index of that level, shapes (c,)."""
    here = depth[None, :] - levels[:, None]
    there = np.roll(here, -1, axis=1)
    level, edge = np.nonzero((here < 0.0) != (there < 0.0))
    share = here[level, edge] / (here[level, edge] - there[level, edge])
    at = along[edge] + share * (np.roll(along, -1)[edge] - along[edge])
    order = np.lexsort((at, level))
    return np.asarray(at[order]), np.asarray(level[order], dtype=np.int64)
