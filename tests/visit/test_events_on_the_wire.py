"""Events written as JSON objects come back as they were, and nothing else is read as one."""

import json
from dataclasses import fields, replace
from typing import Any, get_args

import pytest
from hypothesis import given, settings

from helmwright.anatomy import Over, Reading
from helmwright.catalogue import ZONES, load_packaged, packaged_models, packaged_text, parse_sheet
from helmwright.fit.outlook import Build
from helmwright.visit import event as ev
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.wire import FORMS, NAMES, event_from_wire, event_to_wire
from helmwright.visit.wire_fault import WireError
from tests.visit.events import ANY_EVENT, EVENTS, OUZEL

DELIVERED = Build(4, OUZEL.delivered)
STARTED = ev.Started(
    "Avocet Brookside",
    (Reading("tape_circumference", 574.675, over=Over.SHORT_HAIR),),
    {"sex": None},
    None,
    "0" * 64,
    DELIVERED,
    (("front", "1 in", 2),),
)


def written(event: ev.Event) -> dict[str, Any]:
    """The event after a journey through text."""
    return json.loads(json.dumps(event_to_wire(event, OUZEL)))


@given(ANY_EVENT)
@settings(max_examples=300, deadline=None)
def test_an_event_comes_back_as_it_was(event):
    back = event_from_wire(written(event), OUZEL)
    assert back == event
    assert repr(back) == repr(event)  # a whole number for a float would be equal, too


def test_every_event_has_a_form_with_its_own_fields():
    assert set(FORMS) == set(EVENTS) == set(get_args(ev.Event))
    assert len(set(NAMES.values())) == len(NAMES)
    for kind, form in FORMS.items():
        assert set(form.model_fields) - {"event"} == {field.name for field in fields(kind)}


def test_a_build_is_written_as_on_the_bags_and_in_millimeters():
    pads = written(ev.PutOn(DELIVERED))["build"]["pads"]
    assert list(pads) == [str(zone) for zone in ZONES]
    assert pads["jaw left"] == {"pad": "7/8 in", "mm": 22.225}


def test_what_is_as_usual_is_left_out():
    assert written(ev.PutOn(DELIVERED)).keys() == {"event", "build"}
    assert written(STARTED)["readings"] == [
        {"measure": "tape_circumference", "value_mm": 574.675, "over": "short hair"}
    ]


def changed(path: str, value) -> dict[str, Any]:
    """The start of a visit with one field changed."""
    wire = written(STARTED)
    *way, last = path.split("/")
    holder: Any = wire
    for step in way:
        holder = holder[int(step)] if isinstance(holder, list) else holder[step]
    holder[last] = value
    return wire


@pytest.mark.parametrize(
    ("wire", "where", "words"),
    [
        ({}, "event", "missing"),
        ({"event": "danced"}, "event", "no event; there are started"),
        ({"event": "answered", "word": "snug"}, "check", "missing"),
        ({"event": "answered", "check": 1, "word": "snug"}, "check", "a text"),
        ({"event": "paused", "why": "lunch"}, "why", "not known"),
        (changed("seed", 1.5), "seed", "whole number"),
        (changed("seed", True), "seed", "whole number"),
        (changed("readings/0/value_mm", "574"), "readings 1, value_mm", "a number"),
        (changed("readings/0/value_mm", -1.0), "readings 1", "more than 0 mm"),
        (changed("readings/0/measure", "nose"), "readings 1", "no measure is called"),
        (changed("readings/0/hue", 1), "readings 1, hue", "not known"),
        (changed("worn", ["hat"]), "worn 1", "skull cap"),
        (changed("shelf/0/count", "two"), "shelf 1, count", "whole number"),
        (changed("current/shell", 9), "current, shell", "it has 1, 2, 3, 4, 5, 6"),
        (changed("current/pads/chin", {"pad": "1 in"}), "current, pads, chin", "not known"),
        (changed("current/pads/nape/pad", "3 in"), "current, pads, nape", "there are 3/4 in, 7/8"),
        (changed("current/pads/nape/mm", 20.0), "current, pads, nape", "it is 25.40 mm"),
        (changed("stated/mood", "good"), "stated, mood", "not known"),
    ],
)
def test_what_is_no_event_is_refused_with_what_and_where(wire, where, words):
    with pytest.raises(WireError) as refusal:
        event_from_wire(wire, OUZEL)
    assert refusal.value.where == where
    assert words in str(refusal.value)


@pytest.mark.parametrize(
    "event",
    [
        ev.PutOn(Build(9, OUZEL.delivered)),
        ev.PutOn(Build(4, (9, *OUZEL.delivered[1:]))),
        ev.PutOn(Build(4, (-1, *OUZEL.delivered[1:]))),
        ev.PutOn(Build(4, OUZEL.delivered[1:])),
        ev.Answered("brow", "right", float("nan")),
        ev.Proposed(DELIVERED, 0.5, float("inf"), 5.0, "", 100.0),
    ],
)
def test_what_could_not_be_read_again_is_not_written(event):
    with pytest.raises(WireError):
        event_to_wire(event, OUZEL)


def test_a_sheet_has_the_same_digest_however_its_file_is_written():
    text = packaged_text("ouzel")
    other = text.replace("\n[form]", "\n# A remark.\n\n\n[form]").replace('"30 mm"', '"3 cm"')
    assert other != text
    assert sheet_digest(parse_sheet(other, name="o")) == sheet_digest(OUZEL)


def test_sheets_that_say_something_else_have_another_digest():
    front = OUZEL.pads[1]
    others = [
        replace(OUZEL, model="Ousel"),
        replace(OUZEL, pads=(OUZEL.pads[0], replace(front, delivered=1), *OUZEL.pads[2:])),
        replace(OUZEL, shells=OUZEL.shells[:-1]),
        replace(OUZEL, strap_pull_n=(8.0, 11.1)),
        *(load_packaged(name) for name in packaged_models()),
    ]
    assert len({sheet_digest(sheet) for sheet in others}) == len(others)


def test_the_last_bits_of_a_computed_number_do_not_make_another_sheet():
    shell = OUZEL.shells[0]
    moved = replace(shell, inside_length_mm=shell.inside_length_mm * (1.0 + 1e-15))
    assert sheet_digest(replace(OUZEL, shells=(moved, *OUZEL.shells[1:]))) == sheet_digest(OUZEL)
