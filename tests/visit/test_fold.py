"""What a visit's events come to, and which cannot come."""

import pytest

from helmwright.anatomy import Reading
from helmwright.visit.event import (
    Accepted,
    LookAsked,
    MeasureAsked,
    Measured,
    MeasureSkipped,
    NoBuild,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.state import OutOfTurnError, fold
from tests.visit.scripts import DELIVERED, answered, begun, moved, proposed

THICKER = moved(front=1)
ON = [begun(), proposed(), PutOn(DELIVERED)]
FIRST = [*ON, answered("front", "loose"), answered("brow", "right", 25.0)]
SECOND = [*FIRST, proposed(THICKER), PutOn(THICKER), answered("front")]
ENDS = [Accepted(THICKER), NoBuild("no"), Stopped("late"), SymptomReported("dizzy")]


def test_a_build_that_is_given_up_for_its_findings_is_rejected():
    visit = fold(SECOND)
    assert visit.rejected == (DELIVERED,)
    assert [tried.build for tried in visit.try_ons] == [DELIVERED, THICKER]
    assert visit.in_helmet == THICKER
    assert visit.now.answers == (answered("front"),)


def test_readings_taken_in_the_visit_join_those_of_the_start():
    tape, length = Reading("tape_circumference", 575.0), Reading("head_length", 198.0)
    asked = [begun(readings=(tape,)), MeasureAsked("head_length", "it pays")]
    assert fold(asked).measure == MeasureAsked("head_length", "it pays")
    visit = fold([*asked, Measured((length,))])
    assert visit.readings == (tape, length)
    assert visit.measure is None


def test_a_reading_of_something_else_leaves_the_question_open():
    asked = [begun(), MeasureAsked("head_length", "it pays")]
    assert fold([*asked, Measured((Reading("head_breadth", 155.0),))]).measure is not None


def test_a_skipped_measure_is_remembered():
    visit = fold([begun(), MeasureAsked("head_length", ""), MeasureSkipped("head_length")])
    assert visit.skipped == {"head_length"}
    assert visit.measure is None


def test_a_reading_taken_before_the_build_is_on_asks_for_another_proposal():
    visit = fold([begun(), proposed(), Measured((Reading("head_length", 198.0),))])
    assert visit.proposal is None
    assert visit.now is None


def test_another_build_is_put_on_with_a_reason_which_is_kept():
    visit = fold([begun(), proposed(), PutOn(THICKER, "he likes it so")])
    assert visit.now.reason == "he likes it so"
    assert visit.now.proposed == proposed()


def test_another_build_may_be_put_on_in_the_middle_of_a_round():
    visit = fold([*FIRST, PutOn(THICKER, "a pad came off")])
    assert visit.now.build == THICKER
    assert visit.now.proposed is None
    assert visit.rejected == ()


def test_what_is_answered_before_the_helmet_goes_on_belongs_to_the_next_try_on():
    visit = fold([begun(), proposed(), answered("marks")])
    assert visit.ahead == (answered("marks"),)
    assert fold([begun(), proposed(), answered("marks"), PutOn(DELIVERED)]).now.answers == (
        answered("marks"),
    )


def test_another_shell_is_checked_anew_before_it_goes_on():
    other = type(DELIVERED)(4, DELIVERED.pads)
    visit = fold([begun(), proposed(), answered("marks"), PutOn(other, "too small")])
    assert visit.now.answers == ()


def test_the_answer_to_a_second_look_closes_it():
    asked = [*FIRST, LookAsked("front", "doubtful")]
    assert fold(asked).look.check == "front"
    assert fold([*asked, answered("brow", "right")]).look.check == "front"
    assert fold([*asked, answered("front")]).look is None


@pytest.mark.parametrize("end", [Accepted(DELIVERED), *ENDS[1:]], ids=lambda e: type(e).__name__)
def test_an_end_can_be_undone_where_a_person_said_it_and_with_the_last_answer_else(end):
    ended = fold([*FIRST, end])
    assert ended.ended == end
    back = fold([*FIRST, end, Undone()])
    assert back.ended is None
    said = isinstance(end, (Stopped, SymptomReported))
    assert back == fold(FIRST if said else FIRST[:-1])


@pytest.mark.parametrize("place", range(2, len(SECOND) + 1))
@pytest.mark.parametrize("paused", [False, True])
def test_a_symptom_ends_the_visit_wherever_it_is(place, paused):
    events = [*SECOND[:place], *([Paused()] if paused else []), SymptomReported("neck pain")]
    assert fold(events).ended == SymptomReported("neck pain")


@pytest.mark.parametrize("end", ENDS, ids=lambda end: type(end).__name__)
def test_a_symptom_is_recorded_after_any_end(end):
    assert fold([*SECOND, end, SymptomReported("numb")]).ended == SymptomReported("numb")


def test_undoing_takes_back_the_last_word_of_a_person_and_what_the_program_said_to_it():
    for place, event in enumerate(SECOND):
        if place >= 2 and event != proposed(THICKER):
            said = SECOND[: place + 1]
            before = SECOND[:place]
            after = fold([*said, Undone()])
            assert after == fold(before), event


def test_several_undoings_in_a_row_go_further_back():
    assert fold([*SECOND, Undone(), Undone()]) == fold([*FIRST, proposed(THICKER)])
    assert fold([*SECOND, Undone(), Undone(), Undone()]) == fold(FIRST[:-1])


def test_what_comes_after_an_undoing_counts_as_if_the_undone_had_not_been():
    assert fold([*FIRST, Undone(), answered("brow", "low")]) == fold(
        [*FIRST[:-1], answered("brow", "low")]
    )


def test_an_interruption_since_goes_with_what_is_undone():
    assert fold([*FIRST, Paused(), Resumed(), Undone()]) == fold(FIRST[:-1])


def test_an_interruption_changes_nothing_else():
    for place in range(1, len(SECOND)):
        events = [*SECOND[:place], Paused(), Resumed(), *SECOND[place:]]
        assert fold(events) == fold(SECOND)


REFUSED = [
    ([], "its start"),
    ([proposed()], "has not begun"),
    ([begun(), begun()], "begun already"),
    ([begun(), Undone()], "nothing has been said"),
    ([begun(), proposed(), Undone()], "nothing has been said"),
    ([begun(), answered("front")], "no helmet on the head"),
    ([begun(), PutOn(DELIVERED)], "not the proposed build"),
    ([begun(), proposed(), PutOn(THICKER)], "with a reason"),
    ([begun(), proposed(), proposed()], "not on the head yet"),
    ([*ON, proposed(THICKER)], "has not been checked"),
    ([*ON, Accepted(DELIVERED)], "has not been checked"),
    ([*FIRST, Accepted(THICKER)], "not on the head"),
    ([begun(), MeasureAsked("head_length", ""), proposed()], "was asked for"),
    ([begun(), MeasureSkipped("head_length")], "was not asked for"),
    ([begun(), Measured(())], "no reading"),
    ([*ON, LookAsked("front", "")], "was not answered"),
    ([*FIRST, LookAsked("front", ""), LookAsked("brow", "")], "still open"),
    ([*FIRST, LookAsked("front", ""), proposed(THICKER)], "still open"),
    ([*FIRST, Resumed()], "not paused"),
    ([*FIRST, Paused(), Paused()], "is paused"),
    ([*FIRST, Paused(), answered("rear")], "resume it first"),
    ([*FIRST, Paused(), Undone()], "in a pause"),
    ([*FIRST, Stopped("late"), answered("rear")], "is over"),
    ([*FIRST, Stopped("late"), Stopped("late")], "is over"),
]


@pytest.mark.parametrize(("events", "why"), REFUSED, ids=lambda each: str(each)[:40])
def test_an_event_out_of_turn_is_refused_with_its_place_and_what_would_be_right(events, why):
    with pytest.raises(OutOfTurnError, match=why) as refused:
        fold(events)
    if events:
        assert f"event {len(events)}" in str(refused.value)
        assert ";" in str(refused.value)
