"""Readings in the middle of a visit: asked for, repeated, left out, given unasked."""

import pytest

from helmwright.cli.visit_choices import Chosen
from helmwright.visit.event import MeasureAsked
from helmwright.visit.state import fold
from helmwright.visit.step import AskMeasure, Record
from tests.cli.step_guide import StepGuide
from tests.cli.visit_ways import names, of_kind, said, written

WANTED = ("tape_circumference", "bigonial_breadth", "brow_to_top")


class MeasuringGuide(StepGuide):
    """Asks for three measures before anything is put on."""

    def next(self, events):
        visit = fold(events)
        if visit.measure is not None and not visit.paused and visit.ended is None:
            return AskMeasure(visit.measure.measure, visit.measure.why)
        known = {each.measure for each in visit.readings[3:]} | visit.skipped
        left = [each for each in WANTED if each not in known]
        if left and not visit.try_ons and visit.ended is None and not visit.paused:
            return Record(MeasureAsked(left[0], "It is worth it."))
        return super().next(events)


@pytest.fixture
def measure(play, monkeypatch):
    """Plays a visit that begins with three measures."""
    monkeypatch.setattr(Chosen, "guide", lambda self: MeasuringGuide(self.sheet, self.protocol))
    return play


def readings(folder):
    """What was read in the visit, in inches."""
    return [
        [round(each["value_mm"] / 25.4, 3) for each in event["readings"]]
        for event in of_kind(written(folder), "measured")
    ]


def test_a_bad_second_reading_is_asked_again_and_the_first_is_kept(measure, tmp_path):
    told = said(measure("22 5/8", "loose", "22 1/2", ""))
    assert "'loose' is no number" in told
    assert "What was read before is kept, and hidden until you are done." in told
    assert "Kept: tape around the head 22 5/8 in and 22 1/2 in." in told
    assert readings(tmp_path) == [[22.625], [22.5]]


@pytest.mark.parametrize(
    ("typed", "last"),
    [
        (["symptom dizzy"], "symptom reported"),
        (["he is dizzy", "y"], "symptom reported"),
        (["stop", "late"], "stopped"),
        (["pause"], "paused"),
        ([], "paused"),
    ],
)
def test_a_command_at_a_second_reading_is_obeyed_and_the_first_is_kept(
    measure, tmp_path, typed, last
):
    assert "Kept: tape around the head 22 5/8 in." in said(measure("22 5/8", *typed))
    assert readings(tmp_path) == [[22.625]]
    assert names(written(tmp_path))[-1] == last


def test_undo_at_a_second_reading_takes_the_first_back_and_says_so(measure, tmp_path):
    told = said(measure("22 5/8", "help", "why", "undo", "23", ""))
    assert "symptom headache, dizziness" in told
    assert "It is worth it." in told
    assert "Taken back: the reading of the tape around the head." in told
    assert readings(tmp_path) == [[22.625], [23.0]]
    assert names(written(tmp_path)).count("undone") == 1


def test_readings_of_one_measure_go_back_together(measure, tmp_path):
    told = said(measure("22 5/8", "22 1/2", "undo"))
    assert "Taken back: the reading of the tape around the head (2 readings)." in told
    assert names(written(tmp_path)).count("undone") == 2
    assert told.endswith("(Enter: skip it; none: skip all):")


def test_none_leaves_out_everything_that_is_asked_for_and_undo_asks_again(measure, tmp_path):
    told = said(measure("none"))
    assert "Nothing more is to be measured in this visit" in told
    assert names(written(tmp_path)).count("measure skipped") == 3
    assert told.endswith("Marks and labels (g, m):")
    back = said(measure("none", "g", "undo", "undo", who="dunlin"))
    assert "Taken back: leaving out what cannot be measured (3 answers)." in back
    assert back.endswith("(Enter: skip it; none: skip all):")


def test_a_measure_is_called_by_its_plain_name(measure):
    told = said(measure("", "undo", "", "2", ""))
    assert "Taken back: leaving out the tape around the head." in told
    assert "width at jaw corners" in told
    assert "bigonial" not in told
    assert "tape_circumference" not in told


def test_a_measure_is_taken_over_what_is_worn_and_over_nothing_where_that_is_nothing(measure):
    over = "Take it over what is worn"
    assert f"{over}: short hair." in said(measure())
    assert over not in said(measure(who="dunlin"))


@pytest.mark.parametrize("typed", ["0", "1,1"])
def test_what_is_no_reading_or_not_clear_is_asked_again(measure, tmp_path, typed):
    told = said(measure(typed, "22 5/8", ""))
    assert readings(tmp_path) == [[22.625]]
    assert ("may be one reading or two" in told) is (typed == "1,1")


@pytest.mark.parametrize(
    "typed", [["reading tape 22 5/8, 22 3/4"], ["reading tape", "22 5/8, 22 3/4"]]
)
def test_a_reading_can_be_given_at_any_question(play, tmp_path, typed):
    told = said(play("g", *typed))
    assert "Kept: tape around the head 22 5/8 in and 22 3/4 in." in told
    assert readings(tmp_path) == [[22.625, 22.75]]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["reading", "visor 3"], '"visor 3" names no measure. Type one of breadth, brow to top'),
        (["reading tape 5"], "is no tape around the head"),
        (["reading tape", ""], "No reading was typed"),
    ],
)
def test_what_is_no_reading_says_what_would_be(play, tmp_path, typed, told):
    assert told in said(play(*typed))
    assert readings(tmp_path) == []
