"""How a helmet on a head answers to its pads.

Sizes are held against this project's own earlier findings, on another invented helmet and other
surfaces. They are no outside truth: the tolerance is about half of each size, and where ours
differ more the docstring says by how much. Middle values over ordinary men of 560 to 580 mm whom
the delivered build fits, nothing unknown.
"""

from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws
from helmwright.catalogue import ZONES, Foam, Zone
from helmwright.fit import Bands, Build, FaultKind, Rater
from helmwright.fit.account import account
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import Unknowns, draw_unknowns
from helmwright.sources.records import ASSUMED
from tests.fit.ordinary import (
    LAWS,
    OUZEL,
    delivered,
    men,
    moved,
    nothing_unknown,
    pressure,
    round_heads,
    trial_of,
)

HAIR = Foam("hair", (0.0, 0.7, 0.9, 0.97), (0.0, 0.2, 1.0, 5.0), 1000.0, ASSUMED, 0.3)
"""Springy hair that lies nearly flat under a kilopascal: assumed."""


@cache
def fitted() -> tuple[HeadDraws, Trial, Rest]:
    """Ordinary men whom the delivered build fits."""
    every = men(250)
    heads = HeadDraws(every.values[trial_of(every).rest(delivered()).right])
    trial = trial_of(heads)
    return heads, trial, trial.rest(delivered())


def change(rest: Rest, zone: Zone) -> float:
    """Middle change of a zone's pressure against the delivered build [kPa]."""
    return float(np.median(pressure(rest, zone) - pressure(fitted()[2], zone)))


def brow_change(rest: Rest) -> float:
    return float(np.median(rest.brow_mm - fitted()[2].brow_mm))


def tilt_change(rest: Rest) -> float:
    return float(np.median(rest.tilt_deg - fitted()[2].tilt_deg))


def test_there_are_enough_ordinary_heads_to_speak_of():
    heads, _, rest = fitted()
    assert len(heads) >= 40
    assert rest.unsettled == 0


def test_a_thicker_crown_pad_lifts_the_brow_and_presses_no_harder():
    """Earlier: +6.3 mm (SD 0.5), pressure unchanged, since weight and strap decide it."""
    rest = fitted()[1].rest(moved(delivered(), crown=1))
    assert brow_change(rest) == pytest.approx(6.3, abs=0.6)
    assert (rest.brow_mm - fitted()[2].brow_mm).std() < 0.8
    assert change(rest, Zone.CROWN) == pytest.approx(0.0, abs=0.25)


def test_a_thinner_crown_pad_lowers_the_brow():
    """Earlier: -6.5; ours about 1.1 less, as the sides catch some of it."""
    rest = fitted()[1].rest(moved(delivered(), crown=-1))
    assert brow_change(rest) == pytest.approx(-6.0, abs=1.0)
    assert change(rest, Zone.CROWN) == pytest.approx(0.0, abs=0.4)


def test_a_thicker_front_pad_presses_front_and_nape_and_lifts_the_brow_a_little():
    """Earlier: brow +0.6, front +0.9, nape +0.6. Ours lifts the brow by 1 mm more."""
    rest = fitted()[1].rest(moved(delivered(), front=1))
    assert 0.2 < brow_change(rest) < 2.2
    assert change(rest, Zone.FRONT) == pytest.approx(0.9, abs=0.4)
    assert 0.1 < change(rest, Zone.NAPE) < 0.9


def test_a_thicker_rear_pad_presses_the_rear_and_leaves_the_brow():
    """Earlier: brow +0.1, rear +1.3. Ours lets the brow down by 0.5 mm more.

    Without friction it was -1.7 and +4.2: a sign that friction is missing.
    """
    rest = fitted()[1].rest(moved(delivered(), rear=1))
    assert brow_change(rest) == pytest.approx(0.1, abs=0.9)
    assert change(rest, Zone.REAR) == pytest.approx(1.3, abs=0.5)


def test_thicker_sides_press_hard_and_carry_some_of_the_crowns_load():
    """Earlier: brow +2.1, sides +2.5 to 3, crown -1.0. Ours lifts by 1.5 mm less."""
    rest = fitted()[1].rest(moved(delivered(), left=1, right=1))
    assert 0.2 < brow_change(rest) < 2.5
    assert 1.8 < change(rest, Zone.LEFT) < 3.8
    assert change(rest, Zone.RIGHT) == pytest.approx(change(rest, Zone.LEFT), abs=1e-3)
    assert -1.3 < change(rest, Zone.CROWN) < -0.3


