"""Lines in and out: what is no message, several visits in one dialogue, and how it is left."""

import io
import json

import pytest

from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_lines import LONGEST, Lines, Memory, Opened, carry_on
from helmwright.fit.finding import Grade
from helmwright.visit.event import Paused, Stopped, SymptomReported
from helmwright.visit.wire import NAMES
from helmwright.visit.wire_fault import WireError
from tests.visit.pipe import STARTED
from tests.visit.plain_guide import PlainGuide

START = b'{"message": "start", "player": {"name": "Avocet Brookside", "tape": "22 5/8"}}\n'
STOP = b'{"message": "stop"}\n'


class Place(Memory):
    """Events in memory, that say whether they were given up."""

    def __init__(self) -> None:
        super().__init__()
        self.is_closed = False

    def close(self) -> None:
        self.is_closed = True


def opened() -> Opened:
    return Opened(PlainGuide(), STARTED, Place(), ("A notice.",))


def played(*lines: bytes, begun: Opened | None = None, opener=lambda _: opened()):
    """What is answered to lines, and whether the last visit ended accepted."""
    writer = io.BytesIO()
    accepted = carry_on(begun, opener, io.BytesIO(b"".join(lines)), writer)
    return [json.loads(line) for line in writer.getvalue().splitlines()], accepted


def kinds(answers) -> list[str]:
    return [answer["message"] for answer in answers]


def test_a_visit_that_the_command_line_asks_for_speaks_first():
    answers, accepted = played(STOP, begun=opened())
    assert kinds(answers) == ["started", "stopped"]
    assert answers[0]["notices"] == ["A notice."]
    assert not accepted


def test_without_one_a_start_comes_first():
    answers, _ = played(STOP, START, STOP)
    assert kinds(answers) == ["error", "started", "stopped"]
    assert "no visit has begun" in answers[0]["what"]


def test_one_dialogue_may_hold_several_visits_one_after_the_other():
    places = [opened(), opened()]
    answers, _ = played(START, START, STOP, START, opener=lambda _: places.pop(0))
    assert kinds(answers) == ["started", "error", "stopped", "started"]
    assert not places


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (b"\xff\xfe\n", "not UTF-8"),
        (b'"' + b"x" * LONGEST + b'"\n', "too long"),
        (b'"' + b"x" * (3 * LONGEST) + b'"\n', "too long"),
        (b"hello\n", "no JSON"),
    ],
)
def test_what_is_no_line_of_json_is_answered_and_the_next_line_is_read(line, words):
    answers, _ = played(line, STOP, begun=opened())
    assert kinds(answers) == ["started", "error", "stopped"]
    assert words in answers[1]["what"]


def test_empty_lines_are_passed_over_and_the_last_line_needs_no_end():
    answers, _ = played(b"\n", b"   \r\n", STOP.rstrip(), begun=opened())
    assert kinds(answers) == ["started", "stopped"]


def test_a_visit_that_cannot_be_opened_is_an_answer_and_nothing_is_lost():
    def refuse(_):
        raise WireError("no such model", "model", "there is ouzel")

    answers, _ = played(START, opener=refuse)
    assert answers == [
        {
            "message": "error",
            "what": "no such model",
            "where": "model",
            "right": "there is ouzel",
            "taken": [],
        }
    ]


def test_the_end_of_the_input_pauses_the_visit_and_gives_up_its_place():
    visit, over = opened(), opened()
    played(begun=visit)
    assert isinstance(visit.kept.events[-1], Paused)
    played(STOP, begun=over)
    assert isinstance(over.kept.events[-1], Stopped)
    assert all(isinstance(each.kept, Place) and each.kept.is_closed for each in (visit, over))


def test_an_answer_that_nobody_reads_any_more_pauses_the_visit_too():
    class Broken(io.BytesIO):
        def write(self, _) -> int:
            raise BrokenPipeError

    visit = opened()
    with pytest.raises(BrokenPipeError):
        carry_on(visit, lambda _: opened(), io.BytesIO(), Broken())
    assert isinstance(visit.kept.events[-1], Paused)


def test_an_event_that_the_disk_does_not_take_has_not_happened_and_may_be_sent_again():
    class Full(Place):
        room = 2

        def append(self, *events) -> None:
            if len(self.events) == self.room:
                self.room = 99
                raise NothingRan("cannot write: no space left on device")
            super().append(*events)

    visit = Opened(PlainGuide(), STARTED, Full())
    answers, _ = played(STOP, STOP, begun=visit)
    assert "athletic trainer" not in answers[1]["right"]
    assert kinds(answers) == ["started", "error", "stopped"]
    assert "no space" in answers[1]["what"]
    assert [type(event).__name__ for event in visit.kept.events].count("Stopped") == 1


