"""What one more measure would buy: the best build's chance if it were known, against today's."""

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, error_variance
from helmwright.fit.outlook import MeasureGain

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.uint8]

FOLDS = 4
READINGS = 2
"""How often a measure is read when it is taken."""

ASKABLE = (
    "head_length",
    "head_breadth",
    "brow_to_top",
    "jaw_pad_width",
    "tragion_to_top",
    "bigonial_breadth",
    "bizygomatic_breadth",
    "bitragion_chin_arc",
    "tape_circumference",
)


def measure_gains(
    right: Bits, heads: HeadDraws, missing: tuple[str, ...], rng: np.random.Generator
) -> tuple[MeasureGain, ...]:
    """What each missing measure is expected to add to the chance of the best build.

    Parameters
    ----------
    right
        Which heads would be right in each of b builds, shape (b, h).
    heads
        Those heads, and maybe more after them.
    missing
        Measures that could be taken.
    rng
        For the reading errors.

    Returns
    -------
    The gains, largest first. A gain may come out below nothing: then the measure is worth none.

    Notes
    -----
    For each build the chance of being right is fitted as a quadratic in what the tape or caliper
    would read (its error included), by least squares over the draws. The build that the fit calls
    best at each reading is then scored on heads left out of the fit, in four folds, and the same
    is done with no reading at all: the difference is free of the optimism of a maximum.
    """
    counts = right.astype(np.float64)
    count = counts.shape[1]
    folds = np.arange(count) % FOLDS
    plain = _chosen(counts, np.ones((count, 1)), folds)
    gains = []
    for key in missing:
        error = np.sqrt(error_variance(key, READINGS)) * rng.standard_normal(count)
        score = _chosen(counts, _quadratic(heads.of(key)[:count] + error), folds) - plain
        spread = float(score.std() / np.sqrt(count))
        gains.append(MeasureGain(key, float(score.mean()), spread))
    return tuple(sorted(gains, key=lambda gain: -gain.gain))


def _quadratic(read: Floats) -> Floats:
    scaled = (read - read.mean()) / max(float(read.std()), 1e-9)
    return np.column_stack([np.ones_like(scaled), scaled, scaled**2])


def _chosen(right: Floats, basis: Floats, folds: npt.NDArray[np.int64]) -> Floats:
    """On each head, whether the build chosen without it was right, shape (h,)."""
    score = np.empty(right.shape[1])
    for fold in range(FOLDS):
        out = folds == fold
        known = basis[~out]
        fit = np.linalg.solve(known.T @ known, known.T @ right[:, ~out].T)
        best = np.argmax(basis[out] @ fit, axis=1)
        score[out] = right[best, np.flatnonzero(out)]
    return score