def test_one_thicker_side_is_shared_with_the_other():
    """Earlier: that side +1.5, the other +0.5."""
    rest = fitted()[1].rest(moved(delivered(), left=1))
    assert change(rest, Zone.LEFT) == pytest.approx(1.5, abs=0.5)
    assert change(rest, Zone.RIGHT) == pytest.approx(0.5, abs=0.3)


def test_thicker_jaw_pads_press_the_jaw_and_tilt_the_helmet_back_a_little():
    """Earlier: jaws +1.5, brow +1.8, tilt -0.8 deg. Ours lifts and tilts a quarter as much."""
    rest = fitted()[1].rest(moved(delivered(), jaw_left=1, jaw_right=1))
    assert change(rest, Zone.JAW_LEFT) == pytest.approx(1.5, abs=0.6)
    assert 0.0 < brow_change(rest) < 2.0
    assert -1.0 < tilt_change(rest) < 0.0


def test_six_millimeters_of_hair_change_little():
    """Earlier: brow by less than 0.5, sides +0.2. Ours lifts by 0.6, with the hair assumed here."""
    hairy = trial_of(fitted()[0], laws=pad_laws(OUZEL, over=((HAIR, 6.0),)))
    rest = hairy.rest(delivered())
    assert abs(brow_change(rest)) < 0.9
    assert change(rest, Zone.LEFT) == pytest.approx(0.2, abs=0.15)


@pytest.mark.parametrize(
    ("factor", "share", "brow"), [(0.75, 0.75, (-2.3, -0.2)), (1.3, 1.25, (0.3, 1.5))]
)
def test_softer_foam_presses_less_and_lets_the_helmet_down(factor, share, brow):
    """Earlier: pressure -25 and +25 %, brow -1.9 and +0.9. Ours: -0.6 and +0.9."""
    heads, _, before = fitted()
    rest = trial_of(heads, unknowns=nothing_unknown(len(heads), foam=factor)).rest(delivered())
    for zone in (Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.RIGHT, Zone.NAPE):
        ratio = float(np.median(pressure(rest, zone) / pressure(before, zone)))
        assert ratio == pytest.approx(share, abs=0.12)
    assert brow[0] < brow_change(rest) < brow[1]


def test_the_push_is_kept():
    """Seated by 50 N the helmet rests lower than set down gently: by 2.8 mm in the middle."""
    heads, trial, _ = fitted()
    gentle = trial_of(heads)
    force, point, *others = trial.loads
    gentle.__dict__["loads"] = (force[[1, 1, 2, 3]], point[[1, 1, 2, 3]], *others)
    assert 1.0 < brow_change(gentle.rest(delivered())) < 5.0


def test_without_friction_tilt_is_almost_free():
    """Earlier, frictionless: brow SD 12 to 16 and 4.4 mm higher. Ours: SD 14, but lower by 32.

    Weight and strap tip the front down by 16 degrees, far beyond what linear kinematics can say;
    the height itself hardly differs. Whatever the sign: without friction the pose is the wrong one.
    """
    heads, _, kept = fitted()
    loose = trial_of(heads, unknowns=nothing_unknown(len(heads), friction=0.0)).rest(delivered())
    assert loose.brow_mm.std() > 3.0 * kept.brow_mm.std()
    assert loose.tilt_deg.std() > 5.0
    assert kept.tilt_deg.std() < 1.0
    assert np.abs(brow_change(loose)) > 5.0


def test_the_coefficient_of_friction_hardly_matters():
    """Earlier: any from 0.1 to 0.45 gave the same mean brow within 0.8 mm. Ours: within 1.7."""
    heads, _, _ = fitted()
    brows = [
        trial_of(heads, unknowns=nothing_unknown(len(heads), friction=each)).rest(delivered())
        for each in (0.1, 0.2, 0.32, 0.45)
    ]
    means = [rest.brow_mm.mean() for rest in brows]
    assert np.ptp(means) < 2.2
    assert np.ptp(means[1:]) < 1.3


MIRROR = np.array([ZONES.index(zone.mirrored) for zone in ZONES])


