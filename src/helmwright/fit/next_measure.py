"""What one more measure would buy: the best build's chance if it were known, against today's."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from helmwright.anatomy import HeadDraws, HeadEstimate, measure_of
from helmwright.anatomy.covering import nominal_over
from helmwright.anatomy.reading import combined
from helmwright.fit.contact import Trial
from helmwright.fit.insides import in_shell
from helmwright.fit.near import Near
from helmwright.fit.outlook import Build, MeasureGain
from helmwright.fit.unknowns import BROW_ERROR

Floats = npt.NDArray[np.float64]

FOLDS = 4
READINGS = 2
"""How often a measure is read when it is taken."""

RIVALS, ASIDE = 10, 1.3
"""How many builds are compared, and where along a measure others than the best are looked for."""

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


@dataclass(frozen=True, slots=True)
class Earlier:
    """What was read of a measure already, and what a repeat would have in common with it.

    Parameters
    ----------
    value_mm
        Mean of the readings [mm].
    noise_mm2
        Variance of that mean which a repeat would not share [mm2].
    shared_mm2
        Variance of what a repeat would share: the measurer's bias, and what lies under the tape
        [mm2].
    offset_mm
        Mean of what it would share [mm].
    """

    value_mm: float
    noise_mm2: float
    shared_mm2: float
    offset_mm: float = 0.0

    def shared(self, truth_mm: Floats, rng: np.random.Generator) -> Floats:
        """Draws of what a repeat would share, given each head's true measure [mm].

        Notes
        -----
        The old mean less the truth is the shared part s plus noise e, both normal and independent:
        s given s + e has the mean m + w (s + e - m) and the variance (1 - w) S, with
        w = S / (S + E).
        """
        share = self.shared_mm2 / max(self.shared_mm2 + self.noise_mm2, 1e-12)
        off = self.value_mm - truth_mm - self.offset_mm
        scatter = np.sqrt(self.shared_mm2 * (1.0 - share)) * rng.standard_normal(truth_mm.size)
        return np.asarray(self.offset_mm + share * off + scatter)


def earlier_of(estimate: HeadEstimate) -> dict[str, Earlier]:
    """What was read now, by measure; of readings over two coverings, the surer ones.

    What was read some months ago is read anew, not once more.
    """
    found: dict[str, Earlier] = {}
    now = [group for group in combined(estimate.readings) if group.months_ago == 0.0]
    for group in sorted(now, key=lambda each: -each.variance_mm2):
        measure = measure_of(group.measure)
        bias = measure.bias.value**2
        noise = max(group.variance_mm2 - bias, 0.0)
        mean, spread = nominal_over(group.measure, group.kinds, group.touch, estimate.likeliest)
        found[group.measure] = Earlier(group.value_mm, noise, bias + spread**2, mean)
    return found


def rivals(around: Near, told: list[Build], heads: HeadDraws) -> list[Build]:
    """Builds to compare: those told, and the likeliest others to be best if a measure were known.

    Parameters
    ----------
    around
        Builds near the best ones, with the quick guess.
    told
        The builds in the answer, best first.
    heads
        The heads of the guess, and maybe more after them.

    Returns
    -------
    At most RIVALS builds.

    Notes
    -----
    At ASIDE standard deviations below and above the mean of each measure, a fit to the quick guess
    names the build that would be best there; those named most often enter.
    """
    right = around.right.T.astype(np.float64)
    named: Counter[int] = Counter()
    for key in ASKABLE:
        fit = np.linalg.lstsq(_quadratic(heads.of(key)[: len(right)]), right, rcond=None)[0]
        for at in (-ASIDE, ASIDE):
            named[int(np.argmax(np.array([1.0, at, at**2]) @ fit))] += 1
    others = [around.builds[place] for place, _ in named.most_common()]
    return list(dict.fromkeys([*told, *others]))[:RIVALS]


def fit_chances(trial: Trial, build: Build, count: int, insides: Floats | None = None) -> Floats:
    """How often each of the first heads would be right in a build over the brow's error, (count,).

    Parameters
    ----------
    trial, build, count
        The helmet, and on how many heads.
    insides
        What the shell's inside numbers are off by, where they were not measured, shape (n, 5) [mm].

    Notes
    -----
    The error of the modeled brow height moves nothing else, so that it is summed over instead of
    drawn (Rao and Blackwell): what is counted scatters less and means the same.
    """
    rest, bands = trial.rest(build, 0, count), trial.bands
    known = trial.unknowns if insides is None else in_shell(trial.unknowns, -insides)
    padded = np.array([bool(pad.seats) for pad in trial.sheet.pads])
    pressure, peak, gap = rest.zone_pressure_kpa, rest.zone_peak_kpa, rest.zone_gap_mm
    zones = (pressure >= bands.loose_kpa) & (pressure <= bands.tight_kpa)
    zones &= (peak <= bands.hot_spot_kpa) & (gap <= bands.gap_mm)
    brow = rest.brow_mm - known.brow_mm[:count]
    low, high = (
        (edge - brow) / BROW_ERROR.value for edge in (bands.brow_low_mm, bands.brow_high_mm)
    )
    return np.asarray(zones[:, padded].all(axis=1) * (ndtr(high) - ndtr(low)))


def measure_gains(
    right: Floats,
    heads: HeadDraws,
    earlier: dict[str, Earlier],
    rng: np.random.Generator,
    *,
    measures: Sequence[str] = ASKABLE,
) -> tuple[MeasureGain, ...]:
    """What each measure is expected to add to the chance of the best build, taken or repeated.

    Parameters
    ----------
    right
        How often each head would be right in each of b builds, shape (b, h) [1].
    heads
        Those heads, and maybe more after them.
    earlier
        What was read already; the others have not been taken.
    rng
        For the reading errors.
    measures
        Which are asked for.

    Returns
    -------
    The gains, best first: the largest, but of those that its error does not tell apart the one
    that adds most a minute.

    Notes
    -----
    For each build the chance of being right is fitted as a quadratic in what the tape or caliper
    would read (its error included), by least squares over the draws. The build that the fit calls
    best at each reading is then scored on heads left out of the fit, in four folds, and the same
    is done with no reading at all: the difference is free of the optimism of a maximum. Builds
    differ in their slopes by chance as well; their differences are drawn in by the share that
    chance alone would make (James and Stein 1961, from memory), so that a measure that tells
    nothing chooses as no measure does.

    A repeat is two readings more by the same person. It shares that person's bias, and the hair or
    cap under the tape, with what was read before: only the reading error is averaged down.
    """
    count = right.shape[1]
    folds = np.arange(count) % FOLDS
    plain = _chosen(right, np.ones((count, 1)), folds)
    scores = {
        key: _chosen(right, _quadratic(_would_read(key, heads, count, earlier, rng)), folds) - plain
        for key in measures
    }
    return tuple(
        MeasureGain(
            key,
            float(scores[key].mean()),
            _error(scores[key]),
            measure_of(key).minutes.value,
            repeat=key in earlier,
        )
        for key in _in_order(scores)
    )


def _would_read(
    key: str, heads: HeadDraws, count: int, earlier: dict[str, Earlier], rng: np.random.Generator
) -> Floats:
    """What two readings of each head would come to, shape (h,) [mm]."""
    truth, known = heads.of(key)[:count], measure_of(key)
    fresh = rng.standard_normal(count) * known.reading_error.value / np.sqrt(READINGS)
    if key in earlier:
        return np.asarray(truth + earlier[key].shared(truth, rng) + fresh)
    return np.asarray(truth + known.bias.value * rng.standard_normal(count) + fresh)


def _error(score: Floats) -> float:
    return float(score.std() / np.sqrt(score.size))


def _in_order(scores: dict[str, Floats]) -> list[str]:
    """Measures by gain; by gain a minute among those within one error of the leader's."""

    def a_minute(key: str) -> float:
        return float(scores[key].mean()) / measure_of(key).minutes.value

    left, order = sorted(scores, key=lambda key: -scores[key].mean()), []
    while left:
        leader = scores[left[0]]
        level = [k for k in left if (leader - scores[k]).mean() <= _error(leader - scores[k])]
        order.append(max(level, key=a_minute))
        left.remove(order[-1])
    return order


