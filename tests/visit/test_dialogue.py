"""A visit as a dialogue: proposals, checks, looks and ends as a program at the pipe sees them."""

from dataclasses import replace
from pathlib import Path

import pytest

from helmwright.anatomy import Reading
from helmwright.visit.check import Stage
from helmwright.visit.event import Answered, Measured, Paused, PutOn
from helmwright.visit.lines_schema import visit_schema_text
from helmwright.visit.wire import event_from_wire
from tests.visit.pipe import DELIVERED, Pipe, to_the_end
from tests.visit.plain_guide import FRONT, OUZEL

SCHEMA_FILE = Path(__file__).parents[2] / "docs" / "reference" / "visit.schema.json"


def test_the_documented_schema_is_the_one_that_the_program_keeps():
    assert SCHEMA_FILE.read_text(encoding="utf-8") == visit_schema_text()


def test_the_first_line_says_what_visit_it_is_and_proposes_a_build():
    pipe = Pipe()
    assert (pipe.last["message"], pipe.last["version"], pipe.last["kept"]) == ("started", 1, 0)
    assert (pipe.last["who"], pipe.last["invented"]) == ("Avocet Brookside", True)
    assert pipe.last["notices"] == ["A notice."]
    proposal = pipe.last["next"]
    assert (proposal["message"], proposal["build"]["shell"]) == ("proposal", 4)
    assert (proposal["fits"], proposal["found_right"], proposal["effective"]) == (0.5, 0.4, 100.0)
    contact = [check.key for check in pipe.guide.protocol.stage(Stage.CONTACT)]
    assert [check["check"] for check in proposal["checks"]] == contact
    assert all(check["accept"] and len(check["answers"]) > 1 for check in proposal["checks"])
    assert pipe.question["message"] == "checks"


def test_a_visit_that_is_all_right_ends_accepted_with_sub_scores_and_no_total():
    pipe = Pipe()
    end = to_the_end(pipe)
    assert end["message"] == "accepted"
    assert len(end["sub_scores"]) == 5
    assert all(score["right"] == score["answered"] for score in end["sub_scores"])
    total = sum(score["answered"] for score in end["sub_scores"])
    assert total == len(pipe.guide.protocol.checks)
    assert total not in end.values()
    assert end["cautions"] == ["Beware."]


def test_a_loose_front_leads_to_a_proposal_that_says_what_to_change_and_how():
    pipe = Pipe().on_head()
    proposal = pipe.send("findings", findings=pipe.right(front="loose"))
    assert proposal["message"] == "proposal"
    assert proposal["before"]["pads"]["front"]["pad"] == "7/8 in"
    assert proposal["build"]["pads"]["front"] == {"pad": "1 in", "mm": 25.4}
    (change,) = proposal["changes"]
    assert change["swaps"] == [
        {"zone": "front", "out": "7/8 in", "into": "1 in", "part_number": "OZ-F-08"}
    ]
    assert len(change["steps"]) > 1
    assert "found loose" in proposal["why"]


def test_answers_may_come_in_any_order_and_in_parts():
    pipe = Pipe().on_head()
    answers = pipe.right()
    first = pipe.send("findings", findings=answers[:4:-1])
    assert "not_taken" not in first
    assert [check["check"] for check in first["checks"]] == [a["check"] for a in answers[:5]]
    pipe.send("findings", findings=answers[:5])
    given = [event.check for event in pipe.kept.events if isinstance(event, Answered)]
    assert sorted(given[-len(answers) :]) == sorted(answer["check"] for answer in answers)


def test_answers_that_are_not_asked_now_are_named_and_not_kept():
    pipe = Pipe().on_head()
    early = [*pipe.right(front="loose"), {"check": "turn", "word": "holds"}]
    proposal = pipe.send("findings", findings=early)
    assert proposal["message"] == "proposal"
    assert [each["check"] for each in proposal["not_taken"]] == ["turn"]
    assert all(event.check != "turn" for event in pipe.kept.events if isinstance(event, Answered))


def test_a_second_look_is_asked_for_with_its_reason_and_taken():
    pipe = Pipe(looks_again=True).on_head()
    look = pipe.send("findings", findings=pipe.right())
    assert (look["message"], look["look"], look["check"]["check"]) == ("look", 2, "nape")
    assert look["why"] == "Napes are hard to feel."
    after = pipe.send("findings", findings=[{"check": "nape", "word": "snug"}])
    assert after["message"] == "checks"
    looks = pipe.send("state")["try_ons"][0]["looks"]
    assert looks == [{"check": "nape", "why": "Napes are hard to feel."}]


def test_a_measure_is_asked_for_and_taken_or_skipped():
    taken, skipped = Pipe(asks_measure=True), Pipe(asks_measure=True)
    asked = taken.question
    assert (asked["message"], asked["measure"], asked["name"]) == (
        "measure",
        "head_length",
        "head length",
    )
    assert asked["how"]
    assert skipped.send("skip")["message"] == "proposal"
    taken.send("measured", readings={"length": ["7 7/8", 7.75]})
    assert isinstance(taken.kept.events[-1], Measured)


def test_readings_that_no_head_has_together_are_refused_and_odd_ones_are_remarked():
    pipe = Pipe(asks_measure=True)
    pipe.reads = (Reading("head_length", 150.0), Reading("head_breadth", 185.0))
    events = pipe.kept.events
    error = pipe.send("measured", readings={"length (mm)": 150.0, "breadth (mm)": 185.0})
    assert (error["message"], error["where"], pipe.kept.events) == ("error", "readings", events)
    pipe.reads = (Reading("head_length", 230.0),)
    odd = pipe.send("measured", readings={"length (mm)": 230.0})
    assert odd["message"] == "proposal"
    assert len(odd["notices"]) == 1
    assert "length" in odd["notices"][0]
    assert "notices" not in pipe.send("pause")