def findings_before_it_goes_on() -> bytes:
    right = [
        {"check": check.key, "word": next(a.word for a in check.answers if a.grade == Grade.RIGHT)}
        for check in PlainGuide().protocol.checks
    ]
    return json.dumps({"message": "findings", "findings": right}).encode() + b"\n"


class Filling(Place):
    """A place on a disk that is full after so many strokes, and once something was refused not."""

    def __init__(self, strokes: int) -> None:
        super().__init__()
        self.strokes = strokes

    def append(self, *events) -> None:
        self.strokes -= 1
        if self.strokes == 0:
            raise NothingRan("cannot write: no space left on device")
        super().append(*events)


PUT_ON = b'{"message": "put on"}\n'
STATE = b'{"message": "state"}\n'


@pytest.mark.parametrize("strokes", range(3, 9))
def test_what_is_kept_of_a_line_in_whose_middle_the_disk_fills_is_told(strokes):
    place, writer = Filling(strokes), io.BytesIO()
    lines = Lines(lambda _: opened(), writer)
    lines.begin(Opened(PlainGuide(), STARTED, place))
    for line in (findings_before_it_goes_on(), PUT_ON, findings_before_it_goes_on()):
        before = len(place.events)
        lines.take(line)
        answer = json.loads(writer.getvalue().splitlines()[-1])
        if answer["message"] == "error":
            break
    assert answer["message"] == "error"
    told = [event["event"] for event in answer["taken"]]
    assert told == [NAMES[type(event)] for event in place.events[before:]]
    assert ("send state" in answer["right"]) == bool(told)
    assert ("send the line again" in answer["right"]) == (not told)


def test_answers_of_one_line_on_both_sides_of_a_full_disk_are_told_apart():
    """Putting on is kept in one stroke, the contact checks behind it in another."""
    place = Filling(6)
    answers, _ = played(
        findings_before_it_goes_on(),
        PUT_ON,
        findings_before_it_goes_on(),
        STATE,
        begun=Opened(PlainGuide(), STARTED, place),
    )
    error, state = answers[-2:]
    assert [each["check"] for each in error["taken"]] == ["put on"]
    assert "no space" in error["what"]
    assert state["try_ons"][0]["answers"][-1:] == error["taken"]
    assert "put on" not in [check["check"] for check in state["next"]["checks"]]


def test_a_start_that_the_disk_does_not_take_leaves_the_place_free():
    places = [Filling(1), Filling(9)]
    answers, _ = played(START, START, opener=lambda _: Opened(PlainGuide(), STARTED, places.pop(0)))
    first = Filling(1)
    assert kinds(answers) == ["error", "started"]
    answers, _ = played(START, opener=lambda _: Opened(PlainGuide(), STARTED, first))
    assert first.is_closed
    assert answers[0]["taken"] == []


def test_a_start_of_which_only_the_beginning_is_kept_is_gone_on_with():
    answers, _ = played(START, STATE, opener=lambda _: Opened(PlainGuide(), STARTED, Filling(2)))
    assert kinds(answers) == ["error", "state"]
    assert [event["event"] for event in answers[0]["taken"]] == ["started"]
    assert answers[1]["next"]["message"] == "proposal"


def test_each_answer_is_flushed_before_the_next_line_is_read():
    class Watched(io.BytesIO):
        flushed = 0

        def flush(self) -> None:
            self.flushed += 1

    writer = Watched()
    lines = Lines(lambda _: opened(), writer)
    lines.take(START)
    lines.take(STOP)
    assert writer.flushed == writer.getvalue().count(b"\n") == 2


def test_an_accepted_visit_says_so_to_who_started_the_program():
    guide = PlainGuide()
    begun = Opened(guide, STARTED, Place())
    right = [
        {"check": check.key, "word": next(a.word for a in check.answers if a.grade == Grade.RIGHT)}
        for check in guide.protocol.checks
    ]
    findings = json.dumps({"message": "findings", "findings": right}).encode() + b"\n"
    answers = [findings, b'{"message": "put on"}\n', findings]
    told, accepted = played(*answers, begun=begun)
    assert (told[-1]["message"], accepted) == ("accepted", True)


def test_a_symptom_that_the_disk_does_not_take_is_told_what_to_do_about():
    class Full(Place):
        def append(self, *events) -> None:
            if any(isinstance(event, SymptomReported) for event in events):
                raise NothingRan("cannot write: no space left on device")
            super().append(*events)

    symptom = b'{"message": "symptom", "words": "dizzy"}\n'
    answers, _ = played(symptom, begun=Opened(PlainGuide(), STARTED, Full()))
    assert kinds(answers) == ["started", "error"]
    assert "tell the athletic trainer or a physician" in answers[1]["right"]
