"""What a visit's events come to, and which cannot come."""

import pytest

from helmwright.anatomy import Reading
from helmwright.visit.event import (
    Accepted,
    Event,
    LookAsked,
    MeasureAsked,
    Measured,
    MeasureSkipped,
    NoBuild,
    NotHere,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.state import OutOfTurnError, TryOn, fold
from tests.visit.scripts import DELIVERED, answered, begun, moved, proposed

THICKER = moved(front=1)
ON: list[Event] = [begun(), proposed(), PutOn(DELIVERED)]
FIRST: list[Event] = [*ON, answered("front", "loose"), answered("brow", "right", 25.0)]
SECOND: list[Event] = [*FIRST, proposed(THICKER), PutOn(THICKER), answered("front")]
ENDS: list[Event] = [Accepted(THICKER), NoBuild("no"), Stopped("late"), SymptomReported("dizzy")]


def now(events: list[Event]) -> TryOn:
    going_on = fold(events).now
    assert going_on is not None
    return going_on


def open_look(events: list[Event]) -> str:
    look = fold(events).look
    assert look is not None
    return look.check


def test_a_build_that_is_given_up_for_its_findings_is_rejected():
    visit = fold(SECOND)
    assert visit.rejected == (DELIVERED,)
    assert [tried.build for tried in visit.try_ons] == [DELIVERED, THICKER]
    assert visit.in_helmet == THICKER
    assert now(SECOND).answers == (answered("front"),)


def test_readings_taken_in_the_visit_join_those_of_the_start():
    tape, length = Reading("tape_circumference", 575.0), Reading("head_length", 198.0)
    asked: list[Event] = [begun(readings=(tape,)), MeasureAsked("head_length", "it pays")]
    assert fold(asked).measure == MeasureAsked("head_length", "it pays")
    visit = fold([*asked, Measured((length,))])
    assert visit.readings == (tape, length)
    assert visit.measure is None


def test_a_reading_of_something_else_leaves_the_question_open():
    asked: list[Event] = [begun(), MeasureAsked("head_length", "it pays")]
    assert fold([*asked, Measured((Reading("head_breadth", 155.0),))]).measure is not None


def test_a_skipped_measure_is_remembered():
    visit = fold([begun(), MeasureAsked("head_length", ""), MeasureSkipped("head_length")])
    assert visit.skipped == {"head_length"}
    assert visit.measure is None


def test_a_reading_taken_before_the_build_is_on_asks_for_another_proposal():
    visit = fold([begun(), proposed(), Measured((Reading("head_length", 198.0),))])
    assert visit.proposal is None
    assert visit.now is None


def test_a_part_that_is_not_here_takes_the_proposal_away_and_is_remembered():
    events: list[Event] = [begun(), proposed(), answered("marks"), NotHere("front", "1 in")]
    visit = fold(events)
    assert (visit.proposal, visit.ahead) == (None, ())
    assert visit.missing == {("front", "1 in")}
    undone = fold([*events, Undone()])
    assert (undone.proposal, undone.missing) == (proposed(), frozenset())


def test_a_part_is_missing_only_from_a_proposed_build():
    with pytest.raises(OutOfTurnError, match="no build is proposed"):
        fold([*FIRST, NotHere("front", "1 in")])


def test_another_build_is_put_on_with_a_reason_which_is_kept():
    tried = now([begun(), proposed(), PutOn(THICKER, "he likes it so")])
    assert tried.reason == "he likes it so"
    assert tried.proposed == proposed()


def test_another_build_may_be_put_on_in_the_middle_of_a_round():
    events: list[Event] = [*FIRST, PutOn(THICKER, "a pad came off")]
    assert now(events).build == THICKER
    assert now(events).proposed is None
    assert fold(events).rejected == ()


def test_what_is_answered_before_the_helmet_goes_on_belongs_to_the_next_try_on():
    visit = fold([begun(), proposed(), answered("marks")])
    assert visit.ahead == (answered("marks"),)
    on: list[Event] = [begun(), proposed(), answered("marks"), PutOn(DELIVERED)]
    assert now(on).answers == (answered("marks"),)


def test_another_shell_is_checked_anew_before_it_goes_on():
    other = type(DELIVERED)(4, DELIVERED.pads)
    assert now([begun(), proposed(), answered("marks"), PutOn(other, "too small")]).answers == ()


def test_the_answer_to_a_second_look_closes_it():
    asked: list[Event] = [*FIRST, LookAsked("front", "doubtful")]
    assert open_look(asked) == "front"
    assert open_look([*asked, answered("brow", "right")]) == "front"
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
    events: list[Event] = [
        *SECOND[:place],
        *([Paused()] if paused else []),
        SymptomReported("neck pain"),
    ]
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
        events: list[Event] = [*SECOND[:place], Paused(), Resumed(), *SECOND[place:]]
        assert fold(events) == fold(SECOND)


REFUSED: list[tuple[list[Event], str]] = [
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
