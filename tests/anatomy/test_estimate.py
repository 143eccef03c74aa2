"""The head estimate."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.anatomy import (
    FIVE_MEASURES,
    MEASURE_KEYS,
    HeadDraws,
    ImplausibleReadingError,
    Over,
    Reading,
    Sex,
    adult_prior,
    estimate_head,
)

TAPE = Reading("tape_circumference", 575.0)
FIVE = [
    Reading(key, value)
    for key, value in zip(FIVE_MEASURES, (575.0, 200.0, 155.0, 103.0, 130.0), strict=True)
]


def test_without_readings_the_estimate_is_the_prior():
    head = estimate_head([])
    np.testing.assert_allclose(head.mean, adult_prior().mean)
    assert head.read == ()


def test_what_was_read_is_known_to_its_error_and_the_rest_keeps_an_honest_spread():
    head = estimate_head([TAPE], sex=Sex.MALE)
    assert head.read == ("tape_circumference",)
    assert head.sd_of("tape_circumference") < 3.4
    assert 4.4 < head.sd_of("head_breadth") < 5.0
    assert head.sd_of("jaw_pad_width") > 6.5


def test_a_trade_tape_reading_means_a_larger_circumference_on_the_surveys_plane():
    head = estimate_head([TAPE], sex=Sex.MALE)
    gap = head.mean_of("head_circumference") - head.mean_of("tape_circumference")
    assert 4.5 < gap < 5.5
    assert head.sd_of("head_circumference") > head.sd_of("tape_circumference")


def test_more_readings_never_leave_more_spread_for_a_head_of_stated_sex():
    head = estimate_head([], sex=Sex.MALE)
    for reading in FIVE:
        after = head.given(reading)
        assert (after.sd <= head.sd + 1e-9).all()
        head = after


def test_one_reading_at_a_time_is_all_readings_at_once():
    at_once = estimate_head(FIVE)
    in_turn = estimate_head([])
    for reading in reversed(FIVE):
        in_turn = in_turn.given(reading)
    np.testing.assert_allclose(in_turn.mean, at_once.mean)
    np.testing.assert_allclose(in_turn.covariance, at_once.covariance)
    assert in_turn.male_chance == pytest.approx(at_once.male_chance)


def test_a_repeat_counts_for_less_than_a_second_person_would():
    once = estimate_head([TAPE], sex=Sex.MALE)
    twice = once.given(TAPE)
    assert twice.sd_of("tape_circumference") < once.sd_of("tape_circumference")
    assert twice.sd_of("tape_circumference") > 2.5


def test_a_small_head_of_unstated_sex_raises_the_chance_of_a_woman():
    small = estimate_head([Reading("head_length", 182.0), Reading("bizygomatic_breadth", 128.0)])
    large = estimate_head([Reading("head_length", 208.0), Reading("bizygomatic_breadth", 150.0)])
    assert small.male_chance < 0.8 < 0.95 < large.male_chance


def test_draws_follow_the_mean_and_covariance():
    head = estimate_head(FIVE[:3])
    draws = head.draw(100_000, np.random.default_rng(4))
    assert draws.values.shape == (100_000, 10)
    assert len(draws) == 100_000
    # Four standard errors of a mean.
    np.testing.assert_allclose(draws.values.mean(axis=0), head.mean, atol=4 * head.sd.max() / 316)
    np.testing.assert_allclose(draws.values.std(axis=0), head.sd, rtol=0.02)
    np.testing.assert_array_equal(draws.of("head_length"), draws.values[:, 2])


def test_draws_fall_into_an_interval_as_often_as_it_says():
    head = estimate_head([TAPE])
    low, high = head.interval("head_breadth", 0.8)
    breadths = head.draw(50_000, np.random.default_rng(5)).of("head_breadth")
    assert np.mean((breadths > low) & (breadths < high)) == pytest.approx(0.8, abs=0.006)


def test_hair_under_the_tape_is_not_read_as_skull():
    bare = estimate_head([TAPE], sex=Sex.MALE)
    hairy = estimate_head([Reading("tape_circumference", 575.0, Over.THICK_HAIR)], sex=Sex.MALE)
    gap = bare.mean_of("tape_circumference") - hairy.mean_of("tape_circumference")
    assert 4.0 < gap < 2 * np.pi * 1.5
    assert hairy.sd_of("tape_circumference") > bare.sd_of("tape_circumference")
    assert hairy.belief.names == MEASURE_KEYS


def test_a_caliper_over_the_same_hair_tells_how_thick_it_is():
    over = [
        Reading("tape_circumference", 600.0, Over.THICK_HAIR),
        Reading("head_length", 205.0, Over.THICK_HAIR),
    ]
    alone = estimate_head(over, sex=Sex.MALE)
    bare_too = estimate_head([*over, Reading("head_length", 200.0)], sex=Sex.MALE)
    assert bare_too.mean_of("head_circumference") < alone.mean_of("head_circumference")
    assert bare_too.mean_of("head_length") == pytest.approx(200.5, abs=1.0)


def test_a_cap_does_not_cover_the_jaw():
    bare = estimate_head([Reading("jaw_pad_width", 130.0)])
    capped = estimate_head([Reading("jaw_pad_width", 130.0, Over.SKULL_CAP)])
    np.testing.assert_allclose(bare.mean, capped.mean)


@given(
    st.floats(510.0, 630.0),
    st.floats(172.0, 222.0),
    st.floats(136.0, 178.0),
    st.floats(70.0, 130.0),
)
@settings(max_examples=40, deadline=None)
def test_any_plausible_readings_give_a_proper_belief(girth, length, breadth, height):
    head = estimate_head(
        [
            Reading("tape_circumference", girth),
            Reading("head_length", length),
            Reading("head_breadth", breadth),
            Reading("brow_to_top", height),
        ]
    )
    assert np.isfinite(head.mean).all()
    assert np.linalg.eigvalsh(head.covariance).min() > 0.0
    assert 0.0 <= head.male_chance <= 1.0
    low, high = head.interval("jaw_pad_width")
    assert low < head.mean_of("jaw_pad_width") < high


def test_a_reading_of_nobody_is_refused_with_the_interval():
    with pytest.raises(
        ImplausibleReadingError, match="head length 154 mm is outside 155 to 235 mm"
    ):
        estimate_head([Reading("head_length", 154.0)])


def test_draws_of_another_shape_are_refused():
    with pytest.raises(ValueError, match=r"\(n, 10\)"):
        HeadDraws(np.zeros((3, 4)))


def test_draws_cannot_be_changed_in_place():
    draws = estimate_head([]).draw(3, np.random.default_rng(1))
    with pytest.raises(ValueError, match="read-only"):
        draws.values[0, 0] = 1.0
