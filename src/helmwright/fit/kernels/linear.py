"""Many builds on many heads at once, by how each head answers to each pad."""

import numpy as np
import numpy.typing as npt
from numba import njit

from helmwright.fit.kernels.law import pressure

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Bits = npt.NDArray[np.uint8]


@njit(cache=True, error_model="numpy", nogil=True)
def judge_linear(
    builds: Integers, steps: Floats, stroke: Floats, brow: Floats, stroke_slope: Floats,
    brow_slope: Floats, zones: Integers, areas: Floats, foam: Floats, knots: Floats,
    weights: Floats, bands: Floats, right: Bits, faults: Bits,
) -> None:  # fmt: skip
    """Verdicts of builds from strokes that answer to each pad by one slope up and one down.

    Parameters
    ----------
    builds
        Index of each zone's pad, shape (b, 8).
    steps
        Thickness of each pad over the base build's, shape (8, t) [mm].
    stroke, brow
        Of each head in the base build, shapes (h, s), (h,) [mm].
    stroke_slope, brow_slope
        Per mm of each zone's pad, thinner and thicker, shapes (h, 2, 8, s), (h, 2, 8) [1].
    zones, areas, foam
        As in `helmwright.fit.kernels.batch`.
    knots, weights
        Of every pad, shape (8, t, k).
    bands
        As in `helmwright.fit.kernels.batch.judge`.
    right
        Out, shape (b, h): 1 where everything is right at once.
    faults
        Out, shape (b, h): how many zones are wrong, the brow as one of them.
    """
    count = steps.shape[0]
    whole, mean = np.zeros(count), np.zeros(count)
    bad = np.zeros(count, dtype=np.uint8)
    for i in range(zones.shape[0]):
        whole[zones[i]] += areas[i]
    moved, side, by = np.empty(count, np.int64), np.empty(count, np.int64), np.empty(count)
    for b in range(builds.shape[0]):
        changes = _changes(builds[b], steps, moved, side, by)
        for h in range(stroke.shape[0]):
            height = brow[h]
            for k in range(changes):
                height += brow_slope[h, side[k], moved[k]] * by[k]
            mean[:], bad[:] = 0.0, 0
            for i in range(zones.shape[0]):
                here = stroke[h, i]
                for k in range(changes):
                    here += stroke_slope[h, side[k], moved[k], i] * by[k]
                z = zones[i]
                pad = builds[b, z]
                value = foam[h, z] * pressure(knots[z, pad], weights[z, pad], here)[0]
                mean[z] += areas[i] / whole[z] * value
                if value > bands[2] or -here > bands[5]:
                    bad[z] = 1
            wrong = _wrong(height, mean, bad, whole, bands)
            faults[b, h] = wrong
            right[b, h] = 1 if wrong == 0 else 0


@njit(cache=True, error_model="numpy", nogil=True)
def _changes(build: Integers, steps: Floats, moved: Integers, side: Integers, by: Floats) -> int:
    """Which zones differ from the base build, which way and by how much; returns how many."""
    changes = 0
    for z in range(steps.shape[0]):
        step = steps[z, build[z]]
        if step != 0.0:
            moved[changes], by[changes] = z, step
            side[changes] = 1 if step > 0.0 else 0
            changes += 1
    return changes


@njit(cache=True, error_model="numpy", nogil=True)
def _wrong(height: float, mean: Floats, bad: Bits, whole: Floats, bands: Floats) -> int:
    """How many zones are wrong, and the brow; zones without a pad are not asked."""
    wrong = 0 if bands[3] <= height <= bands[4] else 1
    for z in range(mean.shape[0]):
        if whole[z] > 0.0 and (bad[z] or not bands[0] <= mean[z] <= bands[1]):
            wrong += 1
    return wrong