def _quadratic(read: Floats) -> Floats:
    scaled = (read - read.mean()) / max(float(read.std()), 1e-9)
    return np.column_stack([np.ones_like(scaled), scaled, scaled**2])


def _chosen(right: Floats, basis: Floats, folds: npt.NDArray[np.int64]) -> Floats:
    """On each head, whether the build chosen without it was right, shape (h,)."""
    score = np.empty(right.shape[1])
    for fold in range(FOLDS):
        out = folds == fold
        best = np.argmax(basis[out] @ _fitted(right[:, ~out].T, basis[~out]), axis=1)
        score[out] = right[best, np.flatnonzero(out)]
    return score


def _fitted(right: Floats, basis: Floats) -> Floats:
    """Coefficients of each build, shape (c, b), drawn in to the builds' mean but for the first.

    Notes
    -----
    In an orthonormal basis Q of the same columns, c = Q' y; d = c less its mean over the builds.
    A coefficient of pure chance has the variance of what the fit leaves, v; the share
    1 - v / mean(d^2) of its differences is kept.
    """
    Q, R = np.linalg.qr(basis)
    fit = Q.T @ right
    middle = fit.mean(axis=1, keepdims=True)
    apart, aside = fit - middle, right - right.mean(axis=1, keepdims=True)
    left = (aside**2).sum() - (apart**2).sum()
    chance = left / max(aside.size - apart.size, 1)
    size = np.maximum((apart**2).mean(axis=1, keepdims=True), 1e-12)
    kept = np.clip(1.0 - chance / size, 0.0, 1.0)
    kept[0] = 1.0
    return np.asarray(np.linalg.solve(R, middle + kept * apart))
