"""A visit as a dialogue: one message in, one out, nothing lost, whatever is sent."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.anatomy import Over, Reading
from helmwright.fit.outlook import Build
from helmwright.visit.check import Stage
from helmwright.visit.event import Answered, Measured, Paused, PutOn, Started
from helmwright.visit.lines import Dialogue, error_reply
from helmwright.visit.lines_in import read_message
from helmwright.visit.lines_out import line_of
from helmwright.visit.lines_schema import visit_schema_text
from helmwright.visit.lines_told import Telling
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.wire import event_from_wire
from helmwright.visit.wire_fault import WireError
from tests.reports.schema_check import faults
from tests.visit.plain_guide import FRONT, OUZEL, PlainGuide

SCHEMA_FILE = Path(__file__).parents[2] / "docs" / "reference" / "visit.schema.json"
SCHEMA = json.loads(visit_schema_text())
TAPE = Reading("tape_circumference", 575.0)
STARTED = Started("Avocet Brookside", (TAPE,), {"sex": None}, (Over.BARE,), sheet_digest(OUZEL))
DELIVERED = Build(4, OUZEL.delivered)


class Memory:
    def __init__(self) -> None:
        self.events: tuple = (STARTED,)

    def append(self, *events) -> None:
        self.events += events


class Pipe:
    """Both ends: what is sent and answered is held against the schema."""

    def __init__(self, **settings) -> None:
        guide, self.kept = PlainGuide(**settings), Memory()
        telling = Telling(OUZEL, guide.protocol, ("Beware.",), ("Assumed.",))
        self.guide = guide
        self.dialogue = Dialogue(guide, self.kept, telling, lambda said, _: (TAPE,) * len(said))
        self.last = self.checked(self.dialogue.begin(["A notice."]))

    def send(self, message, **fields):
        sent = {"message": message, **fields}
        assert faults(sent, SCHEMA["$defs"]["in"], SCHEMA) == []
        return self.line(json.dumps(sent))

    def line(self, text):
        try:
            reply = self.dialogue.reply(read_message(text))
        except WireError as error:
            reply = error_reply(error)
        told = self.checked(reply)
        if told["message"] not in ("error", "state"):
            self.last = told
        return told

    def checked(self, reply):
        line = line_of(reply)
        assert line.endswith(b"\n")
        assert line.count(b"\n") == 1
        told = json.loads(line)
        assert faults(told, SCHEMA["$defs"]["out"], SCHEMA) == []
        return told

    @property
    def question(self):
        """What waits for an answer, wherever it stands."""
        asked = self.last
        while "next" in asked:
            asked = asked["next"]
        return asked

    def right(self, **other):
        """The findings that answer everything that is asked, right but for the named checks."""
        return [
            {"check": check["check"], "word": other.get(check["check"], good(check))}
            for check in self.question["checks"]
        ]

    def on_head(self):
        """Up to the first contact checks."""
        while self.question["message"] != "put on":
            self.send("findings", findings=self.right())
        self.send("put on")
        self.send("findings", findings=self.right())
        return self


def good(check):
    return next(answer["word"] for answer in check["answers"] if answer["right"])


def words(check):
    return [answer["word"] for answer in check["answers"]]


def to_the_end(pipe, **other):
    """Plays on until the visit is over; how it was answered."""
    for _ in range(40):
        asked = pipe.question
        match asked["message"]:
            case "checks":
                pipe.send("findings", findings=pipe.right(**other))
            case "look":
                word = other.get(asked["check"]["check"], good(asked["check"]))
                pipe.send("findings", findings=[{"check": asked["check"]["check"], "word": word}])
            case "put on":
                pipe.send("put on")
            case "measure":
                pipe.send("skip")
            case _:
                return asked
    raise AssertionError("the visit does not end")


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
    assert first["not_taken"] == []
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


def test_a_length_is_read_in_millimeters_or_as_written_and_finds_its_own_word():
    pipe = Pipe().on_head()
    pipe.send("findings", findings=[{"check": "brow", "value": "1 in"}])
    assert pipe.kept.events[-1] == Answered("brow", "right", 25.4)
    pipe.send("undo")
    pipe.send("findings", findings=[{"check": "brow", "value_mm": 10.0}])
    assert pipe.kept.events[-1].word != "right"


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
    assert state["try_ons"][-1]["proposed"] is False
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


TWICE = (
    '{"message": "findings", "findings": [{"check": "front", "word": "snug"},'
    ' {"check": "front", "word": "snug"}]}'
)
BAD = [
    ("", "JSON"),
    ("[]", "no object"),
    ("{", "JSON"),
    ('{"message": "findings"', "JSON"),
    ('{"message": "stop", "message": "undo"}', "stands twice"),
    ('{"message": "findings", "findings": [{"check": "brow", "value_mm": NaN}]}', "NaN"),
    ("{}", "missing"),
    ('{"message": "dance"}', "is no message there are start"),
    ('{"message": "undo", "twice": true}', "not known"),
    ('{"message": "findings", "findings": []}', "will not do"),
    ('{"message": "findings", "findings": [{"check": "chin", "word": "on"}]}', "no check"),
    ('{"message": "findings", "findings": [{"check": "front"}]}', "not answered"),
    ('{"message": "findings", "findings": [{"check": "front", "word": "so"}]}', "no answer"),
    ('{"message": "findings", "findings": [{"check": "front", "value_mm": 3}]}', "no length"),
    ('{"message": "findings", "findings": [{"check": "brow", "value_mm": 390}]}', "nobody"),
    ('{"message": "findings", "findings": [{"check": "brow", "value": "big"}]}', "big"),
    (
        '{"message": "findings", "findings": [{"check": "brow", "value": "1", "value_mm": 25}]}',
        "say the same",
    ),
    (
        '{"message": "findings", "findings": [{"check": "brow", "word": "low", "value_mm": 25}]}',
        "the length says right",
    ),
    (TWICE, "twice"),
    ('{"message": "put on"}', "no build is proposed"),
    ('{"message": "put on", "build": {"shell": 9, "pads": {}}}', "missing"),
    ('{"message": "skip"}', "no measure"),
    ('{"message": "resume"}', "not paused"),
    ('{"message": "start", "player": {}}', "going on"),
    ('{"message": "start", "player": {}, "version": 2}', "will not do"),
]


@pytest.mark.parametrize(("line", "words"), BAD)
def test_a_line_that_cannot_be_taken_says_what_would_be_right_and_loses_nothing(line, words):
    pipe = Pipe().on_head()
    events, waiting = pipe.kept.events, pipe.last
    error = pipe.line(line)
    assert error["message"] == "error"
    assert words in f"{error['what']} {error['right']}"
    assert error["right"]
    assert pipe.kept.events == events
    assert pipe.send("state")["next"] == waiting


@given(
    st.text()
    | st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(),
        lambda kids: st.lists(kids) | st.dictionaries(st.text(), kids),
    ).map(json.dumps)
)
@settings(max_examples=60, deadline=None)
def test_no_line_whatever_it_holds_breaks_the_dialogue(line):
    pipe = Pipe()
    events = pipe.kept.events
    assert pipe.line(line)["message"] == "error"
    assert pipe.kept.events == events


@given(st.data())
@settings(max_examples=30, deadline=None)
def test_any_course_of_messages_keeps_the_schema_and_replays_to_the_same_question(data):
    pipe = Pipe(looks_again=True, asks_measure=True)
    for _ in range(data.draw(st.integers(1, 25))):
        asked = pipe.question
        checks = asked["checks"] if "checks" in asked else [asked.get("check")]
        findings = [
            {"check": check["check"], "word": data.draw(st.sampled_from(words(check)))}
            for check in checks
            if check is not None
        ]
        courses = [("undo", {}), ("pause", {}), ("resume", {}), ("put on", {}), ("skip", {})]
        courses += [("findings", {"findings": findings})] * 6 if findings else []
        courses += [("put on", {})] * 6
        message, fields = data.draw(st.sampled_from(courses))
        pipe.send(message, **fields)
    state = pipe.send("state")
    again = Pipe(looks_again=True, asks_measure=True)
    again.kept.events = tuple(event_from_wire(event, OUZEL) for event in state["events"])
    assert again.send("state") == state


def test_a_front_that_grows_is_what_the_plain_guide_does():
    pipe = Pipe().on_head()
    pipe.send("findings", findings=pipe.right(front="loose"))
    proposed = pipe.guide.visit(pipe.kept.events).proposal.build
    front = DELIVERED.pads[FRONT] + 1
    assert proposed == replace(
        DELIVERED, pads=(*DELIVERED.pads[:FRONT], front, *DELIVERED.pads[FRONT + 1 :])
    )
