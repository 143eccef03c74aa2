"""Hair and caps: off for the estimate, back on under the pads and under the chart's tape."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.anatomy import HeadDraws, HeadEstimate, Over, Reading, Sex, estimate_head
from helmwright.anatomy.covering import COVERINGS, survey_hair
from helmwright.catalogue import ZONES, Zone
from helmwright.catalogue.foam import Foam
from helmwright.fit.contact import Rest
from helmwright.fit.covering import (
    FIRM,
    LOOSE,
    covered,
    covering_layers,
    nominal,
    worn_tape,
    zone_share,
)
from helmwright.fit.law import series_stroke
from helmwright.fit.seating import pad_laws, pad_layers
from helmwright.fit.unknowns import Unknowns, draw_unknowns
from helmwright.geometry import section_exponent
from tests.fit.ordinary import OUZEL, delivered, men, nothing_unknown, pressure, trial_of

BARE = Reading("head_length", 199.0, Over.BARE)
OVER_CAP = Reading("tape_circumference", 580.0, Over.SKULL_CAP)
OVER_HAIR = Reading("tape_circumference", 580.0, Over.THICK_HAIR)
JAWS = (Zone.JAW_LEFT, Zone.JAW_RIGHT)
_OUTLINE = ("head_circumference", "head_length", "head_breadth")
HAIRS = (Over.SHORT_HAIR, Over.THICK_HAIR, Over.BRAIDS)


def estimate(*readings: Reading, worn=None, sex: Sex | None = Sex.MALE) -> HeadEstimate:
    return estimate_head(readings, worn=worn, sex=sex)


def test_what_is_worn_is_everything_that_the_readings_went_over():
    assert estimate(BARE).worn == ()
    assert estimate(BARE, OVER_CAP).worn == (Over.SKULL_CAP,)
    hair = Reading("head_length", 199.0, Over.THICK_HAIR)
    assert estimate(hair, OVER_CAP).worn == (Over.THICK_HAIR, Over.SKULL_CAP)
    both = Reading("tape_circumference", 590.0, Over.SKULL_CAP, beneath=Over.BRAIDS)
    assert estimate(both).worn == (Over.BRAIDS, Over.SKULL_CAP)


def test_what_was_said_to_be_worn_wins_over_what_the_tape_went_over():
    assert estimate(BARE, worn=[Over.WINTER_CAP]).worn == (Over.WINTER_CAP,)
    assert estimate(OVER_HAIR, worn=[Over.BARE]).worn == ()
    later = estimate(BARE, worn=[Over.WINTER_CAP]).given(OVER_HAIR)
    assert later.worn == (Over.WINTER_CAP,)


def test_a_bare_man_has_nothing_under_the_pads_and_the_draws_that_he_always_had():
    head = estimate(Reading("tape_circumference", 575.0, Over.BARE), BARE)
    assert covering_layers(head) == ()
    heads = head.draw(100, np.random.default_rng(2))
    np.testing.assert_array_equal(heads.values, head.belief.draw(100, np.random.default_rng(2)))
    unknowns = draw_unknowns(OUZEL, 100, np.random.default_rng(3))
    assert covered(unknowns, heads, head) is unknowns


def test_a_man_of_whom_nothing_was_said_is_taken_as_the_surveys_took_him():
    said, unsaid = (
        estimate(Reading("tape_circumference", 575.0, over), Reading("head_length", 199.0, over))
        for over in (Over.BARE, Over.UNSTATED)
    )
    np.testing.assert_array_equal(said.mean, unsaid.mean)
    np.testing.assert_array_equal(said.covariance, unsaid.covariance)
    assert unsaid.whole is None
    assert covering_layers(unsaid) == ()


def test_the_layers_lie_where_hair_and_caps_are_and_never_on_the_jaw():
    cap = covering_layers(estimate(OVER_CAP))
    thick = COVERINGS[Over.SKULL_CAP]
    whole = ((FIRM, thick.firm.value), (LOOSE, thick.loose.value))
    assert cap[ZONES.index(Zone.CROWN)] == cap[ZONES.index(Zone.FRONT)] == whole
    for kind in (*HAIRS, Over.SKULL_CAP, Over.WINTER_CAP):
        assert all(zone_share(kind, zone) == 0.0 for zone in JAWS)
        assert zone_share(kind, Zone.CROWN) == 1.0
    hair = [zone_share(Over.BRAIDS, zone) for zone in (Zone.REAR, Zone.FRONT, Zone.NAPE)]
    assert hair[0] > hair[1]
    assert hair[0] > hair[2]


@pytest.mark.parametrize("reading", [OVER_CAP, OVER_HAIR])
def test_the_chart_is_asked_about_the_tape_as_it_was_read_over_what_is_worn(reading):
    tape = worn_tape(estimate(reading), 20_000, np.random.default_rng(3))
    # The reading's error is 3.4, a man's tape varies by 16: the reading is drawn in by 0.2.
    assert tape.mean() == pytest.approx(580.0, abs=0.6)
    assert tape.std() < 3.6


def test_the_chart_of_a_bare_head_is_asked_about_the_estimate():
    head = estimate(Reading("tape_circumference", 580.0))
    tape = worn_tape(head, 20_000, np.random.default_rng(3))
    assert tape.mean() == pytest.approx(head.mean_of("tape_circumference"), abs=0.2)


@pytest.mark.parametrize("worn", [Over.SKULL_CAP, Over.WINTER_CAP, Over.BRAIDS])
def test_what_was_not_taped_over_goes_around_the_estimated_head(worn):
    head = estimate(Reading("tape_circumference", 575.0, Over.BARE), worn=[worn])
    tape = worn_tape(head, 20_000, np.random.default_rng(3))
    around = 2.0 * np.pi * COVERINGS[worn].firm.value
    assert tape.mean() == pytest.approx(head.mean_of("tape_circumference") + around, abs=0.4)
    assert tape.std() > head.sd_of("tape_circumference")


@given(st.sampled_from(HAIRS), st.floats(540.0, 610.0))
@settings(max_examples=25, deadline=None)
def test_hair_taken_off_and_put_back_is_the_reading_again(kind, girth):
    """Whatever of a taped circumference is hair, head and hair together are what was read."""
    bare = estimate(Reading("tape_circumference", girth, Over.BARE))
    hairy = estimate(Reading("tape_circumference", girth, kind))
    together = hairy.mean_of("tape_circumference") + 2.0 * np.pi * hairy.thickness(kind)[0]
    # Both are drawn in to the mean of men by as much as reading and people allow.
    assert together == pytest.approx(bare.mean_of("tape_circumference"), abs=2.5)
    assert hairy.mean_of("tape_circumference") < bare.mean_of("tape_circumference") + 1e-9
    assert hairy.sd_of("tape_circumference") >= bare.sd_of("tape_circumference")


def test_head_and_hair_trade_off_in_the_draws():
    heads = estimate(OVER_HAIR).draw(20_000, np.random.default_rng(5))
    hair, tape = heads.firm(Over.THICK_HAIR), heads.of("tape_circumference")
    assert np.corrcoef(hair, tape)[0, 1] < -0.7
    assert (heads.loose(Over.THICK_HAIR) != 0.0).all()
    assert (heads.firm(Over.WINTER_CAP) == 0.0).all()


def test_a_departure_from_the_nominal_layer_counts_by_zone_and_by_what_a_pad_leaves_of_it():
    head = estimate(OVER_HAIR)
    heads = head.draw(4000, np.random.default_rng(5))
    plain = nothing_unknown(len(heads))
    extra = covered(plain, heads, head).zone_mm
    crown, front = extra[:, ZONES.index(Zone.CROWN)], extra[:, ZONES.index(Zone.FRONT)]
    np.testing.assert_allclose(front, 0.5 * crown)
    assert (extra[:, [ZONES.index(zone) for zone in JAWS]] == 0.0).all()
    firm, loose = nominal(head, Over.THICK_HAIR)
    thin = (heads.firm(Over.THICK_HAIR) <= 0.0) & (heads.loose(Over.THICK_HAIR) <= 0.0)
    assert crown.min() >= -(firm + loose)
    assert thin.any()
    np.testing.assert_allclose(crown[thin], crown.min())
    slope = np.polyfit(heads.firm(Over.THICK_HAIR)[~thin], crown[~thin], 1)[0]
    assert 0.7 < slope < 1.1


@cache
def fitted():
    """Ordinary men whom the delivered build fits."""
    every = men(250)
    return HeadDraws(every.values[trial_of(every).rest(delivered()).right])


def under(*layers: tuple[Foam, float], unknowns: Unknowns | None = None) -> Rest:
    """Those men at rest with layers under every pad but the jaws'."""
    laws = pad_laws(OUZEL, over=layers)
    return trial_of(fitted(), laws=laws, unknowns=unknowns).rest(delivered())


