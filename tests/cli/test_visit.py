"""`helmwright visit` in the terminal: every way through, every way out, nothing lost."""

import re

import pytest

from helmwright.reports.found import ALL_RIGHT
from helmwright.reports.visit_check_page import STAGES
from tests.cli.visit_ways import (
    BEFORE,
    CONTACT,
    LATER,
    TO_ACCEPTANCE,
    names,
    of_kind,
    said,
    stand_in,
    written,
)


def test_all_right_is_accepted_with_its_parts_and_what_was_found_stage_by_stage(play, tmp_path):
    done = play(*TO_ACCEPTANCE)
    assert done.exit_code == 0
    told = said(done)
    assert "Accepted: Avocet Brookside" in told
    assert "shell 3 (22 1/16 to 22 13/16 in)" in told
    assert "Pads: crown 7/8, front 7/8" in told
    for stage in STAGES.values():
        assert f"{stage}. {ALL_RIGHT}" in told
    assert "none is a safety score" in told
    assert names(written(tmp_path))[-1] == "accepted"


def test_the_page_opens_with_who_decides_where_it_is_kept_and_what_to_type(play):
    told = said(play())
    assert "Fit visit: Avocet Brookside, no. 12, QB" in told
    assert "Ouzel (invented), not on sale" in told
    assert "12-avocet-brookside.jsonl and nowhere else; delete it and the visit is gone" in told
    assert "A trained person must check every helmet on the player's head" in told
    assert "The maker's instructions, rules in force and licensed people win" in told
    assert "stop, see athletic trainer or physician" in told
    assert "At any question: help, undo, pause, symptom" in told


def test_a_check_shows_how_it_is_done_what_is_right_and_a_letter_for_every_answer(play):
    out = play(*BEFORE, "", "s").stdout
    brow = out[out.index("Brow height\n") :]
    assert "1. Strap open, eyes straight ahead." in brow
    assert "Invented example" in brow
    assert "This is the maker's own" in brow
    for line in ("  l  low ", "  r  right ", "  h  high "):
        assert line in brow
    assert "Better: the inches, such as 1 1/8, or finger widths" in brow
    assert "Expect" not in brow
    assert brow.rstrip().endswith("Brow height (inches, l, r, h):")


def test_wrong_zones_lead_to_a_change_that_is_shown_with_its_steps_and_why(play, tmp_path):
    done = play(*BEFORE, "", "s", "1", "l", "all good except jaw left tight", "why", "how", "", "s")
    told = said(done)
    assert "Change 2 pads, in inches:" in told
    assert re.search(r"\n  front      7/8 to 1 \(part .+\)\n  jaw left   7/8 to 3/4", done.stdout)
    assert "Leave: crown 7/8, rear 7/8" in told
    assert "How to change the front, rear or side pad (the usual way, from memory; " in told
    assert "Why: Front pad was wrong." in told
    assert "It fits 56 of 100 heads that readings and answers allow" in told
    assert "about 4 minutes (assumed times)" in told
    assert told.count("How to change the jaw pad") == 2  # once by itself, once for how
    on = [each["build"]["pads"]["front"]["pad"] for each in of_kind(written(tmp_path), "put on")]
    assert on == ["7/8 in", "1 in"]


def test_a_check_that_was_done_before_is_told_shorter_and_how_tells_it_whole(play):
    first, second = "Try to slide a thumb between forehead and pad.", "all good except front loose"
    typed = [*BEFORE, "", "s", "1", second, "", "s", "1"]
    assert play(*typed).stdout.count(first) == 1
    assert play("how", who="avocet").stdout.count(first) == 2  # told whole, being new here, and how


def test_brief_leaves_out_how_until_somebody_asks(play):
    out = play(*BEFORE, "", "s", "1", options=("--brief",)).stdout
    assert "Try to slide a thumb" not in out
    assert "Front pad (l, s, t):" in out
    assert "Try to slide a thumb" in play("how", options=("--brief",)).stdout


