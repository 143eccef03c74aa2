"""A visit: what follows from each thing said in it, and what does not."""

import pytest

from helmwright.records.actions.visits import say_next
from helmwright.records.kinds.people import PersonErased
from helmwright.records.kinds.visits import VisitSaid
from helmwright.records.models import Entry, Private, Reading, Visit
from helmwright.records.readers.visit_events import events_of
from helmwright.records.verify import verify
from helmwright.records.visit_refused import RefusedError
from tests.records.entries import a_player, tell
from tests.records.fitting import (
    MEASURED,
    READ,
    Fitting,
    answered,
    build,
    pads_in,
    proposed,
    put_on,
    room_team,
)
from tests.records.room import SHEET

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]


def test_a_visit_begins_with_what_the_records_hold_then(room):
    fitting = Fitting(room)
    (started,) = events_of(fitting.row)
    assert started["event"] == "started"
    assert started["who"] == str(fitting.player.id)
    assert fitting.row.state == "open"
    assert fitting.row.waits_for == "a proposal"
    assert fitting.row.fitter == fitting.fitter


def test_what_is_said_in_the_name_of_another_player_is_no_part_of_the_visit(room, fitting):
    other = a_player(room_team(room), name="Coot Marsh")
    said = VisitSaid(
        visit=fitting.id,
        player=other.id,
        place=1,
        event={"event": "symptom reported"},
        words="dizzy",
    )
    kept = tell(said)
    assert not kept.is_taken
    assert "another player" in kept.entry.note
    assert fitting.row.state == "open"


def test_the_same_beginning_twice_starts_one_visit(fitting):
    again = Entry.objects.get(id=fitting.begun.entry.id)
    assert fitting.begun.is_new
    kept = fitting.begin()
    assert not kept.is_taken
    assert "begun already" in kept.entry.note
    assert Visit.objects.count() == 1
    assert fitting.count == 1
    assert again.outcome == "taken"


def test_a_player_has_one_visit_at_a_time(room, fitting):
    other = fitting.begin(visit=room.store)
    assert not other.is_taken
    assert "A visit of this player has been going on at" in other.entry.note


def test_what_is_personal_of_the_start_is_kept_where_it_can_be_erased(room):
    tall = a_player(room_team(room), name="Coot Marsh", stature_mm=1900.0, worn=["bare"])
    fitting = Fitting(room)
    fitting.taken({"event": "stopped"})
    kept = fitting.begin(player=tall.id, visit=room.drawer)
    assert kept.is_taken
    start = Entry.objects.get(seq=Visit.objects.get(id=room.drawer).steps.get().entry)
    assert "1900" not in start.payload
    assert "bare" not in start.payload
    assert "1900" in Private.objects.get(entry=start).body
    (started,) = events_of(Visit.objects.get(id=room.drawer))
    assert started["stated"]["stature_mm"] == 1900.0
    assert started["worn"] == ["bare"]


def test_readings_taken_in_a_visit_are_the_players_until_they_are_taken_back(fitting):
    fitting.taken(MEASURED)
    rows = Reading.objects.filter(player=fitting.player)
    assert sorted(row.value_mm for row in rows) == [575.0, 576.0]
    assert {row.by for row in rows} == {fitting.fitter}
    fitting.taken({"event": "undone"})
    assert all(row.is_withdrawn for row in Reading.objects.filter(player=fitting.player))


def test_what_somebody_says_too_late_is_set_aside_and_the_station_named(fitting):
    fitting.program(proposed())
    fitting.taken(put_on())
    late = fitting.say(put_on(), place=2)
    assert not late.is_taken
    assert late.entry.note.startswith(f"{fitting.station.name} went on with this visit at ")
    assert fitting.count == 3


def test_what_follows_something_that_was_not_taken_does_not_count_either(fitting):
    early = fitting.say({"event": "paused"}, place=7)
    assert not early.is_taken
    assert "was not taken" in early.entry.note


@pytest.mark.parametrize(
    ("event", "state"),
    [
        ({"event": "paused"}, "paused"),
        ({"event": "stopped"}, "stopped"),
        ({"event": "undone"}, "open"),
        (MEASURED, "open"),
    ],
)
def test_an_interruption_holds_whatever_the_program_said_meanwhile(fitting, event, state):
    fitting.taken(MEASURED)
    fitting.program(proposed())
    assert fitting.taken(event, place=2).state == state


def test_a_symptom_is_never_too_late(fitting):
    fitting.program(proposed())
    fitting.taken(put_on())
    visit = fitting.taken({"event": "symptom reported"}, place=1, words="dizzy")
    assert visit.state == "symptom"
    assert visit.ended_at is not None


def test_after_a_symptom_a_visit_begins_only_once_somebody_says_that_it_may(fitting, room):
    fitting.taken({"event": "symptom reported"}, words="numb")
    asked = fitting.begin(visit=room.store)
    assert not asked.is_taken
    assert "Medical staff decide" in asked.entry.note
    assert fitting.begin(visit=room.drawer, cleared=True).is_taken


