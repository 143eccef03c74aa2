"""A program's own protocol file is read whole or refused, with what is wrong, where, and why."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.visit.check import Stage
from helmwright.visit.protocol import (
    Protocol,
    ProtocolError,
    parse_protocol,
    usual_protocol,
    usual_protocol_text,
)

SMALL = """\
format = 1
name = "ours"
minutes_worn = 5
symptom_stop = "Stop and tell the athletic trainer."

[[symptom]]
word = "headache"
says = "Any."

[[check]]
key = "brow"
title = "Brow"
stage = "contact"
sign = "brow height"
sub_score = "size"
how = ["Look at {points} for {minutes} minutes."]
accept = "An inch."
source = "common practice, no source"
length = { accept = ["3/4 in", "1 1/4 in"], low = "0 mm", high = "4 in" }
answers = [
  { word = "low", grade = "under", says = "Low.", points_to = "Crown." },
  { word = "right", grade = "right", says = "Right." },
  { word = "high", grade = "over", says = "High.", points_to = "Crown." },
]

[[check]]
key = "front"
title = "Front"
stage = "contact"
sign = "zone"
zone = "front"
sub_score = "snugness"
how = ["Feel."]
accept = "Snug."
source = "common practice, no source"
repeat_after = ["pad"]
answers = [
  { word = "loose", grade = "under", says = "Loose.", points_to = "Thicker." },
  { word = "snug", grade = "right", says = "Snug." },
]
"""
LINES = SMALL.splitlines()


def complaints(text: str) -> list[str]:
    with pytest.raises(ProtocolError) as caught:
        parse_protocol(text, name="ours.toml")
    return [str(fault) for fault in caught.value.faults]


def changed(old: str, new: str, count: int = 1) -> str:
    assert old in SMALL
    return SMALL.replace(old, new, count)


def line_of(part: str) -> int:
    return next(number for number, line in enumerate(LINES, start=1) if part in line)


def test_the_small_file_is_read_as_it_stands():
    protocol = parse_protocol(SMALL, name="ours.toml")
    assert [check.key for check in protocol.checks] == ["brow", "front"]
    assert protocol.checks[0].how == ("Look at {points} for 5 minutes.",)
    assert protocol.checks[0].length is not None
    assert protocol.checks[0].length.accept_mm == pytest.approx((19.05, 31.75))
    assert protocol.symptoms[0].word == "headache"


ONE_FAULT = {
    "another format": (("format = 1", "format = 2"), "format = 2", "Write format = 1"),
    "no minutes": (("minutes_worn = 5", "minutes_worn = 0"), "minutes_worn", "from 1 to 60"),
    "a word that stands for nothing": (("{minutes}", "{hours}"), "how =", "{hours} stands for"),
    "a stage that is none": (
        ('stage = "contact"\nsign = "brow', 'stage = "touch"\nsign = "brow'),
        "stage =",
        '"touch" is not one of the words for stage',
    ),
    "a sign near another": (
        ('sign = "brow height"', 'sign = "brow hight"'),
        "sign =",
        'did you mean "brow height"',
    ),
    "a zone check without a zone": (
        ('zone = "front"\n', ""),
        "[[check]]",
        'a check with the sign "zone" has no zone',
    ),
    "a zone on another check": (
        ('sign = "brow height"', 'sign = "brow height"\nzone = "front"'),
        "zone",
        'a check with the sign "brow height" has a zone',
    ),
    "a score of nobody's": (
        ('sub_score = "size"', 'sub_score = "total"'),
        "sub_score",
        '"total" is not one of the words for sub_score',
    ),
    "no source": (
        ('source = "common practice, no source"\nlength', "length"),
        "[[check]]",
        "source is missing",
    ),
    "an interval upside down": (
        ('accept = ["3/4 in", "1 1/4 in"]', 'accept = ["1 1/4 in", "3/4 in"]'),
        "length =",
        "the accepted lengths are no two that grow",
    ),
    "a bare number for a length": (('high = "4 in"', "high = 4"), "length =", "has no unit"),
    "a length with two answers": (
        ('  { word = "high", grade = "over", says = "High.", points_to = "Crown." },\n', ""),
        "answers",
        "a check that reads a length needs three answers",
    ),
    "two answers of one word": (
        ('word = "snug"', 'word = "loose"'),
        "answers",
        'two answers are called "loose"',
    ),
    "no right answer": (
        (
            'word = "snug", grade = "right", says = "Snug."',
            'word = "snug", grade = "over", says = "Snug.", points_to = "No."',
        ),
        "answers",
        "no answer is right",
    ),
    "a bad answer that points nowhere": (
        (', points_to = "Thicker."', ""),
        "loose",
        "a bad answer points nowhere",
    ),
    "a right answer that points somewhere": (
        ('says = "Snug." }', 'says = "Snug.", points_to = "There." }'),
        '"snug"',
        "a right answer points to nothing",
    ),
    "a place where none is asked": (
        ('points_to = "Thicker." }', 'points_to = "Thicker.", zone = "rear" }'),
        "answers",
        "answers name places",
    ),
    "one key for two checks": (
        ('key = "front"', 'key = "brow"'),
        "key",
        'another check is called "brow" too',
    ),
    "a stage after a later one": (
        ('stage = "contact"\nsign = "brow', 'stage = "held"\nsign = "brow'),
        "stage",
        "a check of stage contact stands after one of stage held",
    ),
    "a key with a slip of the pen": (("repeat_after", "repeat_affter"), "repeat", "did you mean"),
    "a part that is none": (('["pad"]', '["bolt"]'), "repeat_after", '"bolt" is not one of'),
    "capitals in a key": (('key = "front"', 'key = "Front"'), "key", '"Front" is no key'),
}


@pytest.mark.parametrize("case", ONE_FAULT)
def test_a_faulty_file_is_told_on_its_line_what_is_wrong(case):
    (old, new), near_line, says = ONE_FAULT[case]
    broken = changed(old, new)
    (fault,) = complaints(broken)
    assert says in fault
    number = re.match(r"line (\d+)", fault)
    assert number
    assert near_line in broken.splitlines()[int(number[1]) - 1]


def test_all_faults_are_told_at_once_in_the_order_of_their_lines():
    broken = changed('sub_score = "size"', 'sub_score = "sum"').replace('["pad"]', '["bolt"]')
    first, second = complaints(broken)
    assert "sum" in first
    assert "bolt" in second


@pytest.mark.parametrize("text", ["", "format = 1", "= 3", "[[check]]", "check = 3\nsymptom = 4"])
def test_a_file_that_is_no_protocol_is_refused(text):
    assert complaints(text)


def read_or_refused(text: str) -> Protocol | ProtocolError:
    """What comes of a text; anything else than these two is an error of ours."""
    try:
        return parse_protocol(text, name="spoiled.toml")
    except ProtocolError as error:
        return error


@settings(max_examples=60, deadline=None)
@given(
    line=st.integers(0, len(LINES) - 1),
    other=st.one_of(st.none(), st.integers(0, len(LINES) - 1), st.text(max_size=20)),
)
def test_any_file_with_a_line_lost_or_spoiled_is_read_or_refused_and_nothing_else(line, other):
    put = [] if other is None else [LINES[other] if isinstance(other, int) else other]
    found = read_or_refused("\n".join([*LINES[:line], *put, *LINES[line + 1 :]]))
    if isinstance(found, ProtocolError):
        assert found.faults
        assert all(fault.wrong and fault.right for fault in found.faults)
    else:
        stages = [list(Stage).index(check.stage) for check in found.checks]
        assert stages
        assert stages == sorted(stages)


@settings(max_examples=30, deadline=None)
@given(data=st.data())
def test_the_usual_file_with_a_line_lost_is_read_or_refused_on_a_line_of_the_file(data):
    lines = usual_protocol_text().splitlines()
    lost = data.draw(st.integers(0, len(lines) - 1))
    found = read_or_refused("\n".join(lines[:lost] + lines[lost + 1 :]))
    if isinstance(found, ProtocolError):
        assert all(1 <= fault.line <= len(lines) for fault in found.faults)
    else:
        assert len(found.checks) >= len(usual_protocol().checks) - 1
