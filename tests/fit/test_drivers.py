"""What drives a chance: each assumption moved by itself, on the same heads."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import (
    HeadDraws,
    HeadEstimate,
    Over,
    Reading,
    Sex,
    covering,
    estimate_head,
    prior,
)
from helmwright.anatomy.covering import Touch
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.fit import Bands, Build, Rater
from helmwright.fit.contact import Trial
from helmwright.fit.covering import covered
from helmwright.fit.drivers import count_drivers
from helmwright.fit.insides import draw_insides, in_shell
from helmwright.fit.outlook import Assumption, Driver, Shift, strongest
from helmwright.fit.proposal import laws_on
from helmwright.fit.turns import (
    BROW_RANGE,
    COVERING_RANGE,
    EYEBROW_RANGE,
    FRICTION_RANGE,
    Ground,
    covering_shift,
    eyebrow_spread,
    under_thicker,
)
from helmwright.fit.unknowns import FRICTION, draw_unknowns
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from tests.fit.ordinary import LAWS, MIDDLE, OUZEL, delivered, moved

COUNT = 400
BEST = moved(delivered(), jaw_right=1)
TAPE = {"tape_circumference": 570.0}
FIVE = TAPE | {
    "head_length": 199.0, "head_breadth": 154.0, "brow_to_top": 101.0, "jaw_pad_width": 132.0,
}  # fmt: skip
WITHOUT_INSTRUCTIONS = replace(OUZEL, instructions=())


def estimate(readings: dict[str, float], **stated) -> HeadEstimate:
    return estimate_head(
        [Reading(key, value) for key, value in readings.items()], sex=Sex.MALE, **stated
    )


def ground(
    head: HeadEstimate, *, seed: int = 1, count: int = COUNT, sheet: ModelSheet = OUZEL
) -> Ground:
    heads = head.draw(count, np.random.default_rng(seed))
    unknowns = draw_unknowns(sheet, count, np.random.default_rng(seed + 1000))
    trial = Trial(sheet, sheet.shell(MIDDLE), LAWS, head_shapes(heads), unknowns, Bands.of(sheet))
    return Ground(head, heads, {MIDDLE: trial}, np.random.default_rng(seed))


def drivers_on(some: Ground, build: Build = BEST, count: int = COUNT) -> dict[Assumption, Driver]:
    (found,) = count_drivers(some, [build], Rater(), count).values()
    return {driver.assumption: driver for driver in found}


@cache
def usual(kind: str) -> tuple[Ground, dict[Assumption, Driver]]:
    some = ground(estimate({"tape": TAPE, "five": FIVE}[kind]))
    return some, drivers_on(some)


def anew(some: Ground, **unknowns) -> float:
    """Share right where the trial is made from nothing, with some unknowns replaced."""
    trial = some.trials[MIDDLE]
    other = Trial(
        trial.sheet, trial.shell, trial.laws, trial.heads, replace(trial.unknowns, **unknowns),
        trial.bands,
    )  # fmt: skip
    return float(other.rest(BEST).right.mean())


def test_strict_limits_never_raise_a_chance_and_lenient_ones_never_lower_it():
    for kind in ("tape", "five"):
        limits = usual(kind)[1][Assumption.LIMITS]
        assert limits.fits_low.value < 0.0 < limits.fits_high.value
        assert limits.found_low.value < 0.0 < limits.found_high.value


def test_a_brow_window_counts_as_assumed_only_where_the_maker_gives_none():
    assert Assumption.BROW_WINDOW not in usual("five")[1]
    own = drivers_on(ground(estimate(TAPE), sheet=WITHOUT_INSTRUCTIONS))
    window = own[Assumption.BROW_WINDOW]
    assert window.fits_low.value < 0.0 < window.fits_high.value
    assert (window.low, window.high) == BROW_RANGE


@pytest.mark.parametrize("side", [0, 1])
def test_moves_are_those_of_a_trial_made_from_nothing(side):
    """What is kept between trials, gaps under bumps above all, must not show in the count."""
    some, found = usual("five")
    known = some.trials[MIDDLE].unknowns
    stated = anew(some)
    bumps, foam, pull = ((0.6, 0.75, 0.56), (1.4, 1.3, 1.8))[side]
    friction = FRICTION_RANGE[side].value - FRICTION.value
    told = {
        Assumption.BUMPS: anew(
            some, zone_mm=bumps * known.zone_mm, contact_mm=bumps * known.contact_mm
        ),
        Assumption.FOAM: anew(some, foam=foam * known.foam),
        Assumption.STRAP: anew(some, pull=pull * known.pull),
        Assumption.FRICTION: anew(some, friction=known.friction + friction),
    }
    for assumption, share in told.items():
        driver = found[assumption]
        shift = (driver.fits_low, driver.fits_high)[side]
        assert shift.value == pytest.approx(share - stated, abs=1.5 / COUNT), assumption


def test_smoother_heads_fit_more_often_and_bumpier_ones_less():
    bumps = usual("five")[1][Assumption.BUMPS]
    assert bumps.fits_low.value > 4.0 * bumps.fits_low.error
    assert bumps.fits_high.value < -4.0 * bumps.fits_high.error


def test_the_eyebrow_is_an_assumption_until_brow_to_top_is_read():
    assert Assumption.EYEBROW in usual("tape")[1]
    assert Assumption.EYEBROW not in usual("five")[1]


def test_another_spread_of_the_eyebrow_is_what_a_prior_with_that_spread_believes(monkeypatch):
    """Against the prior built anew with the other spread and given the same reading."""
    head = estimate(TAPE)
    heads = head.draw(40_000, np.random.default_rng(3))
    turned = eyebrow_spread(heads, 10.0 / 5.0)
    monkeypatch.setattr(prior, "EYEBROW_HEIGHT", replace(prior.EYEBROW_HEIGHT, spread=10.0))
    prior.population.cache_clear()
    try:
        other = estimate(TAPE)
    finally:
        monkeypatch.undo()
        prior.population.cache_clear()
    assert other.sd_of("brow_to_top") > 1.3 * head.sd_of("brow_to_top")
    for key in ("brow_to_top", "tragion_to_top", "head_length"):
        values = turned.of(key)
        assert values.mean() == pytest.approx(other.mean_of(key), abs=0.2)
        assert values.std() == pytest.approx(other.sd_of(key), rel=0.02)
    both = np.corrcoef(turned.of("brow_to_top"), turned.of("tragion_to_top"))[0, 1]
    drawn = other.draw(40_000, np.random.default_rng(4))
    there = np.corrcoef(drawn.of("brow_to_top"), drawn.of("tragion_to_top"))[0, 1]
    assert both == pytest.approx(there, abs=0.02)


def test_the_same_estimate_draws_the_same_heads_and_another_survey_near_ones():
    some = usual("tape")[0]
    assert np.array_equal(some.drawn_from(some.estimate).values, some.heads.values)
    other = some.estimate.by_survey("niosh_2003")
    assert other is not None
    near = some.drawn_from(other).of("head_breadth") - some.heads.of("head_breadth")
    assert 0.0 < np.abs(near).mean() < 0.5 * some.heads.of("head_breadth").std()


def test_the_survey_s_turn_is_the_estimate_by_that_survey_alone():
    head = estimate(FIVE)
    alone = estimate(FIVE, survey="us_army_2012")
    by = head.by_survey("us_army_2012")
    assert by is not None
    assert np.array_equal(by.mean, alone.mean)
    assert np.array_equal(by.covariance, alone.covariance)
    assert replace(head, stated=None).by_survey("us_army_2012") is None
    assert Assumption.SURVEY not in drivers_on(ground(replace(head, stated=None)))


def test_a_youth_s_survey_turns_between_the_two_youth_surveys():
    boy = estimate(TAPE, age_years=11)
    driver = drivers_on(ground(boy))[Assumption.SURVEY]
    assert [side.source.key for side in (driver.low, driver.high)] == ["snyder_1977", "uk_1990"]
    us, uk = boy.by_survey("snyder_1977"), boy.by_survey("uk_1990")
    assert us is not None
    assert uk is not None
    # Of one tape, the survey that reads smaller circumferences makes the longer head.
    assert us.mean_of("head_length") > uk.mean_of("head_length") + 1.5


def haired(value: float = 582.0, **stated) -> HeadEstimate:
    reading = Reading("tape_circumference", value, Over.BRAIDS, touch=Touch.LIGHT)
    return estimate_head([reading, Reading("head_length", 199.0)], sex=Sex.MALE, **stated)


def whole_ground(
    head: HeadEstimate, sheet: ModelSheet, shell: int, *, bumps: float = 1.0, seed: int = 5
) -> Ground:
    """A ground with all that a proposal draws: coverings, and insides that nobody measured."""
    heads = head.draw(COUNT, np.random.default_rng(seed))
    own = draw_unknowns(sheet, COUNT, np.random.default_rng(seed + 1))
    own = replace(own, zone_mm=bumps * own.zone_mm, contact_mm=bumps * own.contact_mm)
    insides = draw_insides(sheet, COUNT, np.random.default_rng(seed + 2))
    unknowns = in_shell(covered(own, heads, head), insides.get(shell))
    trial = Trial(
        sheet, sheet.shell(shell), laws_on(head, sheet), head_shapes(heads), unknowns,
        Bands.of(sheet),
    )  # fmt: skip
    return Ground(head, heads, {shell: trial}, np.random.default_rng(seed), insides)


@pytest.mark.parametrize("side", [0, 1])
def test_bumps_leave_hair_and_unmeasured_insides_as_they_are(side):
    """Drawn anew with bumps of their own, and all else the same."""
    sheet, shell = load_packaged("siskin"), 2
    build = Build(shell, sheet.delivered)
    some = whole_ground(haired(), sheet, shell)
    bumps = drivers_on(some, build)[Assumption.BUMPS]
    factor = (bumps.low, bumps.high)[side].value
    other = whole_ground(haired(), sheet, shell, bumps=factor)
    moved_by = np.mean(
        other.trials[shell].rest(build).right.astype(float)
        - some.trials[shell].rest(build).right.astype(float)
    )
    shift = (bumps.fits_low, bumps.fits_high)[side]
    assert shift.value == pytest.approx(moved_by, abs=1.5 / COUNT)


def test_unmeasured_insides_are_an_assumption_of_the_sheets_that_have_them():
    sheet, shell = load_packaged("siskin"), 2
    some = whole_ground(estimate(FIVE), sheet, shell)
    insides = drivers_on(some, Build(shell, sheet.delivered))[Assumption.INSIDES]
    assert insides.fits_low.value > 0.0 > insides.fits_high.value
    assert Assumption.INSIDES not in usual("five")[1]


def test_thicker_coverings_are_what_a_table_with_thicker_ones_believes(monkeypatch):
    """Against the belief built anew from a table half as thick again, and the same readings."""
    head = haired()
    heads = head.draw(30_000, np.random.default_rng(3))
    turned = under_thicker(heads, head, 1.5)
    known = covering.COVERINGS[Over.BRAIDS]
    thicker = replace(
        known,
        firm=replace(known.firm, value=1.5 * known.firm.value),
        loose=replace(known.loose, value=1.5 * known.loose.value),
    )
    monkeypatch.setitem(covering.COVERINGS, Over.BRAIDS, thicker)
    other = haired()
    drawn = other.draw(30_000, np.random.default_rng(3))
    for key in ("tape_circumference", "head_length", "head_breadth"):
        moved_by = drawn.of(key).mean() - heads.of(key).mean()
        assert turned.of(key).mean() - heads.of(key).mean() == pytest.approx(moved_by, abs=1e-6)
    for layer in (HeadDraws.firm, HeadDraws.loose):
        assert layer(turned, Over.BRAIDS) == pytest.approx(layer(drawn, Over.BRAIDS), abs=1e-6)
    assert turned.of("tape_circumference").mean() < heads.of("tape_circumference").mean() - 3.0


def test_what_is_worn_is_an_assumption_where_something_is():
    some = whole_ground(haired(), OUZEL, MIDDLE)
    assert drivers_on(some)[Assumption.COVERING].low == COVERING_RANGE[0]
    bare = estimate_head([Reading("tape_circumference", 570.0, Over.BARE)], sex=Sex.MALE)
    assert not covering_shift(bare).any()
    assert Assumption.COVERING not in usual("five")[1]


def test_a_youth_s_survey_is_one_of_the_youth_surveys():
    head = estimate({"tape_circumference": 545.0}, age_years=11.5)
    survey = drivers_on(whole_ground(head, OUZEL, 2), Build(2, OUZEL.delivered))[Assumption.SURVEY]
    assert (survey.low.source.key, survey.high.source.key) == ("snyder_1977", "uk_1990")


def test_a_reading_more_keeps_what_the_prior_was_made_from():
    head = estimate(TAPE).given(Reading("head_length", 199.0))
    by = head.by_survey("niosh_2003")
    assert by is not None
    assert by.read == ("tape_circumference", "head_length")


def test_told_errors_are_how_far_the_moves_scatter_over_other_draws():
    """Twelve sets of 200 heads: chi-square with 11 degrees leaves a half to twice the error."""
    found = [
        drivers_on(ground(estimate(FIVE), seed=seed, count=200), count=200)[Assumption.FOAM]
        for seed in range(12)
    ]
    moves = np.std([driver.fits_high.value for driver in found], ddof=1)
    told = np.mean([driver.fits_high.error for driver in found])
    assert 0.5 < moves / told < 1.9


def test_common_draws_tell_a_move_better_than_two_counts_would():
    some, found = usual("five")
    right = some.trials[MIDDLE].rest(BEST).right
    apart = np.sqrt(2.0 * right.mean() * (1.0 - right.mean()) / COUNT)
    assert all(driver.fits_low.error < 0.8 * apart for driver in found.values())


def test_drivers_come_strongest_first_and_each_build_has_its_own():
    some = usual("five")[0]
    found = count_drivers(some, [BEST, delivered()], Rater(), 200)
    for drivers in found.values():
        moves = [abs(driver.largest.value) for driver in drivers]
        assert moves == sorted(moves, reverse=True)
    assert found[BEST] != found[delivered()]


def driver(assumption: Assumption, low: float, high: float, error: float = 0.005) -> Driver:
    one = Figure(1.0, "1", ASSUMED)
    none = Shift(0.0, error)
    return Driver(assumption, one, one, Shift(low, error), Shift(high, error), none, none)


def test_the_strongest_is_the_one_that_moves_the_chance_most_either_way():
    some = (driver(Assumption.FOAM, 0.05, -0.04), driver(Assumption.STRAP, 0.01, -0.12))
    assert strongest(some) is some[1]


def test_none_is_named_where_the_moves_are_small_or_noise():
    small = driver(Assumption.FOAM, 0.015, -0.01)
    noise = driver(Assumption.STRAP, 0.06, -0.05, error=0.04)
    assert strongest((small, noise)) is None
    assert strongest(()) is None


def test_the_ranges_hold_what_is_stated_between_them():
    assert FRICTION_RANGE[0].value < FRICTION.value < FRICTION_RANGE[1].value
    usual_spread = prior.EYEBROW_HEIGHT.spread
    assert usual_spread is not None
    assert EYEBROW_RANGE[0].value < usual_spread < EYEBROW_RANGE[1].value
    assert isinstance(usual("tape")[0].heads, HeadDraws)
