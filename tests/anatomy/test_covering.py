"""What lies between head and tape."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.anatomy import Over, Reading, Sex, Touch, estimate_head
from helmwright.anatomy.covering import (
    COVERINGS,
    firm_name,
    loose_name,
    nominal_over,
    weights_over,
)

TAPE = "tape_circumference"
AROUND = 2.0 * np.pi


def taped(drawn: float, light: float | None = None, over: Over = Over.THICK_HAIR, **stated):
    readings = [Reading(TAPE, drawn, over), Reading("head_length", 198.0, Over.BARE)]
    if light is not None:
        readings.append(Reading(TAPE, light, over, touch=Touch.LIGHT))
    return estimate_head(readings, sex=Sex.MALE, **stated)


def test_a_drawn_in_tape_goes_around_the_firm_layer_and_a_light_one_around_both():
    drawn = weights_over(TAPE, (Over.BRAIDS,), Touch.DRAWN_IN)
    light = weights_over(TAPE, (Over.BRAIDS,), Touch.LIGHT)
    assert drawn == {firm_name(Over.BRAIDS): pytest.approx(AROUND)}
    assert light == {**drawn, loose_name(Over.BRAIDS): pytest.approx(AROUND)}


def test_a_caliper_goes_over_less_of_it_twice_a_board_once_and_the_jaw_has_none():
    breadth = weights_over("head_breadth", (Over.BRAIDS,), Touch.LIGHT)
    share = COVERINGS[Over.BRAIDS].caliper.value
    assert breadth == {firm_name(Over.BRAIDS): pytest.approx(2.0 * share)}
    assert weights_over("brow_to_top", (Over.BRAIDS,), Touch.DRAWN_IN) == {
        firm_name(Over.BRAIDS): 1.0
    }
    assert weights_over("jaw_pad_width", (Over.BRAIDS,), Touch.DRAWN_IN) == {}


def test_of_hair_that_nobody_spoke_of_only_the_tape_is_known_to_go_over_it():
    assert weights_over(TAPE, (Over.UNSTATED,), Touch.DRAWN_IN)
    assert weights_over("head_length", (Over.UNSTATED,), Touch.DRAWN_IN) == {}
    assert weights_over(TAPE, (Over.BARE,), Touch.LIGHT) == {}


def test_hair_and_cap_add_up():
    both = nominal_over(TAPE, (Over.BRAIDS, Over.SKULL_CAP), Touch.DRAWN_IN)
    one, other = (
        nominal_over(TAPE, (kind,), Touch.DRAWN_IN) for kind in (Over.BRAIDS, Over.SKULL_CAP)
    )
    assert both == pytest.approx((one[0] + other[0], np.hypot(one[1], other[1])))


@pytest.mark.parametrize("kind", list(COVERINGS))
def test_every_thickness_is_assumed_and_wide(kind):
    covering = COVERINGS[kind]
    for figure in (covering.firm, covering.loose):
        assert figure.source.key == "assumed"
        assert figure.spread is not None
        assert figure.spread >= 0.4 * figure.value


@given(st.floats(8.0, 24.0), st.floats(1.0, 12.0))
@settings(max_examples=25, deadline=None)
def test_the_further_a_light_tape_rides_out_the_thicker_the_hair_and_the_smaller_the_head(
    apart, more
):
    near, far = taped(580.0, 580.0 + apart), taped(580.0, 580.0 + apart + more)
    assert far.thickness(Over.THICK_HAIR)[0] > near.thickness(Over.THICK_HAIR)[0]
    assert far.mean_of(TAPE) < near.mean_of(TAPE)


def test_a_light_tape_beside_a_drawn_in_one_tells_hair_from_head():
    alone, beside = taped(580.0), taped(580.0, 600.0)
    assert beside.thickness(Over.THICK_HAIR)[1] < alone.thickness(Over.THICK_HAIR)[1]
    assert beside.sd_of(TAPE) < alone.sd_of(TAPE)


def test_the_difference_of_the_two_tapes_is_the_loose_layer_within_its_error():
    heads = taped(580.0, 580.0 + AROUND * 3.0).draw(20_000, np.random.default_rng(2))
    assert heads.loose(Over.THICK_HAIR).mean() == pytest.approx(3.0, abs=0.2)
    # Two readings of 3 mm error over 2 pi, together with a prior of 2.
    assert heads.loose(Over.THICK_HAIR).std() == pytest.approx(0.7, abs=0.12)


def test_a_light_tape_alone_leaves_the_head_less_known_than_a_drawn_in_one():
    light = estimate_head([Reading(TAPE, 590.0, Over.THICK_HAIR, touch=Touch.LIGHT)], sex=Sex.MALE)
    drawn = estimate_head([Reading(TAPE, 590.0, Over.THICK_HAIR)], sex=Sex.MALE)
    assert light.sd_of(TAPE) > drawn.sd_of(TAPE)
    assert light.mean_of(TAPE) < drawn.mean_of(TAPE)


def test_a_light_tape_over_nobody_knows_what_says_less_and_takes_nothing_from_the_drawn_in_one():
    drawn = taped(580.0, over=Over.UNSTATED)
    both = taped(580.0, 590.0, over=Over.UNSTATED)
    assert both.sd_of(TAPE) <= drawn.sd_of(TAPE)
    assert both.mean_of(TAPE) == pytest.approx(drawn.mean_of(TAPE), abs=1.5)


@pytest.mark.parametrize("kind", list(COVERINGS))
def test_the_hairier_the_reading_the_wider_the_head_stays(kind):
    bare, covered = taped(580.0, over=Over.BARE), taped(580.0, over=kind)
    assert covered.mean_of("head_circumference") < bare.mean_of("head_circumference")
    assert covered.sd_of("head_circumference") > bare.sd_of("head_circumference")


def woman(tape: float, over: Over, beneath: Over | None = None, **stated):
    readings = [
        Reading(TAPE, tape, over, beneath=beneath),
        Reading("head_length", 190.0),
        Reading("head_breadth", 148.0),
    ]
    return estimate_head(readings, sex=Sex.FEMALE, **stated)


def test_under_a_cap_a_woman_has_the_hair_that_nobody_spoke_of_and_keeps_it_on():
    """The cap adds its own to a head with such hair: not to a bare one."""
    cap = AROUND * COVERINGS[Over.SKULL_CAP].firm.value
    plain, capped = woman(558.0, Over.UNSTATED), woman(558.0 + cap, Over.SKULL_CAP)
    bald = woman(558.0 + cap, Over.SKULL_CAP, Over.BARE)
    assert capped.worn == (Over.UNSTATED, Over.SKULL_CAP)
    assert bald.worn == (Over.SKULL_CAP,)
    assert capped.mean_of(TAPE) == pytest.approx(plain.mean_of(TAPE), abs=0.5)
    assert bald.mean_of(TAPE) > capped.mean_of(TAPE) + 2.0
    assert capped.thickness(Over.UNSTATED)[0] > 1.0


def test_hair_of_which_nobody_spoke_stays_on_under_a_cap_that_is_said_to_be_worn():
    cap = [Over.SKULL_CAP]
    assert woman(558.0, Over.UNSTATED, worn=cap).worn == (Over.UNSTATED, Over.SKULL_CAP)
    assert woman(550.0, Over.BARE, worn=cap).worn == (Over.SKULL_CAP,)
    assert woman(558.0, Over.UNSTATED, worn=[]).worn == ()


def test_a_mans_cap_is_taken_off_as_ever():
    one, two = (
        estimate_head([Reading(TAPE, 580.0, Over.SKULL_CAP, beneath=under)], sex=Sex.MALE)
        for under in (None, Over.BARE)
    )
    assert one.mean == pytest.approx(two.mean)
    assert one.covariance == pytest.approx(two.covariance)


def test_two_people_tell_more_than_one_person_twice():
    once, twice = (
        estimate_head([Reading(TAPE, 575.0, by="Ada"), Reading(TAPE, 575.0, by=who)], sex=Sex.MALE)
        for who in ("Ada", "Bo")
    )
    assert twice.sd_of(TAPE) < once.sd_of(TAPE)


def test_a_careful_person_s_reading_counts_for_more():
    careful, hasty = (
        estimate_head([Reading(TAPE, 600.0, tem_mm=tem)], sex=Sex.MALE) for tem in (1.5, 6.0)
    )
    assert careful.sd_of(TAPE) < hasty.sd_of(TAPE)
    assert careful.mean_of(TAPE) > hasty.mean_of(TAPE)


def test_an_estimate_keeps_what_is_worn_under_another_prior():
    capped = taped(580.0, worn=[Over.THICK_HAIR, Over.WINTER_CAP])
    again = capped.under(capped.prior)
    np.testing.assert_allclose(again.mean, capped.mean)
    assert again.worn == capped.worn == (Over.THICK_HAIR, Over.WINTER_CAP)
    assert capped.given(Reading("head_breadth", 153.0)).worn == capped.worn
    assert capped.by_survey("niosh_2003").worn == capped.worn


def test_the_page_shows_every_assumed_thickness_as_it_is():
    page = (Path(__file__).parents[2] / "docs" / "explanation" / "head.md").read_text("utf-8")
    rows = [line.split("|")[1:5] for line in page.splitlines() if line.count("|") == 5]
    told = {row[0].strip(): [cell.strip() for cell in row[1:]] for row in rows}
    for kind, covering in COVERINGS.items():
        firm, loose = (
            f"{each.value:g} ({each.spread:g})" for each in (covering.firm, covering.loose)
        )
        assert told[kind.value] == [firm, loose, f"{covering.caliper.value:g}"]
