"""Whatever is sent: one line in, one line out, nothing lost."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.visit.wire import event_from_wire
from tests.visit.pipe import Pipe, words
from tests.visit.plain_guide import OUZEL

TWICE = (
    '{"message": "findings", "findings": [{"check": "front", "word": "snug"},'
    ' {"check": "front", "word": "snug"}]}'
)
BAD = [
    ("", "JSON"),
    ("[]", "no object"),
    ("[" * 50_000, "too deep"),
    ('{"a":' * 50_000, "too deep"),
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


@pytest.mark.parametrize(("line", "said"), BAD)
def test_a_line_that_cannot_be_taken_says_what_would_be_right_and_loses_nothing(line, said):
    pipe = Pipe().on_head()
    events, waiting = pipe.kept.events, pipe.last
    error = pipe.line(line)
    assert error["message"] == "error"
    assert said in f"{error['what']} {error['right']}"
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
        courses: list[tuple[str, Any]] = [
            ("undo", {}),
            ("pause", {}),
            ("resume", {}),
            ("put on", {}),
            ("skip", {}),
        ]
        courses += [("findings", {"findings": findings})] * 6 if findings else []
        courses += [("put on", {})] * 6
        message, fields = data.draw(st.sampled_from(courses))
        pipe.send(message, **fields)
    state = pipe.send("state")
    again = Pipe(looks_again=True, asks_measure=True)
    again.kept.events = tuple(event_from_wire(event, OUZEL) for event in state["events"])
    assert again.send("state") == state