def test_a_surprising_answer_is_asked_once_more_and_says_why(play, tmp_path):
    done = play(*BEFORE, "", "s", "1 5/8", *CONTACT[2:], "1", *LATER)
    assert done.exit_code == 0
    assert "Brow height, once more The brow surprised." in said(done)
    assert names(written(tmp_path)).count("look asked") == 1


def test_nothing_here_ends_with_what_would_fit_and_its_chance(play, tmp_path):
    loose = ["", "s", "1", "all good except front loose"]
    done = play(*BEFORE, *loose, *loose, *loose)
    assert done.exit_code == 1
    told = said(done)
    assert "No build here fits Avocet Brookside" in told
    assert "Three builds were tried." in told
    assert "With front 1 1/8 in (not here) it fits 61 of 100" in told
    assert "has not been accepted for this player" in told
    assert names(written(tmp_path))[-1] == "no build"


def test_stop_keeps_the_reason_and_says_that_nothing_was_accepted(play, tmp_path):
    done = play(*BEFORE, "stop", "called to class")
    assert done.exit_code == 1
    assert "Reason: called to class." in said(done)
    assert "has not been accepted for this player" in said(done)
    assert written(tmp_path)[-1] == {"event": "stopped", "reason": "called to class"}


def test_undo_takes_answers_back_one_by_one_and_says_which(play, tmp_path):
    done = play("undo", "g", "d", "undo", "undo", "g")
    told = said(done)
    assert "nothing can be undone" in told
    assert "Taken back: Whole shell: damaged." in told
    assert "Taken back: Marks and labels: good." in told
    assert done.stdout.rstrip().endswith("Whole shell (w, d):")
    assert names(written(tmp_path)).count("undone") == 2


def test_the_last_answer_can_be_taken_back_after_the_end(play, tmp_path):
    done = play(*TO_ACCEPTANCE[:-1], "c", "k", "r", "undo", "read")
    assert done.exit_code == 0
    assert "Taken back: Warning label read: read." in said(done)
    assert names(written(tmp_path))[-4:] == ["accepted", "undone", "answered", "accepted"]


@pytest.mark.parametrize("leave", [["pause"], ["quit"], []])
def test_a_visit_that_is_left_goes_on_where_it_was(play, tmp_path, leave):
    left = play(*TO_ACCEPTANCE[:9], *leave)
    assert left.exit_code == 1
    assert "paused; kept in" in left.stderr
    went_on = play(*TO_ACCEPTANCE[9:])
    assert went_on.exit_code == 0
    assert "Going on with the visit of Avocet Brookside; 8 answers are kept." in said(went_on)
    happened = names(written(tmp_path))
    assert happened.count("paused") == happened.count("resumed") == 1
    undisturbed = play(*TO_ACCEPTANCE, options=("--keep", str(tmp_path / "again")))
    assert undisturbed.exit_code == 0
    second = written(tmp_path, "again/12-avocet-brookside.jsonl")
    kept = [e for e in written(tmp_path) if e["event"] not in ("paused", "resumed")]
    assert kept == second


def test_a_finished_visit_is_kept_and_the_next_one_has_its_own_file(play, tmp_path):
    play(*TO_ACCEPTANCE)
    first = (tmp_path / "visits/12-avocet-brookside.jsonl").read_bytes()
    again = play("g")
    assert "Going on" not in again.stdout
    assert (tmp_path / "visits/12-avocet-brookside.jsonl").read_bytes() == first
    assert len(written(tmp_path, "visits/12-avocet-brookside-visit-2.jsonl")) == 4


def test_a_torn_last_line_is_cut_off_and_said(play, tmp_path):
    play("g", "w")
    path = tmp_path / "visits/12-avocet-brookside.jsonl"
    path.write_bytes(path.read_bytes()[:-30])
    told = said(play())
    assert "The last line of the file was cut short" in told
    assert "2 answers are kept" in told


def test_a_roster_changed_since_is_said_and_the_visit_keeps_its_readings(play, tmp_path):
    play("g")
    roster = tmp_path / "roster.csv"
    roster.write_text(roster.read_text("utf-8").replace("22 5/8", "23"), "utf-8")
    told = said(play())
    assert "are not what they were; the visit goes on with what it began with" in told


