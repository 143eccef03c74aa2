"""A visit that is gone on with, and one after another, say what they go on from."""

from tests.cli.visit_ways import BEFORE, TO_ACCEPTANCE, of_kind, said, written

SECOND = "visits/12-avocet-brookside-visit-2.jsonl"
OTHER = [*BEFORE, "other front 3/4", "ours", *TO_ACCEPTANCE[7:]]
"""To acceptance in another build."""


def test_a_new_visit_tells_of_the_one_that_is_over(play):
    assert "An earlier visit is over" not in said(play("stop too late", ""))
    assert 'An earlier visit is over ("stopped") and kept in' in said(play())


def test_a_visit_that_goes_on_says_what_is_in_the_helmet_and_to_settle_it_again(play):
    again = "put it on and settle it again before you answer"
    assert again not in said(play(*BEFORE, "", "s", "1", "all good except front loose", "pause"))
    changed = said(play("", "s", "pause"))
    assert "front 7/8, rear 7/8" in changed[: changed.index("Answer by letter")]
    assert again not in changed
    went_on = said(play())
    assert "front 1, rear 7/8" in went_on[: went_on.index("Answer by letter")]
    assert again in went_on


def test_a_visit_that_goes_on_says_which_answers_it_has_and_the_cautions_in_short(play):
    play(*BEFORE, "", "s", "1 1/8")
    told = said(play())
    assert "8 answers are kept. Answered about this build: Marks and labels: good;" in told
    assert "Put on: snug; Brow height: 1 1/8 in, right." in told
    assert "Cautions as before: nothing here is a safety score" in told
    assert "No helmet prevents every head or neck injury. Headache" not in told


def test_the_next_visit_begins_with_what_was_accepted(play, tmp_path):
    assert play(*OTHER, "").exit_code == 0
    told = said(play())
    assert "In the helmet now: shell 3 (22 1/16 to 22 13/16 in), crown 7/8, front 3/4" in told
    assert "is taken for what is in the helmet now" in told
    (started,) = of_kind(written(tmp_path, SECOND), "started")
    assert started["current"]["pads"]["front"]["pad"] == "3/4 in"
    assert "are not what they were" not in said(play())


def test_what_is_said_of_the_helmet_now_goes_before_what_was_accepted(play, tmp_path):
    play(*OTHER, "")
    told = said(play(options=("--now", "shell 3, front 1")))
    assert "front 1, rear" in told
    assert "is taken for what is in" not in told
    (started,) = of_kind(written(tmp_path, SECOND), "started")
    assert started["current"]["pads"]["front"]["pad"] == "1 in"


def test_what_was_accepted_holds_no_longer_once_another_build_was_put_on(play):
    play(*OTHER, "")
    play("stop", "late", "")
    assert "is taken for what is in the helmet now" in said(play(*BEFORE, "", "stop late", ""))
    assert "nobody said, so as delivered" in said(play())
