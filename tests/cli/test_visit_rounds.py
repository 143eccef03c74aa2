"""A round answered at once: what may be typed, what is kept, how it is taken back."""

import os
import re

import pytest

from helmwright.catalogue import load_packaged
from helmwright.cli.visit_talk import TerminalTalk
from helmwright.visit.check import Stage
from helmwright.visit.protocol import protocol_for
from tests.cli.few_draws import FIVE_MEASURES, with_few_draws
from tests.cli.visit_ways import BEFORE, CONTACT, LATER, names, of_kind, said, written

CHECKS = protocol_for(load_packaged("ouzel"))
IN_LATER = [len(CHECKS.stage(each)) for each in (Stage.HELD, Stage.WORN, Stage.HANDED_OVER)]


def bad(folder, file="visits/12-avocet-brookside.jsonl"):
    """The answers in a file that are kept and are not what all good says."""
    good = {"snug", "right", "good", "whole", "complete", "on", "ready"}
    return [
        (each["check"], each["word"])
        for each in of_kind(written(folder, file), "answered")
        if each["word"] not in good
    ]


@pytest.mark.parametrize(
    "typed",
    [
        "all good except front loose, jaw left tight",
        "all good except jaw left tight, front loose",
        "all good except the jaw left is tight and the front is loose",
        "all good but Front pad: loose; Left jaw pad = tight",
        "front loose, jaw left tight, the rest is all good",
        "the front is loose and jaw left tight, rest all good.",
    ],
)
def test_exceptions_may_come_in_any_order_and_in_any_words(play, tmp_path, typed):
    play(*BEFORE, "", typed)
    assert bad(tmp_path) == [("front", "loose"), ("jaw left", "tight")]
    assert len(of_kind(written(tmp_path), "answered")) == len(BEFORE) + len(CONTACT)


def test_a_title_with_an_and_in_it_is_one_name(play, tmp_path):
    play("all good except glasses and hearing device not on and marks and labels missing")
    assert bad(tmp_path) == [("marks", "missing"), ("glasses", "not on")]


def test_an_exception_that_was_answered_already_says_how_to_change_it(play, tmp_path):
    told = said(play(*BEFORE, "", "s", "1", "all good except brow 1 1/2"))
    assert "brow is answered already: 1 in, right. Type undo until it is asked again" in told
    assert len(of_kind(written(tmp_path), "answered")) == len(BEFORE) + 2


def test_undo_takes_a_round_back_as_it_was_typed_and_then_what_was_before(play, tmp_path):
    done = play(*BEFORE, "", "s", "1", "all good except front loose", "undo", "undo", "1 1/8")
    told = said(done)
    assert 'Taken back: "all good" (9 answers).' in told
    assert "Taken back: Brow height: 1 in, right." in told
    happened = names(written(tmp_path))
    assert happened.count("undone") == 10
    assert done.stdout.rstrip().endswith("Front pad (l, s, t):")


def test_a_round_that_begins_with_putting_on_goes_back_whole_too(play, tmp_path):
    done = play(*BEFORE, "", "all good except front loose", "undo")
    assert 'Taken back: "all good" (11 answers).' in said(done)
    assert done.stdout.rstrip().endswith("Put on (f, s, w):")
    assert names(written(tmp_path)).count("undone") == 11


def test_in_a_visit_gone_on_with_a_round_goes_back_answer_by_answer_and_says_so(play):
    play(*BEFORE, "", "all good")
    assert "Taken back: " in said(play("undo"))
    assert '"all good" (' not in said(play("undo"))


def test_the_checks_of_a_round_are_listed_before_they_are_answered_at_once(play):
    out = play(*BEFORE, "", "s", "1", "list", "x").stdout
    first = out[out.index("On the head: where it touches") : out.index("Put on\n")]
    assert '"all good" answers what is left of them at once; "list" names them.' in first
    assert "  - Front pad: No gap, a thumb does not slide in" in first
    assert "  - Nape pad: " in first
    again = out[out.index("): list") : out.index("): x")]
    assert "  - Put on: answered snug." in again
    assert "  - Brow height: answered right." in again
    assert "  - Front pad: No gap" in again


def test_brief_lists_only_on_demand(play):
    out = play(*BEFORE, "", "list", options=("--brief",)).stdout
    assert "  - Front pad" not in out[: out.index("): list")]
    assert "  - Front pad" in out[out.index("): list") :]
    assert "No round of checks is asked now" in said(play(*BEFORE, "list", who="dunlin"))


def test_a_length_that_is_taken_is_told_back_with_what_it_means(play):
    told = said(play(*BEFORE, "", "s", "1 5/8"))
    assert "Brow height: 1 5/8 in, high." in told


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("1,1", '"1,1" is not clear. Write 1.1, or a fraction.'),
        ("11/8", "misses the space before the fraction; 1 1/8? Write inches"),
        ("two", "Two of what. Type 2 in, or 2 finger"),
    ],
)
def test_a_length_that_is_not_clear_is_asked_again(play, typed, told):
    done = play(*BEFORE, "", "s", typed)
    assert told in said(done)
    assert done.stdout.rstrip().endswith("Brow height (inches, l, r, h):")


def test_what_cannot_come_is_told_without_numbers_of_events(play):
    told = said(play("undo"))
    assert "Nothing has been said since the visit began" in told
    assert "event 3" not in told


@pytest.mark.parametrize("at_once", ["all good except guard on off", "all good"])
def test_the_last_try_at_what_no_build_cures_says_so_before_it_ends_the_visit(
    run, tmp_path, monkeypatch, at_once
):
    with_few_draws(monkeypatch)
    roster = tmp_path / "roster.csv"
    roster.write_text(FIVE_MEASURES, "utf-8")
    words = ("visit", "avocet", "--brief", "--roster", str(roster))
    told = said(run(*words, given=f"{at_once}\noff\nc\n".encode()))
    last = 'One more "off" ends this visit: no build puts it right.'
    assert (last in told) is ("guard" in at_once)
    assert ("Face guard on could not be put right" in told) is ("guard" in at_once)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        (["all good"], [6]),
        (["g", "all good", "", "all good except front loose, jaw left tight"], [5, 1, 10]),
        (["all good", "", "s", "1 1/8", "all good", *LATER], [6, 9, *IN_LATER]),
    ],
)
def test_what_is_told_as_kept_is_on_the_disk_when_it_is_told(
    play, tmp_path, monkeypatch, typed, kept
):
    """Whoever pulls the plug on reading "Kept" loses nothing of it."""
    waited, told, on_disk = [], [], []
    path, say, fsync = tmp_path / "visits/12-avocet-brookside.jsonl", TerminalTalk.say, os.fsync

    def waiting(descriptor):
        fsync(descriptor)
        waited.append(path.read_text("utf-8").count('"event": "answered"'))

    def saying(talk, lines):
        found = re.search(r"Kept: (.*(?:right|nothing else))\.", " ".join(lines))
        if found:
            said_kept = found[1].split("; ")
            right = re.search(r"(\d+) right", said_kept[-1])
            told.append(sum(": " in each for each in said_kept) + int(right[1] if right else 0))
            on_disk.append(waited[-1])
        say(talk, lines)

    monkeypatch.setattr(os, "fsync", waiting)
    monkeypatch.setattr(TerminalTalk, "say", saying)
    play(*typed)
    one_by_one = sum(bool(each) and "all good" not in each for each in typed)
    assert told == kept
    assert all(disk >= sum(told[: n + 1]) for n, disk in enumerate(on_disk))
    assert on_disk[-1] == sum(told) + one_by_one