def test_a_doubtful_reading_is_told_before_anybody_is_fitted_by_it(play, tmp_path):
    roster = tmp_path / "roster.csv"
    roster.write_text(
        "Player,Tape (in),Length (in),Breadth (in),Worn\n"
        "Teal Marsh,22 1/2,7 7/8,7 1/4,braids\n"
        "Coot Marsh,22 1/2,7 7/8,7 1/4,braids\n",
        "utf-8",
    )
    told = said(play(who="teal"))
    looked = told[told.index("Look at this first:") : told.index("Answer by letter")]
    assert 'Breadth (in) "7 1/4"' in looked
    assert "braids or locs of assumed thickness" in looked
    assert "Coot" not in looked
    assert "Look at this first" not in said(play(who="teal"))  # it goes on; that was told


@pytest.mark.parametrize(
    ("rest", "reason"),
    [(["front 3/4, jaw left 1", "he likes it"], "he likes it"), (["front 3/4", "ours"], "ours")],
)
def test_another_build_is_put_on_for_a_reason_that_is_kept(play, tmp_path, rest, reason):
    typed = [*BEFORE, "other", *rest, "s"]
    assert "Put on instead: shell 3, crown 7/8, front 3/4" in said(play(*typed))
    (put,) = of_kind(written(tmp_path), "put on")
    assert put["reason"] == reason
    assert put["build"]["pads"]["front"]["pad"] == "3/4 in"
    assert put["build"]["pads"]["crown"]["pad"] == "7/8 in"


def test_another_build_tells_what_is_changed_for_it_and_how_before_it_is_put_on(play):
    done = play(*BEFORE, "other front 3/4, jaw left 1", "ours", "s", "other front 7/8", "theirs")
    first, second = done.stdout.split("Put on instead:")[:2]
    assert re.search(r"Change 2 pads, in inches:\n  front      7/8 to 3/4 \(part .+\)\n", first)
    assert re.search(r"\n  jaw left   7/8 to 1 \(part ", first)
    assert "Leave: crown 7/8, rear 7/8" in first
    assert "How to change the front, rear or side pad (the usual way, from memory; " in first
    assert "How to change the jaw pad (the maker's own steps)" in first
    assert re.search(r"Change 1 pad, in inches:\n  front +3/4 to 7/8 \(part ", second)
    assert "Steps for front, rear or side pad: as before, or type how." in second


def test_brief_leaves_out_how_pads_are_changed_for_another_build_until_somebody_asks(play):
    typed = [*BEFORE, "other front 3/4", "ours"]
    brief = play(*typed, "s", options=("--brief",)).stdout
    assert re.search(r"Change 1 pad, in inches:\n  front +7/8 to 3/4 \(part ", brief)
    assert "How to change" not in brief
    asked = play(*typed, "how", "s", "how", who="dunlin", options=("--brief",)).stdout
    assert asked.count("How to change the front, rear or side pad") == 1


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["other", "visor 3/4"], "'visor' is no place in the shell"),
        (["other", "front 2"], "there is no front pad of 2 in"),
        (["other", "front 3/4", ""], "Another build needs a reason"),
        (["other", ""], "nothing is named"),
        (["no"], '"no" is no answer here. Press Enter once it is on'),
        (["all good"], "This is no round of checks"),
    ],
)
def test_what_cannot_be_put_on_is_refused_and_nothing_is_lost(play, tmp_path, typed, told):
    done = play(*BEFORE, *typed)
    assert told in said(done)
    assert names(written(tmp_path)) == ["started", "proposed", *["answered"] * 6, "paused"]