def test_a_length_is_read_in_millimeters_or_as_written_and_finds_its_own_word():
    pipe = Pipe().on_head()
    pipe.send("findings", findings=[{"check": "brow", "value": "1 in"}])
    assert pipe.kept.events[-1] == Answered("brow", "right", 25.4)
    pipe.send("undo")
    pipe.send("findings", findings=[{"check": "brow", "value_mm": 10.0}])
    assert pipe.kept.events[-1] == Answered("brow", "low", 10.0)
    pipe.send("undo")
    pipe.send("findings", findings=[{"check": "brow", "value": "2 fingers"}])
    assert pipe.kept.events[-1] == Answered("brow", "high", 38.1)


def test_an_end_can_be_taken_back_and_the_question_stands_again():
    pipe = Pipe().on_head()
    waiting = pipe.last
    assert pipe.send("stop", reason="lunch")["message"] == "stopped"
    assert pipe.send("undo") == waiting


def test_a_symptom_ends_it_and_nothing_is_proposed_for_it():
    pipe = Pipe().on_head()
    end = pipe.send("symptom", words="dizzy")
    assert (end["message"], end["words"]) == ("symptom", "dizzy")
    assert "athletic trainer" in end["do"]
    assert pipe.send("put on")["message"] == "error"


def test_where_nothing_fits_the_end_says_so():
    pipe = Pipe()
    end = to_the_end(pipe, front="loose")
    assert (end["message"], end["why"]) == ("no build", "There is no thicker front pad.")


def test_a_pause_waits_for_resume_and_undo_takes_back():
    pipe = Pipe().on_head()
    events = pipe.kept.events
    assert pipe.send("pause")["message"] == "paused"
    refused = pipe.send("findings", findings=[{"check": "front", "word": "snug"}])
    assert (refused["message"], refused["right"]) == ("error", "send resume")
    assert pipe.send("resume")["message"] == "checks"
    pipe.send("findings", findings=[{"check": "front", "word": "loose"}])
    pipe.send("undo")
    state = pipe.send("state")
    assert len(state["try_ons"][0]["answers"]) == sum(isinstance(e, Answered) for e in events)


def test_another_build_is_put_on_with_a_reason_that_is_kept():
    pipe = Pipe().on_head()
    other = pipe.last["checks"] and pipe.send("state")["in_helmet"]
    other["pads"]["front"] = {"pad": "1 1/8 in"}
    refused = pipe.send("put on", build=other)
    assert refused["message"] == "error"
    assert "reason" in refused["right"]
    pipe.send("put on", build=other, reason="the player asked")
    assert isinstance(pipe.kept.events[-1], PutOn)
    state = pipe.send("state")
    assert (state["try_ons"][-1]["proposed"], state["try_ons"][-1]["changed"]) == (False, ["front"])
    assert state["try_ons"][-1]["why"] == "the player asked"


def test_the_state_holds_the_whole_visit_and_repeats_an_open_proposal():
    pipe = Pipe()
    state = pipe.send("state")
    assert state["next"]["message"] == "proposal"
    pipe.on_head()
    state = pipe.send("state")
    back = tuple(event_from_wire(event, OUZEL) for event in state["events"])
    assert back == pipe.kept.events
    assert state["next"] == pipe.last
    assert [score["answered"] for score in state["sub_scores"]] != [0] * 5


def test_what_a_visit_waits_for_is_told_again_to_whoever_comes_back():
    pipe = Pipe()
    pipe.dialogue.leave()
    assert isinstance(pipe.kept.events[-1], Paused)
    again = pipe.checked(pipe.dialogue.begin())
    assert again["kept"] == len(pipe.kept.events)
    assert again["next"]["message"] == "paused"
    assert pipe.send("resume")["message"] == "proposal"
    pipe.send("stop", reason="lunch")
    events = pipe.kept.events
    pipe.dialogue.leave()
    assert pipe.kept.events == events


def test_a_front_that_grows_is_what_the_plain_guide_does():
    pipe = Pipe().on_head()
    pipe.send("findings", findings=pipe.right(front="loose"))
    proposed = pipe.guide.visit(pipe.kept.events).proposal.build
    front = DELIVERED.pads[FRONT] + 1
    assert proposed == replace(
        DELIVERED, pads=(*DELIVERED.pads[:FRONT], front, *DELIVERED.pads[FRONT + 1 :])
    )


def test_what_is_put_right_on_the_spot_tells_how_the_part_is_changed():
    pipe = Pipe()
    bad = [
        {**each, "word": "off"} if each["check"] == "guard on" else each for each in pipe.right()
    ]
    look = pipe.send("findings", findings=bad)
    assert (look["message"], look["check"]["check"]) == ("look", "guard on")
    (change,) = look["changes"]
    assert (change["part"], change["swaps"]) == ("face guard", [])
    assert change["steps"]
    assert (change["by_maker"], change["whose"]) == (True, "the maker's own steps")
    assert "brow" in change["again"]
    plain = Pipe(looks_again=True).on_head()
    assert plain.send("findings", findings=plain.right())["changes"] == []


@pytest.mark.parametrize(
    ("sent", "caution"),
    [({"message": "symptom", "words": "dizzy"}, "Spine."), ({"message": "stop"}, "Not accepted.")],
)
def test_an_end_without_a_fit_carries_its_cautions(sent, caution):
    assert Pipe().on_head().send(**sent)["cautions"] == [caution]
