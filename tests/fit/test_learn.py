"""Draws that take in what a fitter finds."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.anatomy import estimate_head
from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.fit import Rater
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Finding, Grade, Sign, Tried
from helmwright.fit.finding_chances import chances, log_likelihood
from helmwright.fit.learn import Learned, learn, truth_chance
from helmwright.fit.walk import Everything, Walk
from tests.fit.clouds import RATER, all_right, cloud_of, five_measures, good_build
from tests.fit.ordinary import OUZEL, moved, pressure

DRAWS = 512
RIGHT = Tried(good_build(), all_right())


def taught(*tried: Tried, count: int = DRAWS, seed: int = 3) -> tuple[Cloud, Learned]:
    """The belief after some findings, and how the last of them went in."""
    rng = np.random.default_rng(seed)
    cloud = cloud_of(count, seed)
    for place, each in enumerate(tried):
        cloud, how = learn(cloud, tried[:place], each, rater=RATER, rng=rng)
    return cloud, how


def loose(zone: Zone) -> Finding:
    return Finding(Sign.ZONE, Grade.UNDER, zone)


def tight(zone: Zone) -> Finding:
    return Finding(Sign.ZONE, Grade.OVER, zone)


@pytest.mark.parametrize("zone", [Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.NAPE])
def test_a_zone_found_loose_is_believed_looser_and_one_found_tight_tighter(zone):
    before = pressure(cloud_of(DRAWS, 3).rest(good_build()), zone).mean()
    looser, tighter = (
        pressure(taught(Tried(good_build(), all_right(found)))[0].rest(good_build()), zone).mean()
        for found in (loose(zone), tight(zone))
    )
    assert looser < before - 0.3
    assert tighter > before + 0.3


def test_a_brow_that_was_read_is_believed_to_within_its_error():
    cloud, _ = taught(Tried(good_build(), all_right(brow_mm=33.0)))
    brow = cloud.rest(good_build()).brow_mm
    first = cloud_of(DRAWS).rest(good_build()).brow_mm
    # Normal with normal: precision is the sum of both.
    known = 1.0 / (1.0 / first.var() + 1.0 / RATER.brow_noise_mm**2)
    mean = known * (first.mean() / first.var() + 33.0 / RATER.brow_noise_mm**2)
    assert brow.mean() == pytest.approx(mean, abs=0.5)
    assert brow.std() == pytest.approx(np.sqrt(known), rel=0.2)


@pytest.mark.parametrize("zone", ZONES[1:])
def test_one_wrong_answer_does_not_lock_the_belief(zone):
    """A right helmet, one zone written down loose by a slip, then the truth at two looks.

    The chance that the zone truly is right falls from 0.84 to 0.97 to 0.59 to 0.78 at the slip, and
    is back at 0.82 to 0.92 after two looks.
    """
    right = Finding(Sign.ZONE, Grade.RIGHT, zone)
    slip = Tried(good_build(), all_right(loose(zone)))
    looks = Tried(good_build(), (right, right))
    slipped, back = (
        truth_chance(taught(*tried)[0], good_build(), Sign.ZONE, zone)
        for tried in ((slip,), (slip, looks))
    )
    assert slipped < 0.85
    assert back > slipped + 0.05
    assert back > 0.77


def test_a_slip_that_nothing_could_bring_about_is_not_believed():
    """A crown carries the weight and is never loose: the belief hardly moves."""
    cloud, _ = taught(Tried(good_build(), all_right(loose(Zone.CROWN))))
    assert truth_chance(cloud, good_build(), Sign.ZONE, Zone.CROWN) > 0.97


def test_a_slip_is_outlived_in_the_builds_that_follow_too():
    """Front written down loose by a slip and made thicker; the thicker one is tight, twice over."""
    thicker = moved(good_build(), front=1)
    slip = Tried(good_build(), all_right(loose(Zone.FRONT)))
    truth = Tried(thicker, all_right(tight(Zone.FRONT)))
    again = Tried(thicker, (tight(Zone.FRONT),))
    slipped, back = (
        truth_chance(taught(*tried)[0], good_build(), Sign.ZONE, Zone.FRONT)
        for tried in ((slip,), (slip, truth, again))
    )
    assert slipped < 0.7
    assert back > 0.93


def test_the_same_findings_in_another_order_teach_the_same():
    other = Tried(moved(good_build(), front=1), all_right(tight(Zone.NAPE)))
    first = Tried(good_build(), all_right(loose(Zone.FRONT), brow_mm=29.0))
    one, two = (
        np.mean([_seen(taught(*order, seed=seed)[0]) for seed in range(4)], axis=0)
        for order in ((first, other), (other, first))
    )
    # Brow [mm] and pressures [kPa]; the error of three runs' mean is about 0.15 of either.
    assert one == pytest.approx(two, abs=0.6)


def _seen(cloud: Cloud) -> np.ndarray:
    rest = cloud.rest(good_build())
    return np.array([rest.brow_mm.mean(), *rest.zone_pressure_kpa.mean(axis=0)])


def test_what_was_foreseen_comes_out_as_often_as_it_was_foreseen():
    """Chances of an answer, and evidence of that answer, are one number counted in two ways."""
    cloud = cloud_of(DRAWS)
    build = good_build()
    seen = cloud.trial(build.shell), build, cloud.rest(build)
    foreseen = chances(RATER, *seen, Sign.ZONE, Zone.REAR, cloud.felt_bias).mean(axis=0)
    for grade in Grade:
        found = Tried(good_build(), (Finding(Sign.ZONE, grade, Zone.REAR),))
        _, how = learn(cloud, [], found, rater=RATER, rng=np.random.default_rng(1))
        # Where it is taken in by powers, the estimate has an error of its own.
        assert np.exp(how.log_evidence) == pytest.approx(foreseen[int(grade) + 1], rel=0.15)


def test_the_chance_that_a_zone_is_right_is_a_share_of_the_draws():
    cloud, build = cloud_of(DRAWS), good_build()
    zones = [truth_chance(cloud, build, Sign.ZONE, zone) for zone in ZONES]
    brow = truth_chance(cloud, build, Sign.BROW)
    assert cloud.rest(build).right.mean() <= min(*zones, brow) <= max(*zones, brow) <= 1.0


def test_a_good_answer_that_surprises_nobody_moves_nothing_and_says_so():
    cloud, _ = taught(RIGHT)
    crown = Tried(good_build(), (Finding(Sign.ZONE, Grade.RIGHT, Zone.CROWN),))
    _, how = learn(cloud, [RIGHT], crown, rater=RATER, rng=np.random.default_rng(0))
    assert how.effective > 0.95 * DRAWS
    assert how.accepted == ()
    assert how.temperatures == (1.0,)


def test_findings_that_surprise_are_taken_in_by_powers():
    odd = Tried(good_build(), all_right(*(tight(z) for z in ZONES[1:4]), brow_mm=40.0))
    _, how = taught(odd)
    assert how.effective < 0.1 * DRAWS
    assert len(how.temperatures) > 1
    assert how.temperatures == tuple(sorted(how.temperatures))
    assert how.temperatures[-1] == 1.0
    assert all(0.1 < share < 1.0 for share in how.accepted)


def test_the_same_generator_gives_the_same_belief():
    one, two = (taught(Tried(good_build(), all_right(loose(Zone.REAR))))[0] for _ in range(2))
    assert np.array_equal(one.standard, two.standard)


def test_a_walk_knows_the_chances_of_where_it_is():
    """What is carried along with resampling and moving is what would be found anew."""
    found = Everything(RATER, [RIGHT], Tried(moved(good_build(), front=1), all_right()))
    rng = np.random.default_rng(2)
    walk = Walk.of(cloud_of(100), found)
    for _ in range(3):
        walk = walk.resampled(0.3 * walk.new, rng)
        walk, _ = walk.moved(0.5, rng)
    anew = cloud_of(100).moved(walk.cloud.standard.copy())
    assert found.new_on(anew) == pytest.approx(walk.new, abs=1e-6)
    assert found.before_on(anew) == pytest.approx(walk.before, abs=1e-6)


@pytest.mark.parametrize("seed", [1, 2])
def test_the_effective_size_says_how_far_repeated_estimates_spread(seed):
    """Weighted means of 200 draws, 60 times over: their spread is that of so many equal draws."""
    found = all_right(loose(Zone.LEFT), brow_mm=30.0)
    whole = cloud_of(60 * 200, seed)
    rest = whole.rest(good_build())
    log_weight = log_likelihood(
        RATER, whole.trial(3), good_build(), rest, found, whole.felt_bias
    ).reshape(60, 200)
    weight = np.exp(log_weight - log_weight.max(axis=1, keepdims=True))
    weight /= weight.sum(axis=1, keepdims=True)
    seen = pressure(rest, Zone.REAR).reshape(60, 200)
    means = (weight * seen).sum(axis=1)
    size = 1.0 / (weight**2).sum(axis=1)
    within = (weight * (seen - means[:, None]) ** 2).sum(axis=1)
    said = np.sqrt((within / size).mean())
    # 60 means give their spread to a tenth; the size itself is an approximation.
    assert means.std() == pytest.approx(said, rel=0.4)
    assert size.mean() < 100.0


def test_of_an_unstated_sex_both_stay_possible_and_findings_move_their_weights():
    estimate = estimate_head(five_measures().readings[:1], male_share=0.5)
    rng = np.random.default_rng(4)
    cloud = draw_cloud(estimate, OUZEL, DRAWS, rng, rater=RATER)
    found = Tried(good_build(), all_right(loose(Zone.JAW_LEFT), loose(Zone.JAW_RIGHT)))
    after, _ = learn(cloud, [], found, rater=RATER, rng=rng)
    weight = np.exp(
        log_likelihood(
            RATER, cloud.trial(3), good_build(), cloud.rest(good_build()), found.findings,
            cloud.felt_bias,
        )
    )  # fmt: skip
    share = weight @ (cloud.part_of == 0) / weight.sum()
    assert 0.0 < (after.part_of == 0).mean() < 1.0
    assert (after.part_of == 0).mean() == pytest.approx(share, abs=0.2)


@pytest.mark.parametrize("model", ["ouzel", "siskin", "redstart"])
def test_guessed_insides_are_drawn_along_and_learned(model):
    """On a sheet without insides the same findings leave more open, and narrow the insides."""
    sheet = load_packaged(model)
    cloud = draw_cloud(five_measures(), sheet, 256, np.random.default_rng(1), rater=RATER)
    shell = sheet.shells[len(sheet.shells) // 2].number
    build = replace(good_build(), shell=shell, pads=sheet.delivered)
    found = Tried(build, all_right(brow_mm=30.0))
    after, _ = learn(cloud, [], found, rater=RATER, rng=np.random.default_rng(1))
    assert set(cloud.insides) == ({s.number for s in sheet.shells} if model == "siskin" else set())
    assert after.rest(build).brow_mm.std() < cloud.rest(build).brow_mm.std()
    for number, errors in after.insides.items():
        assert errors[:, 4].std() < 1.1 * cloud.insides[number][:, 4].std()


def test_a_cloud_refuses_numbers_of_another_model():
    cloud = cloud_of(4)
    with pytest.raises(ValueError, match="numbers of shape"):
        replace(cloud, standard=cloud.standard[:, :-1])


def test_a_fitter_without_a_bias_has_none():
    cloud = draw_cloud(
        five_measures(), OUZEL, 10, np.random.default_rng(0), rater=Rater(felt_bias=0.0)
    )
    assert np.all(cloud.felt_bias == 0.0)