def test_six_millimeters_of_loose_hair_change_little():
    """Brow by less than half a millimeter, sides by about 0.2 kPa: a pad has it nearly flat."""
    before, after = under(), under((LOOSE, 6.0))
    assert abs((after.brow_mm - before.brow_mm).mean()) < 0.6
    more = (pressure(after, Zone.LEFT) - pressure(before, Zone.LEFT)).mean()
    assert more == pytest.approx(0.2, abs=0.15)
    assert after.unsettled == 0


def test_more_of_what_a_drawn_in_tape_leaves_lifts_the_helmet_by_nearly_as_much():
    lifts = [(under((FIRM, thick)).brow_mm - under().brow_mm).mean() for thick in (1.0, 2.0, 3.0)]
    assert lifts == sorted(lifts)
    assert 1.5 < lifts[2] < 3.6


@pytest.mark.parametrize("more", [-1.0, 1.0])
def test_a_thicker_layer_counted_with_the_head_presses_as_one_counted_in_the_law(more):
    """The nominal layer of braids, 1 mm off, either way."""
    firm, loose = COVERINGS[Over.BRAIDS].firm.value, COVERINGS[Over.BRAIDS].loose.value
    in_law = under((FIRM, firm + more), (LOOSE, loose))
    left = 1.0 - float(FIRM.strain_at(np.array(2.5)))
    unknowns = nothing_unknown(len(fitted()))
    jawless = np.array([0.0 if zone in JAWS else more * left for zone in ZONES])
    with_head = under(
        (FIRM, firm), (LOOSE, loose), unknowns=replace(unknowns, zone_mm=unknowns.zone_mm + jawless)
    )
    assert abs((in_law.brow_mm - with_head.brow_mm).mean()) < 0.25
    for zone in (Zone.LEFT, Zone.REAR, Zone.FRONT):
        apart = pressure(in_law, zone) - pressure(with_head, zone)
        assert abs(np.median(apart)) < 0.1


