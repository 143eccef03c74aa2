"""How likely each answer to a check is, given how the helmet rests."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Rater
from helmwright.fit.cloud import Cloud
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.finding import OF_A_ZONE, Finding, Grade, Sign
from helmwright.fit.finding_chances import brow_density, chances, log_likelihood
from helmwright.fit.in_band import ear_mm, in_band, ring_kpa, ring_stroke_mm
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.clouds import PLAYED, RATER, cloud_of, good_build
from tests.fit.ordinary import OUZEL, men, moved, trial_of

ASKED = [(sign, zone) for sign in Sign for zone in (ZONES if sign in OF_A_ZONE else (None,))]
SHARP = Rater(
    felt_noise=1e-6, felt_bias=0.0, stroke_noise_mm=1e-6, brow_noise_mm=1e-6, slip=0.0,
    ear_noise_mm=1e-6, hand_noise=1e-6,
)  # fmt: skip


@cache
def believed() -> tuple[Cloud, Trial, Rest]:
    cloud = cloud_of(300)
    return cloud, cloud.trial(3), cloud.rest(good_build())


def asked(sign: Sign, zone: Zone | None, *, rater: Rater = RATER, rest: Rest | None = None):
    cloud, trial, known = believed()
    return chances(rater, trial, good_build(), rest or known, sign, zone, cloud.felt_bias)


@pytest.mark.parametrize(("sign", "zone"), ASKED)
def test_the_chances_of_the_answers_sum_to_one_and_none_is_nothing(sign, zone):
    found = asked(sign, zone)
    assert found.shape == (300, 3)
    assert found.sum(axis=1) == pytest.approx(1.0)
    assert found.min() >= 0.5 * RATER.slip * 0.999


@pytest.mark.parametrize(("sign", "zone"), ASKED)
def test_a_fitter_without_errors_finds_right_what_is_in_band(sign, zone):
    """But for a zone near the loose edge, where fingers judge give and the verdict pressure."""
    _, trial, rest = believed()
    if sign in (Sign.NOSE, Sign.SIGHT, Sign.PLAIN):
        assert np.ptp(asked(sign, zone)[:, 1]) == 0.0
        return
    found = chances(SHARP, trial, good_build(), rest, sign, zone)[:, 1] > 0.5
    true = in_band(trial, good_build(), rest, sign, zone)
    clear = np.ones(true.size, dtype=bool)
    if sign is Sign.ZONE:
        pressure = rest.zone_pressure_kpa[:, ZONES.index(zone)]
        clear = np.abs(np.log(np.maximum(pressure, 1e-9) / trial.bands.loose_kpa)) > 0.7
    assert clear.sum() > 100
    assert np.array_equal(found[clear], true[clear])


def test_all_right_at_once_is_the_product_of_all_that_decide():
    cloud, trial, rest = believed()
    product = np.prod([asked(sign, zone)[:, 1] for sign, zone in PLAYED], axis=0)
    whole = RATER.found_right(trial, good_build(), rest, cloud.felt_bias)
    assert whole == pytest.approx(product, rel=1e-12)


def test_averaged_over_fitters_it_is_the_mean_over_many_of_them():
    _, trial, rest = believed()
    rng = np.random.default_rng(2)
    one_by_one = np.mean(
        [
            RATER.found_right(
                trial, good_build(), rest, np.full(300, bias * RATER.felt_bias)
            ).mean()
            for bias in rng.standard_normal(400)
        ]
    )
    at_once = RATER.found_right(trial, good_build(), rest).mean()
    assert at_once == pytest.approx(one_by_one, abs=0.01)


def test_ear_openings_on_other_heads_than_the_trials_are_refused():
    _, trial, _ = believed()
    some = trial.rest(good_build(), 100, 150)
    with pytest.raises(ValueError, match="a rest on 50 heads needs a trial of the same 50, not"):
        in_band(trial, good_build(), some, Sign.EARS)
    chosen = np.arange(100, 150)
    part = trial.part(good_build(), chosen, trial.laws, trial.unknowns.chosen(chosen))
    whole = ear_mm(trial, good_build(), trial.rest(good_build()))
    assert ear_mm(part, good_build(), some) == pytest.approx(whole[chosen], abs=1e-6)
    assert not np.allclose(part.lift_mm(good_build()), trial.lift_mm(good_build())[:50])


@pytest.mark.parametrize("sign", [Sign.ZONE, Sign.HOT_SPOT])
def test_a_heavier_hand_finds_tight_more_often(sign):
    cloud, trial, rest = believed()
    light, heavy = (
        chances(RATER, trial, good_build(), rest, sign, Zone.FRONT, np.full(len(cloud), bias))
        for bias in (-0.3, 0.3)
    )
    assert np.all(heavy[:, 2] >= light[:, 2])
    assert heavy[:, 2].mean() > light[:, 2].mean()


def test_a_thicker_pad_moves_its_zone_from_loose_toward_tight():
    cloud = cloud_of(300)
    trial = cloud.trial(3)
    thin, thick = (moved(good_build(), left=step) for step in (-2, 2))
    found = [
        chances(RATER, trial, build, trial.rest(build), Sign.ZONE, Zone.LEFT).mean(axis=0)
        for build in (thin, thick)
    ]
    assert found[0][0] > 0.5 > found[1][0]
    assert found[1][2] > 0.3 > found[0][2]


def test_a_mirrored_head_and_build_swap_left_and_right():
    """Bumps and pads mirrored; the model is symmetric to rounding, and so are the findings."""
    heads, count = men(120), 120
    unknowns = draw_unknowns(OUZEL, count, np.random.default_rng(3))
    azimuths = [(pad.zone, s.azimuth_deg, s.elevation_deg) for pad in OUZEL.pads for s in pad.seats]
    swap = {Zone.LEFT: Zone.RIGHT, Zone.JAW_LEFT: Zone.JAW_RIGHT}
    swap |= {there: here for here, there in swap.items()}
    place = [ZONES.index(swap.get(zone, zone)) for zone in ZONES]
    points = np.array([[np.cos(np.radians(a)), np.sin(np.radians(a)), e] for _, a, e in azimuths])
    partner = np.array([ZONES.index(swap.get(zone, zone)) for zone, _, _ in azimuths])
    zones = np.array([ZONES.index(zone) for zone, _, _ in azimuths])
    apart = np.abs(points[:, None] * [1, -1, 1] - points[None]).sum(axis=-1)
    mirror = np.where(partner[:, None] == zones[None], apart, np.inf).argmin(axis=1)
    mirrored = replace(
        unknowns,
        zone_mm=unknowns.zone_mm[:, place],
        contact_mm=unknowns.contact_mm[:, mirror],
        foam=unknowns.foam[:, place],
    )
    build = moved(good_build(), left=1, jaw_right=-1)
    other = moved(good_build(), right=1, jaw_left=-1)
    here, there = trial_of(heads, unknowns=unknowns), trial_of(heads, unknowns=mirrored)
    rests = here.rest(build), there.rest(other)
    for sign, zone in ASKED:
        one = chances(RATER, here, build, rests[0], sign, zone)
        two = chances(RATER, there, other, rests[1], sign, swap.get(zone, zone) if zone else None)
        assert two == pytest.approx(one, abs=1e-5), (sign, zone)


def test_a_brow_height_that_was_read_has_a_density_that_integrates_to_one():
    _, _, rest = believed()
    heights = np.arange(0.0, 80.0, 0.1)
    inside = (rest.brow_mm > 12.0) & (rest.brow_mm < 68.0)
    read = [brow_density(RATER, rest, float(height)) for height in heights]
    whole = np.sum(read, axis=0) * 0.1
    assert whole[inside] == pytest.approx(1.0, abs=0.002)


def test_every_finding_counts_repeats_included():
    cloud, trial, rest = believed()
    loose = Finding(Sign.ZONE, Grade.UNDER, Zone.FRONT)
    brow = Finding(Sign.BROW, Grade.OVER, None, 33.0)
    build, bias = good_build(), cloud.felt_bias

    def of(*findings: Finding) -> np.ndarray:
        return log_likelihood(RATER, trial, build, rest, findings, bias)

    assert of() == pytest.approx(0.0)
    assert of(loose, loose, brow) == pytest.approx(2.0 * of(loose) + of(brow))
    assert of(loose) == pytest.approx(np.log(asked(Sign.ZONE, Zone.FRONT)[:, 0]))


def test_a_read_brow_tells_more_than_its_grade_alone():
    _, trial, rest = believed()
    cloud = believed()[0]
    spreads = []
    for value in (None, 27.0):
        found = (Finding(Sign.BROW, Grade.RIGHT, None, value),)
        weight = np.exp(log_likelihood(RATER, trial, good_build(), rest, found, cloud.felt_bias))
        weight /= weight.sum()
        mean = weight @ rest.brow_mm
        spreads.append(float(np.sqrt(weight @ (rest.brow_mm - mean) ** 2)))
    assert spreads[1] < 0.6 * spreads[0]


def test_the_helmet_around_the_head_is_the_mean_of_its_pads():
    _, trial, rest = believed()
    areas = np.array([pad.area_cm2 for pad in OUZEL.pads])[1:]
    expected = rest.zone_pressure_kpa[:, 1:] @ areas / areas.sum()
    assert ring_kpa(trial, rest) == pytest.approx(expected)
    assert np.all(ring_stroke_mm(trial, rest) <= rest.zone_stroke_mm.max(axis=1))


def test_a_thicker_crown_pad_lifts_the_ear_openings():
    cloud = cloud_of(100)
    trial = cloud.trial(3)
    low, high = good_build(), moved(good_build(), crown=1)
    lifted = ear_mm(trial, high, trial.rest(high)) - ear_mm(trial, low, trial.rest(low))
    # A quarter inch of pad; what the ring holds, it does not follow.
    assert 4.0 < np.median(lifted) < 7.0


def test_a_finding_of_a_zone_needs_the_zone():
    with pytest.raises(ValueError, match="needs the zone"):
        asked(Sign.ZONE, None)
