"""What one more measure would buy, on verdicts with a planted answer."""

import numpy as np
import pytest

from helmwright.anatomy import (
    MEASURE_KEYS,
    HeadDraws,
    HeadEstimate,
    Over,
    Reading,
    Sex,
    adult_prior,
    estimate_head,
    measure_of,
)
from helmwright.fit.near import Near
from helmwright.fit.next_measure import (
    ASKABLE,
    RIVALS,
    Earlier,
    earlier_of,
    fit_chances,
    measure_gains,
    rivals,
)
from helmwright.fit.outlook import MeasureGain
from helmwright.fit.unknowns import BROW_ERROR, draw_unknowns
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, men, moved, trial_of

HEADS = 1200


def heads(seed: int = 1) -> HeadDraws:
    return HeadDraws(adult_prior(Sex.MALE).draw(HEADS, np.random.default_rng(seed)))


def bands_of(values: np.ndarray, builds: int, rng: np.random.Generator) -> np.ndarray:
    """Builds of which each is right on its own fifth of the values, and on a tenth by luck."""
    place = np.argsort(np.argsort(values)) * builds // values.size
    lucky = rng.random((builds, values.size)) < 0.1
    return ((place == np.arange(builds)[:, None]) | lucky).astype(np.uint8)


def gains_of(right: np.ndarray, some: HeadDraws, missing: tuple[str, ...], seed: int = 2):
    rng = np.random.default_rng(seed)
    found = measure_gains(right.astype(float), some, {}, rng, measures=missing)
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


def test_the_same_generator_gives_the_same_gains():
    some = heads()
    right = bands_of(some.of("head_breadth"), 4, np.random.default_rng(5))
    assert gains_of(right, some, MISSING, 6) == gains_of(right, some, MISSING, 6)


def test_a_clearly_larger_gain_comes_first_and_among_equals_the_quicker_measure():
    """Circumference and length tell the same here; length takes seven tenths of the time."""
    some = heads()
    values = some.values.copy()
    size = np.random.default_rng(8).standard_normal(HEADS)
    for key in ("tape_circumference", "head_length"):
        spread = 40.0 * np.sqrt(measure_of(key).reading_error.value)
        values[:, MEASURE_KEYS.index(key)] = 500.0 + spread * size
    alike = HeadDraws(values)
    right = bands_of(size, 4, np.random.default_rng(5))
    found = list(gains_of(right, alike, ("tape_circumference", "head_length", "brow_to_top"), 6))
    assert found == ["head_length", "tape_circumference", "brow_to_top"]


def test_nothing_asked_for_is_nothing_to_gain():
    assert gains_of(np.ones((3, HEADS)), heads(), ()) == {}


def test_no_gain_is_negative_beyond_its_error():
    """A reading can be left aside, so that it never makes the choice worse."""
    for seed in range(8):
        rng = np.random.default_rng(seed)
        some = heads(seed)
        right = bands_of(some.of("jaw_pad_width"), 3, rng)
        for gain in gains_of(right, some, ASKABLE, seed).values():
            assert gain.gain > -0.01 - 2.0 * gain.error


def read_once(key: str, value: float) -> HeadEstimate:
    return estimate_head([Reading(key, value)], sex=Sex.MALE)


def test_what_is_known_perfectly_gains_nothing_when_repeated():
    """Every head has the same brow to top; a further reading is noise, and chooses nothing."""
    values = heads().values.copy()
    values[:, MEASURE_KEYS.index("brow_to_top")] = 100.0
    known = HeadDraws(values)
    right = bands_of(known.of("jaw_pad_width"), 4, np.random.default_rng(3)).astype(float)
    gains = measure_gains(
        right, known, {"brow_to_top": Earlier(100.0, 0.0, 0.0)}, np.random.default_rng(4),
        measures=("brow_to_top",),
    )  # fmt: skip
    assert gains[0].repeat
    assert abs(gains[0].gain) <= 0.01 + 2.0 * gains[0].error