@pytest.mark.parametrize("kind", list(COVERINGS))
def test_the_law_of_a_covered_pad_follows_its_layers(kind):
    layers = covering_layers(estimate(BARE, worn=[kind]))
    laws, pressures = pad_laws(OUZEL, zones_over=layers), np.geomspace(0.3, 12.0, 30)
    for place, pad in enumerate(OUZEL.pads):
        if pad.seats:
            whole = (*pad_layers(pad, pad.thicknesses_mm[2]), *layers[place])
            followed = laws.law(pad.zone, 2).pressure(series_stroke(whole, pressures))
            np.testing.assert_allclose(followed, pressures, rtol=0.1)


def woman(over: Over) -> HeadEstimate:
    inches = {"tape_circumference": 21.5, "head_length": 7.0625, "head_breadth": 5.438}
    readings = [Reading(key, value * 25.4, over) for key, value in inches.items()]
    return estimate(*readings, sex=Sex.FEMALE)


def test_a_womans_large_excess_over_the_ellipse_is_read_as_hair_and_not_as_squareness():
    def exponent(head: HeadEstimate) -> float:
        heads = head.draw(2000, np.random.default_rng(1))
        return float(np.median(section_exponent(*(heads.of(key) for key in _OUTLINE))))

    unsaid, bare = woman(Over.UNSTATED), woman(Over.BARE)
    assert exponent(unsaid) < 2.8 < 3.0 < exponent(bare)
    mean, sd = unsaid.thickness(Over.UNSTATED)
    assert mean > survey_hair("female")[0] / (2.0 * np.pi) > sd
    # The chart still sees the tape over the hair.
    tapes = [worn_tape(head, 20_000, np.random.default_rng(3)).mean() for head in (unsaid, bare)]
    assert tapes == pytest.approx([546.0, 546.0], abs=4.0)


def test_a_womans_unspoken_hair_is_under_the_pads_and_a_mans_is_not():
    layers = covering_layers(woman(Over.UNSTATED))
    assert layers[ZONES.index(Zone.CROWN)] == ((FIRM, 1.6),)
    assert covering_layers(woman(Over.BARE)) == ()
    unsure = estimate(Reading("tape_circumference", 575.0), sex=None)
    assert unsure.male_chance > 0.9
    assert covering_layers(unsure) == ()
    heads = unsure.draw(4000, np.random.default_rng(4))
    hair = heads.firm(Over.UNSTATED)
    # A zero variance is drawn as one to rounding.
    assert np.mean(np.abs(hair) > 1e-6) == pytest.approx(1.0 - unsure.male_chance, abs=0.02)
