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
    """Verdicts of builds from strokes that answer linearly to the pads.

    Parameters
    ----------
    builds
        Index of each zone's pad, shape (b, 8).
    steps
        Thickness of each pad over the base build's, shape (8, t) [mm].
    stroke, brow
        Of each head in the base build, shapes (h, s), (h,) [mm].
    stroke_slope, brow_slope
        Per mm of each zone's pad, shapes (h, 8, s), (h, 8) [1].
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
    bad = np.zeros(count, dtype=np.bool_)
    for i in range(zones.shape[0]):
        whole[zones[i]] += areas[i]
    for b in range(builds.shape[0]):
        for h in range(stroke.shape[0]):
            height = brow[h]
            for z in range(count):
                mean[z], bad[z] = 0.0, False
                height += brow_slope[h, z] * steps[z, builds[b, z]]
            for i in range(zones.shape[0]):
                here = stroke[h, i]
                for z in range(count):
                    here += stroke_slope[h, z, i] * steps[z, builds[b, z]]
                z = zones[i]
                pad = builds[b, z]
                value = foam[h, z] * pressure(knots[z, pad], weights[z, pad], here)[0]
                mean[z] += areas[i] / whole[z] * value
                bad[z] = bad[z] or value > bands[2] or -here > bands[5]
            wrong = 0 if bands[3] <= height <= bands[4] else 1
            for z in range(count):
                if whole[z] == 0.0:
                    continue
                if bad[z] or not bands[0] <= mean[z] <= bands[1]:
                    wrong += 1
            faults[b, h] = wrong
            right[b, h] = 1 if wrong == 0 else 0
