"""What one more measure would buy, on verdicts with a planted answer."""

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws, Sex, adult_prior
from helmwright.fit.next_measure import measure_gains

HEADS = 1200


def heads(seed: int = 1) -> HeadDraws:
    return HeadDraws(adult_prior(Sex.MALE).draw(HEADS, np.random.default_rng(seed)))


def bands_of(values: np.ndarray, builds: int, rng: np.random.Generator) -> np.ndarray:
    """Builds of which each is right on its own fifth of the values, and on a tenth by luck."""
    place = np.argsort(np.argsort(values)) * builds // values.size
    lucky = rng.random((builds, values.size)) < 0.1
    return ((place == np.arange(builds)[:, None]) | lucky).astype(np.uint8)


def gains_of(right: np.ndarray, some: HeadDraws, missing: tuple[str, ...], seed: int = 2):
    found = measure_gains(right, some, missing, np.random.default_rng(seed))
    return {gain.measure: gain for gain in found}


MISSING = ("jaw_pad_width", "brow_to_top", "head_breadth")


def test_the_measure_that_decides_gains_and_the_others_do_not():
    """Planted: the best build hangs on brow to top alone; knowing it is worth half of all."""
    some = heads()
    right = bands_of(some.of("brow_to_top"), 5, np.random.default_rng(3))
    gains = gains_of(right, some, MISSING)
    assert gains["brow_to_top"].gain > 0.3
    assert gains["brow_to_top"].gain > 8.0 * gains["brow_to_top"].error
    for other in ("jaw_pad_width", "head_breadth"):
        assert gains[other].gain < 0.12
    assert next(iter(gains)) == "brow_to_top"


def test_no_measure_gains_where_builds_differ_by_luck():
    """Fitted on the same heads it would seem to gain; on heads left out it must not."""
    totals: dict[str, list[float]] = {name: [] for name in MISSING}
    for seed in range(12):
        luck = np.random.default_rng(seed).random((150, HEADS)) < 0.4
        for name, gain in gains_of(luck.astype(np.uint8), heads(seed), MISSING, seed).items():
            totals[name].append(gain.gain)
    for found in totals.values():
        assert np.mean(found) == pytest.approx(0.0, abs=0.015)
        assert np.abs(found).max() < 0.08


def test_one_build_alone_leaves_nothing_to_choose():
    right = (np.random.default_rng(1).random((1, HEADS)) < 0.5).astype(np.uint8)
    gains = gains_of(right, heads(), MISSING)
    assert all(gain.gain == 0.0 and gain.error == 0.0 for gain in gains.values())


def test_a_measure_read_with_error_gains_less_than_one_known():
    """Bands as narrow as the reading's error: taking the measure does not give all of them."""
    some = heads()
    values = some.of("brow_to_top")
    coarse = gains_of(bands_of(values, 3, np.random.default_rng(3)), some, ("brow_to_top",))
    fine = gains_of(bands_of(values, 40, np.random.default_rng(3)), some, ("brow_to_top",))
    # Wholly known, both would come to nearly all; 40 bands are 0.2 mm to 2 mm wide.
    assert fine["brow_to_top"].gain < 0.5 * coarse["brow_to_top"].gain


def test_gains_come_largest_first_and_the_same_generator_gives_the_same():
    some = heads()
    right = bands_of(some.of("head_breadth"), 4, np.random.default_rng(5))
    one = measure_gains(right, some, MISSING, np.random.default_rng(6))
    two = measure_gains(right, some, MISSING, np.random.default_rng(6))
    assert one == two
    assert [gain.gain for gain in one] == sorted((gain.gain for gain in one), reverse=True)


def test_nothing_missing_is_nothing_to_gain():
    right = np.ones((3, HEADS), dtype=np.uint8)
    assert measure_gains(right, heads(), (), np.random.default_rng(1)) == ()