def test_a_repeat_shares_the_bias_and_the_hair_with_what_was_read_before():
    """Known from the joint normal of truth, bias and error: tried by drawing all and sorting."""
    rng = np.random.default_rng(9)
    one = Earlier(value_mm=103.0, noise_mm2=9.0, shared_mm2=4.0, offset_mm=1.0)
    truth = 100.0 + 3.0 * rng.standard_normal(400_000)
    shared = 1.0 + 2.0 * rng.standard_normal(truth.size)
    read = truth + shared + 3.0 * rng.standard_normal(truth.size)
    same = np.abs(read - 103.0) < 0.3
    drawn = one.shared(truth[same], rng)
    assert same.sum() > 5000
    assert drawn.mean() == pytest.approx(shared[same].mean(), abs=0.08)
    assert drawn.std() == pytest.approx(shared[same].std(), rel=0.03)
    there = np.corrcoef(truth[same], shared[same])[0, 1]
    assert np.corrcoef(truth[same], drawn)[0, 1] == pytest.approx(there, abs=0.03)


def test_more_readings_leave_less_to_gain_by_another_and_hair_is_not_averaged_away():
    once = earlier_of(read_once("tape_circumference", 570.0))["tape_circumference"]
    twice = earlier_of(
        read_once("tape_circumference", 570.0).given(Reading("tape_circumference", 572.0))
    )["tape_circumference"]
    haired = earlier_of(
        estimate_head([Reading("tape_circumference", 575.0, Over.THICK_HAIR)], sex=Sex.MALE)
    )["tape_circumference"]
    assert twice.noise_mm2 == pytest.approx(once.noise_mm2 / 2.0)
    assert twice.shared_mm2 == once.shared_mm2 == measure_of("tape_circumference").bias.value ** 2
    assert haired.shared_mm2 > once.shared_mm2
    assert haired.offset_mm > 0.0 == once.offset_mm


def planted(values: np.ndarray) -> np.ndarray:
    """Six builds, right within 5 mm of their brow to top and 8 mm of their jaw, shape (6, n)."""
    brow = values[:, MEASURE_KEYS.index("brow_to_top")]
    jaw = values[:, MEASURE_KEYS.index("jaw_pad_width")]
    return np.array(
        [
            (np.abs(brow - b) < 5.0) & (np.abs(jaw - j) < 8.0)
            for b in (92, 100, 108)
            for j in (126, 138)
        ]
    ).astype(float)


def sorted_out(right: np.ndarray, read: np.ndarray, bins: int = 40) -> float:
    """What knowing a reading adds, by sorting heads into bins of it: no fit, no folds."""
    place = np.argsort(np.argsort(read)) * bins // read.size
    best = [right[:, place == one].mean(axis=1).max() for one in range(bins)]
    return float(np.mean(best) - right.mean(axis=1).max())


def assert_agrees(found: MeasureGain, brute: float) -> None:
    """Within noise; a quadratic may miss a quarter of what narrow planted windows give."""
    room = 0.005 + 2.5 * found.error
    assert 0.75 * brute - room < found.gain < brute + room


@pytest.mark.parametrize("key", ["brow_to_top", "jaw_pad_width", "head_length"])
def test_gains_agree_with_nested_draws_sorted_by_the_reading(key):
    """120,000 heads in 40 bins of what would be read, against 1,200 heads and a fit."""
    estimate, rng = read_once("tape_circumference", 570.0), np.random.default_rng(11)
    many = estimate.draw(120_000, rng)
    known = measure_of(key)
    sd = np.hypot(known.reading_error.value / np.sqrt(2.0), known.bias.value)
    brute = sorted_out(planted(many.values), many.of(key) + sd * rng.standard_normal(len(many)))
    some = estimate.draw(HEADS, rng)
    found = gains_of(planted(some.values), some, (key,))[key]
    assert_agrees(found, brute)