@pytest.mark.parametrize(
    ("count", "told"), [("", "no part has a count; write how many"), ("0", "every count is 0")]
)
def test_a_stock_list_that_counts_nothing_is_told_before_the_visit(play, tmp_path, count, told):
    stock = tmp_path / "stock.csv"
    stock.write_text(f"place,size,count\nshell,3,{count}\nfront,1,{count}\n", "utf-8")
    done = play(options=("--stock", str(stock)))
    assert done.exit_code == 2
    assert told in " ".join(done.stderr.split())
    assert not (tmp_path / "visits").exists()


def test_what_was_named_for_later_and_is_not_asked_is_said(play, tmp_path):
    """A helmet that does not go on is not checked further, whatever was typed beforehand."""
    done = play(*BEFORE, "", "all good except put on falls, nape tight")
    assert done.exit_code == 1
    assert "Not asked now, so not kept: Nape pad: tight." in said(done)
    assert [each["check"] for each in of_kind(written(tmp_path), "answered")][6:] == ["put on"]


def test_help_lists_what_can_be_typed_and_keeps_nothing(play, tmp_path):
    out = play("help").stdout
    for word in ("all good", "undo", "why", "how", "other", "pause", "symptom", "stop"):
        assert f"\n  {word} " in out
    assert names(written(tmp_path)) == ["started", "proposed", "paused"]


def test_why_names_the_source_of_a_criterion(play):
    told = said(play(*BEFORE, "", "s", "1", "s", "s", "why"))
    assert "Criterion: " in told
    assert "youth_checklist_2020" not in told


@pytest.mark.parametrize("columns", ["60", "80", "100"])
def test_every_line_fits_the_terminal(play, tmp_path, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", columns)
    typed = [
        "help",
        "why",
        "how",
        "x",
        *BEFORE,
        "why",
        "how",
        "",
        "s",
        "1",
        "why",
        "bad headache",
        "n",
    ]
    changed = ["all good except front loose, jaw left tight, ears high", "how", "why"]
    rest = ["", *CONTACT, *LATER, "undo", "undo", "symptom after a hit"]
    for lines in ((*typed, *changed, *rest), ("stop", "no time")):
        done = play(*lines, options=("--keep", str(tmp_path / f"{len(lines)}")))
        own = [line.removesuffix(max(lines, key=len)) for line in done.stdout.splitlines()]
        assert [
            line for line in own if len(line) > int(columns) and str(tmp_path) not in line
        ] == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("visit",), "say who is fitted: a name, part of one, or a number"),
        (("visit", "avocet"), "give --roster FILE, or --demo for the invented roster"),
        (("visit", "avocet", "--demo", "--roster", "x.csv"), "give --roster FILE, or --demo"),
        (("visit", "avocet", "--roster", "-"), "--roster needs a file"),
        (("visit", "avocet", "--roster", "nowhere.csv"), "cannot read nowhere.csv"),
        (("visit", "zzz", "--demo"), "nobody on the roster is called 'zzz'"),
        (("visit", "a", "--demo"), "players are meant by 'a'"),
        (("visit", "Wren", "--demo", "--now", "visor 1"), '--now "visor 1": '),
        (("visit", "Wren", "--demo", "--protocol", "none.toml"), "cannot read none.toml"),
        (("visit", "Wren", "--demo", "--stock", "none.csv"), "cannot read none.csv"),
    ],
)
def test_what_cannot_run_says_what_would_be_right_and_makes_no_file(
    run, tmp_path, monkeypatch, words, told
):
    stand_in(monkeypatch)
    monkeypatch.chdir(tmp_path)
    done = run(*words)
    assert done.exit_code == 2
    assert told in " ".join(done.stderr.split())
    assert list(tmp_path.rglob("*.jsonl")) == []


@pytest.mark.parametrize("begun", ["stop", "other"])
def test_a_command_is_obeyed_where_a_reason_is_asked_for(play, tmp_path, begun):
    told = said(play(*BEFORE, "", "s", begun, "undo", "1"))
    assert "what was begun is not kept" in told
    last = written(tmp_path)[-2]
    assert (last["event"], last["check"]) == ("answered", "brow")
    other = play("stop", "symptom neck hurts")
    assert 'Stopped for a symptom: Avocet Brookside, "neck hurts"' in said(other)