def test_the_program_is_silent_where_somebody_went_on_meanwhile(fitting):
    fitting.taken({"event": "paused"})
    assert fitting.count == 2
    late = fitting.row.steps.count() - 1
    assert not say_next(
        visit=fitting.id,
        player=fitting.player.id,
        place=late,
        events=[proposed()],
        now=fitting.room.now,
    )
    assert fitting.count == 2
    assert not Entry.objects.filter(outcome="set aside").exists()


def test_a_person_cannot_say_what_the_program_says(fitting):
    with pytest.raises(RefusedError, match="for the program to say"):
        fitting.say(proposed())


def test_readings_that_no_head_has_are_refused(fitting):
    with pytest.raises(RefusedError) as refused:
        fitting.say({"event": "measured", "readings": [READ | {"value_mm": 300.0}]})
    assert refused.value.where == "readings"
    assert fitting.count == 1


def test_a_visit_does_not_begin_on_readings_that_no_head_has(room, fitting):
    fitting.taken({"event": "stopped"})
    Reading.objects.create(
        id=room.store,
        player=fitting.player,
        measure="head_length",
        value_mm=90.0,
        at=room.now,
    )
    with pytest.raises(RefusedError):
        fitting.begin(visit=room.drawer)
    assert not Visit.objects.filter(id=room.drawer).exists()


def test_an_answer_to_no_check_is_set_aside_and_told(fitting):
    fitting.program(proposed())
    fitting.taken(put_on())
    kept = fitting.say(answered("no such check", "snug"))
    assert not kept.is_taken
    assert "no check" in kept.entry.note


def test_an_end_that_is_taken_back_opens_the_visit_again(fitting):
    fitting.taken(MEASURED)
    fitting.taken({"event": "stopped"})
    visit = fitting.taken({"event": "undone"})
    assert visit.state == "open"
    assert visit.ended_at is None


def test_an_end_stays_where_another_visit_of_the_player_was_begun_since(fitting, room):
    fitting.taken({"event": "stopped"})
    assert fitting.begin(visit=room.drawer).is_taken
    kept = fitting.say({"event": "undone"})
    assert not kept.is_taken
    assert "Another visit of this player" in kept.entry.note
    assert fitting.row.state == "stopped"


def test_another_station_takes_a_visit_over(fitting, room):
    fitting.taken({"event": "paused"})
    other = room.station("Station 5")
    assert fitting.take_over(other).is_taken
    fitting.taken({"event": "resumed"}, station=other)
    assert fitting.row.station == other
    late = fitting.say({"event": "resumed"}, place=2)
    assert late.entry.note.startswith("Station 5 went on with this visit at ")


def test_a_visit_that_is_over_is_not_taken_over(fitting, room):
    fitting.taken({"event": "stopped"})
    assert not fitting.take_over(room.station("Station 5")).is_taken


def test_words_are_kept_apart_and_the_visit_stands_when_they_are_erased(fitting):
    fitting.program(proposed())
    fitting.taken(put_on(front=FRONT[0]), words="he asked for it, says Avocet")
    fitting.taken({"event": "symptom reported"}, words="a headache, says Avocet")
    assert [event.get("reason") or event.get("words") for event in events_of(fitting.row)[2:]] == [
        "he asked for it, says Avocet",
        "a headache, says Avocet",
    ]
    assert "Avocet" not in "".join(Entry.objects.values_list("payload", flat=True))
    assert tell(PersonErased(player=fitting.player.id)).is_taken
    told = events_of(fitting.row)
    assert told[-1]["words"] == ""
    assert told[-2]["reason"] == "another build"
    assert verify().is_whole


def test_private_words_are_moved_out_of_the_event_wherever_they_stand(fitting):
    said = VisitSaid(
        visit=fitting.id,
        player=fitting.player.id,
        place=1,
        event={"event": "stopped", "reason": "tired"},
    )
    assert said.words == "tired"
    assert "tired" not in said.public_text()


def test_what_is_no_event_of_a_visit_is_refused(fitting):
    for event in ({"event": "shrugged"}, {"event": "answered"}, {"event": "paused", "so": 1}):
        with pytest.raises(ValueError, match="1 validation error for VisitSaid"):
            VisitSaid(visit=fitting.id, player=fitting.player.id, place=1, event=event)


def test_a_whole_visit_told_again_gives_the_same_tables(room):
    helmet = room.helmet()
    other = next(label for label in FRONT if label != pads_in(helmet)["front"])
    fitting = Fitting(room)
    fitting.taken(MEASURED)
    fitting.program(proposed(front=other))
    fitting.reserve(helmet)
    fitting.taken(put_on(front=other))
    fitting.say(put_on(), place=1)
    fitting.taken({"event": "undone"})
    fitting.taken(put_on(front=FRONT[0]))
    fitting.taken({"event": "paused"})
    fitting.take_over(fitting.station)
    fitting.taken({"event": "resumed"})
    fitting.taken({"event": "undone"})
    fitting.taken({"event": "stopped"}, words="dark")
    verdict = verify()
    assert verdict.is_whole, verdict.faults


def test_the_build_of_a_row_is_the_one_on_the_head_or_the_proposed_one(fitting):
    fitting.program(proposed(4))
    assert fitting.row.build == build(4)
    assert fitting.row.found_right == 0.4
    assert fitting.row.waits_for == "the proposed build"
