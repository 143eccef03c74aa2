"""Whether the reading gives the shell that the head itself would give."""

import numpy as np
import pytest

from helmwright.anatomy import HeadEstimate, Over, Reading, Sex, Touch, estimate_head
from helmwright.anatomy.covering import COVERINGS
from helmwright.fit.covering import worn_tape
from helmwright.fit.outlook import SizeRisk
from helmwright.fit.size_risk import read_tape, size_risk
from tests.fit.ordinary import OUZEL

TAPE = "tape_circumference"
AROUND = 2.0 * np.pi


def taped(value: float, *more: Reading, worn=None, **said) -> HeadEstimate:
    return estimate_head([Reading(TAPE, value, **said), *more], sex=Sex.MALE, worn=worn)


def risk(head: HeadEstimate) -> SizeRisk:
    found = size_risk(head, OUZEL, worn_tape(head, 20_000, np.random.default_rng(1)))
    assert found is not None
    return found


def test_in_the_middle_of_a_band_the_shell_is_nearly_sure_and_at_its_edge_a_toss():
    middle, edge = risk(taped(570.0)), risk(taped(580.5))
    assert middle.shell == 3
    assert middle.chance < 0.02
    assert edge.shell == 4
    assert edge.other == 3
    assert 0.4 < edge.chance < 0.65


def test_more_readings_and_a_careful_person_make_it_surer():
    once = risk(taped(577.0)).chance
    twice = risk(taped(577.0, Reading(TAPE, 577.0))).chance
    careful = risk(taped(577.0, tem_mm=1.0)).chance
    assert careful < twice < once


def test_without_a_tape_there_is_no_reading_to_be_wrong():
    head = estimate_head([Reading("head_length", 198.0)], sex=Sex.MALE)
    assert read_tape(head) is None
    assert size_risk(head, OUZEL, np.array([570.0])) is None


def test_the_reading_is_carried_over_to_what_will_be_worn():
    assert read_tape(taped(570.0, over=Over.BARE)) == pytest.approx(570.0)
    capped = taped(570.0, over=Over.BARE, worn=[Over.WINTER_CAP])
    more = AROUND * COVERINGS[Over.WINTER_CAP].firm.value
    assert read_tape(capped) == pytest.approx(570.0 + more)
    assert read_tape(taped(570.0, over=Over.BRAIDS)) == pytest.approx(570.0)


def test_a_light_tape_counts_only_where_it_is_all_there_is():
    light = Reading(TAPE, 590.0, Over.THICK_HAIR, touch=Touch.LIGHT)
    assert read_tape(taped(572.0, light, over=Over.THICK_HAIR)) == pytest.approx(572.0)
    alone = estimate_head([light], sex=Sex.MALE)
    loose = AROUND * COVERINGS[Over.THICK_HAIR].loose.value
    assert read_tape(alone) == pytest.approx(590.0 - loose)


def test_two_people_count_by_how_often_they_read():
    head = taped(570.0, Reading(TAPE, 570.0, by="Ada"), Reading(TAPE, 576.0, by="Bo"), by="Ada")
    assert read_tape(head) == pytest.approx(572.0)