@pytest.mark.parametrize("steps", [{}, {"left": 1, "jaw_right": -2}, {"right": -1, "nape": 1}])
def test_mirrored_heads_in_mirrored_builds_rest_mirrored(steps):
    heads = men(60)
    some = draw_unknowns(OUZEL, 60, np.random.default_rng(2))
    points = trial_of(heads).seating.points
    apart = np.linalg.norm(points[:, None] * (1.0, -1.0, 1.0) - points[None], axis=-1)
    other = Unknowns(
        some.zone_mm[:, MIRROR], some.contact_mm[:, apart.argmin(axis=1)], some.brow_mm,
        some.foam[:, MIRROR], some.friction, some.pull,
    )  # fmt: skip
    build = moved(delivered(), **steps)
    swapped = Build(build.shell, tuple(build.pads[zone] for zone in MIRROR))
    one, two = (
        trial_of(heads, unknowns=some).rest(build),
        trial_of(heads, unknowns=other).rest(swapped),
    )
    np.testing.assert_allclose(two.zone_stroke_mm[:, MIRROR], one.zone_stroke_mm, atol=1e-6)
    np.testing.assert_allclose(two.zone_pressure_kpa[:, MIRROR], one.zone_pressure_kpa, atol=1e-6)
    np.testing.assert_allclose(two.brow_mm, one.brow_mm, atol=1e-6)
    np.testing.assert_allclose(two.tilt_deg, one.tilt_deg, atol=1e-6)
    assert np.array_equal(two.right, one.right)
    flipped = np.array([1.0, -1.0, 1.0, -1.0, 1.0, -1.0])
    np.testing.assert_allclose(two.pose * flipped, one.pose, atol=1e-6)


@pytest.mark.parametrize("shell", [1, 3, 6])
def test_rests_settle_in_any_build(shell):
    """Right shell or wrong, 120 heads in 40 builds at random: one rest in a thousand at most.

    Seen: 2 of 7200, left over 0.05 N. Nothing drawn has a friction under 0.1; with none at all a
    helmet that is far too large runs away on the linear model, and up to a third do not settle.
    """
    rng = np.random.default_rng(shell)
    trial = trial_of(men(120), shell=shell, unknowns=draw_unknowns(OUZEL, 120, rng))
    unsettled = 0
    for _ in range(40):
        pads = tuple(int(rng.integers(len(pad.thicknesses_mm))) for pad in OUZEL.pads)
        rest = trial.rest(Build(shell, pads))
        unsettled += rest.unsettled
        assert np.all(np.isfinite(rest.force_n))
        assert rest.force_n.min() >= 0.0
    assert unsettled <= 5


def test_a_part_of_the_heads_rests_as_among_all():
    _, trial, every = fitted()
    part = trial.rest(delivered(), 10, 20)
    np.testing.assert_allclose(part.stroke_mm, every.stroke_mm[10:20], atol=1e-9)
    np.testing.assert_allclose(part.brow_mm, every.brow_mm[10:20], atol=1e-9)
    assert np.array_equal(part.right, every.right[10:20])


def test_right_means_every_band_at_once():
    trial = trial_of(men(150), unknowns=draw_unknowns(OUZEL, 150, np.random.default_rng(4)))
    rest, bands = trial.rest(delivered()), Bands()
    inside = (rest.zone_pressure_kpa >= bands.loose_kpa) & (
        rest.zone_pressure_kpa <= bands.tight_kpa
    )
    inside &= (rest.zone_peak_kpa <= bands.hot_spot_kpa) & (rest.zone_gap_mm <= bands.gap_mm)
    brow = (rest.brow_mm >= bands.brow_low_mm) & (rest.brow_mm <= bands.brow_high_mm)
    assert np.array_equal(rest.right, inside.all(axis=1) & brow)
    assert 0 < rest.right.sum() < 150


def test_a_helmet_far_too_large_floats_and_says_so():
    """A ball of 62 mm in the largest shell: it hangs on the crown alone."""
    count = 20
    trial = Trial(
        OUZEL, OUZEL.shell(6), LAWS, round_heads(62.0, count), nothing_unknown(count), Bands()
    )
    build = delivered(6)
    told = account(trial, build, build, rater=Rater())
    rest = trial.rest(build)
    assert told.floats == 1.0
    assert told.fits.value == 0.0
    loose = {fault.zone for fault in told.faults if fault.kind is FaultKind.LOOSE}
    assert {Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.RIGHT} <= loose
    assert np.all(np.isfinite(rest.stroke_mm))
    assert np.all(np.isfinite(rest.brow_mm))
    assert np.all(rest.zone_gap_mm[:, ZONES.index(Zone.FRONT)] > 10.0)
    assert np.all(rest.zone_gap_mm < 250.0)


def test_a_fitted_helmet_does_not_float():
    _, trial, rest = fitted()
    told = account(trial, delivered(), delivered(), rater=Rater(), rest=rest)
    assert told.floats == 0.0
    assert told.fits.value == 1.0
    assert told.faults == ()
    assert told.changes == ()
