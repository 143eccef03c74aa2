"""What belongs to a head stays, a pad is a specimen, putting on is new each time."""

import numpy as np
import pytest

from helmwright.anatomy import Sex
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Bands, Build
from helmwright.study.dials import AS_ASSUMED, TURNED, Dials
from helmwright.study.players import Met, Player, meet
from helmwright.study.truth import FOAM_SCATTER, FRICTION, PULL, SLIDE

FRONT = ZONES.index(Zone.FRONT)


def with_front(build: Build, step: int) -> Build:
    pads = tuple(pad + step * (place == FRONT) for place, pad in enumerate(build.pads))
    return Build(build.shell, pads)


def men(count: int, dials: Dials = AS_ASSUMED) -> list[Met]:
    return [meet(Player(Sex.MALE, "niosh_2003", index, seed=5), dials) for index in range(count)]


def test_a_changed_pad_is_another_specimen_and_the_others_stay(met):
    first = met.wearer.day(met.delivered, 1)
    second = met.wearer.day(with_front(met.delivered, 1), 2)
    changed = first.foam != second.foam
    assert [ZONES[place] for place in np.flatnonzero(changed)] == [Zone.FRONT]
    assert first.thickness_mm[FRONT] != second.thickness_mm[FRONT]


def test_a_pad_that_is_put_back_is_itself(met):
    first, third = (met.wearer.day(met.delivered, number) for number in (1, 3))
    assert np.array_equal(first.foam, third.foam)
    assert np.array_equal(first.thickness_mm, third.thickness_mm)


def test_another_shell_comes_with_its_own_pads(met):
    other = Build(met.delivered.shell - 1, met.delivered.pads)
    assert not np.any(met.wearer.day(met.delivered, 1).foam == met.wearer.day(other, 1).foam)


def test_the_head_stays_and_every_try_on_is_put_on_anew(met):
    first, second = (met.wearer.day(met.delivered, number) for number in (1, 2))
    assert first.surface is second.surface
    assert first.bumps is second.bumps
    for name in ("friction", "pull", "slide_mm", "push_n", "kept"):
        assert getattr(first, name) != getattr(second, name)


def test_every_policy_meets_the_same_luck_at_the_same_try_on(met):
    mine, theirs = (
        met.wearer.day(build, 2) for build in (met.delivered, with_front(met.delivered, -1))
    )
    for name in ("friction", "pull", "slide_mm", "push_n", "kept"):
        assert getattr(mine, name) == getattr(theirs, name)


def test_over_players_and_try_ons_a_quantity_is_spread_as_stated():
    days = [one.wearer.day(one.delivered, number) for one in men(400) for number in (1, 2)]
    low, high = FRICTION[0].value, FRICTION[1].value
    friction = (np.array([day.friction for day in days]) - low) / (high - low)
    slide = np.array([day.slide_mm for day in days])
    assert 0.0 <= friction.min() < friction.max() <= 1.0
    assert friction.mean() == pytest.approx(0.5, abs=0.05)
    assert friction.std() == pytest.approx(12**-0.5, rel=0.08)
    assert slide.std() == pytest.approx((SLIDE[1].value - SLIDE[0].value) / 12**0.5, rel=0.08)
    assert np.log([day.pull for day in days]).std() == pytest.approx(PULL.value, rel=0.1)
    foam = np.log([day.foam for day in days[::2]])
    assert foam.std() == pytest.approx(FOAM_SCATTER.value, rel=0.05)


def test_one_player_differs_less_from_try_on_to_try_on_than_players_do():
    pulls = np.log([[one.wearer.day(one.delivered, n).pull for n in (1, 2)] for one in men(300)])
    assert np.corrcoef(pulls.T)[0, 1] == pytest.approx(0.7, abs=0.08)


def test_dials_turn_what_they_name():
    usual, half = men(3), men(3, Dials(bumps=0.5, foam=0.5, strap=1.8))
    point = np.array([[90.0, 20.0, 60.0]])
    for one, two in zip(usual, half, strict=True):
        assert two.wearer.head.bumps.at(point) == pytest.approx(one.wearer.head.bumps.at(point) / 2)
        mine, theirs = (met.wearer.day(met.delivered, 1) for met in (one, two))
        assert np.log(theirs.foam) == pytest.approx(np.log(mine.foam) / 2)
        assert theirs.pull == pytest.approx(1.8 * mine.pull)
        assert theirs.friction == mine.friction
        assert one.readings == two.readings
    slippery = men(1, Dials(friction=0.15))[0]
    assert {slippery.wearer.day(slippery.delivered, number).friction for number in (1, 2)} == {0.15}


def test_wider_eyebrows_move_the_brow_alone():
    usual, wide = men(4), men(4, Dials(eyebrows=2.0))
    for one, two in zip(usual, wide, strict=True):
        moved = one.wearer.head.measures != two.wearer.head.measures
        assert moved.sum() == 1
    brows = np.array([[one.wearer.head.brow_mm for one in group] for group in (usual, wide)])
    assert brows[1].std() == pytest.approx(2.0 * brows[0].std(), rel=0.02)


def test_half_as_wide_limits_lie_within_the_usual_ones_and_twice_as_wide_around():
    usual = Bands()
    half, double = (Dials(limits=factor).bands(usual) for factor in (0.5, 2.0))
    assert double.loose_kpa < usual.loose_kpa < half.loose_kpa
    assert half.tight_kpa < usual.tight_kpa < double.tight_kpa
    for bands, factor in ((half, 0.5), (double, 2.0)):
        width = bands.brow_high_mm - bands.brow_low_mm
        assert width == pytest.approx(factor * (usual.brow_high_mm - usual.brow_low_mm))
        ratio = np.log(bands.tight_kpa / bands.loose_kpa)
        assert ratio == pytest.approx(factor * np.log(usual.tight_kpa / usual.loose_kpa))
        assert bands.hot_spot_kpa / bands.tight_kpa == pytest.approx(
            usual.hot_spot_kpa / usual.tight_kpa
        )


def test_dials_that_leave_nothing_to_play_are_refused():
    with pytest.raises(ValueError, match="greater than 0"):
        Dials(bumps=0.0)
    with pytest.raises(ValueError, match=r"from 0 to 1, not 1\.5"):
        Dials(same_look=1.5)
    with pytest.raises(ValueError, match=r"a friction must lie from 0\.05 to 1"):
        Dials(friction=0.0)


def test_a_first_proposal_is_shared_only_where_neither_readings_nor_program_change():
    assert [name for name, dials in TURNED.items() if dials.first_differs] == [
        "limits of right halved",
        "limits of right doubled",
        "eyebrows spread 10 mm",
        "program without friction",
    ]


def test_a_head_is_the_same_for_any_number_of_heads_and_each_is_another():
    one, two = (meet(Player(Sex.FEMALE, "us_army_2012", index, seed=5)) for index in (0, 1))
    again = meet(Player(Sex.FEMALE, "us_army_2012", 0, seed=5))
    assert np.array_equal(one.wearer.head.surface, again.wearer.head.surface)
    assert one.readings == again.readings
    assert not np.array_equal(one.wearer.head.surface, two.wearer.head.surface)


def test_rows_of_a_survey_are_played_where_there_are_any(shared_data):
    heads = [
        meet(Player(Sex.MALE, "us_army_2012", index, 5, shared_data)).wearer.head.measures[0]
        for index in range(40)
    ]
    assert len(set(heads)) > 30
    assert 560.0 < np.mean(heads) < 590.0