def test_a_repeat_s_gain_agrees_with_heads_whose_first_reading_was_that():
    """Heads, biases and readings drawn from the prior; those whose first reading came out alike."""
    key, value, rng = "brow_to_top", 101.0, np.random.default_rng(12)
    known = measure_of(key)
    values = adult_prior(Sex.MALE).draw(400_000, rng)
    truth = values[:, MEASURE_KEYS.index(key)]
    bias = known.bias.value * rng.standard_normal(truth.size)
    first = truth + bias + known.reading_error.value * rng.standard_normal(truth.size)
    same = np.abs(first - value) < 0.4
    noise = known.reading_error.value / np.sqrt(2.0) * rng.standard_normal(truth.size)
    again = (truth + bias + noise)[same]
    brute = sorted_out(planted(values[same]), again, bins=16)
    estimate = read_once(key, value)
    some = estimate.draw(HEADS, rng)
    (found,) = measure_gains(planted(some.values), some, earlier_of(estimate), rng, measures=(key,))
    assert same.sum() > 8000
    assert found.repeat
    assert brute > 0.01
    assert_agrees(found, brute)


def test_gains_on_helmets_at_rest_agree_with_estimates_made_anew_at_each_reading():
    """Nested draws in full: a reading, the estimate given it, its heads at rest in four builds."""
    estimate, rng = read_once("tape_circumference", 570.0), np.random.default_rng(13)
    builds = [moved(delivered(), crown=step, **jaws) for step in (-1, 0) for jaws in ({}, JAWS)]

    def at_rest(here: HeadEstimate, count: int) -> tuple[HeadDraws, np.ndarray]:
        some, unknowns = here.draw(count, rng), draw_unknowns(OUZEL, count, rng)
        trial = trial_of(some, unknowns=unknowns)
        return some, np.array([fit_chances(trial, build, count) for build in builds])

    some, right = at_rest(estimate, 2000)
    (found,) = measure_gains(right, some, {}, rng, measures=("jaw_pad_width",))
    known, gains = measure_of("jaw_pad_width"), []
    sd = np.hypot(known.reading_error.value / np.sqrt(2.0), known.bias.value)
    for truth in estimate.draw(60, rng).of("jaw_pad_width"):
        reading = Reading("jaw_pad_width", truth + sd * rng.standard_normal())
        _, there = at_rest(estimate.given(reading).given(reading), 300)
        # The best on one half, counted on the other: a maximum flatters itself.
        best, plain = np.argmax(there[:, ::2].mean(axis=1)), np.argmax(right.mean(axis=1))
        gains.append(there[best, 1::2].mean() - there[plain, 1::2].mean())
    brute, error = np.mean(gains), np.std(gains) / np.sqrt(len(gains))
    assert found.gain == pytest.approx(brute, abs=3.0 * np.hypot(error, found.error))
    assert brute > 2.0 * error


JAWS = {"jaw_left": 1, "jaw_right": 1}


def test_chances_over_the_brow_s_error_come_to_the_share_that_is_right():
    count = 1500
    unknowns = draw_unknowns(OUZEL, count, np.random.default_rng(14))
    trial = trial_of(men(count), unknowns=unknowns)
    chances, right = fit_chances(trial, delivered(), count), trial.rest(delivered()).right
    error = np.std(chances - right) / np.sqrt(count)
    assert abs(chances.mean() - right.mean()) < 3.0 * error
    assert chances.std() < right.std()
    assert BROW_ERROR.value > 0


def test_rivals_are_the_builds_told_and_those_that_a_measure_would_call_for():
    some = heads()
    right = bands_of(some.of("brow_to_top"), 5, np.random.default_rng(3))
    builds = [moved(delivered(), crown=step) for step in (-2, -1, 0, 1)] + [delivered(MIDDLE + 1)]
    found = rivals(Near(builds, right), [builds[2]], some)
    assert found[0] == builds[2]
    assert len(found) <= RIVALS
    assert {builds[0], builds[4]} & set(found)
    assert {builds[1], builds[3]} & set(found)
