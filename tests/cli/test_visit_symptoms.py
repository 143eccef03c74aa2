"""A symptom ends a visit wherever it is told, and the next one does not pass it over."""

import pytest

from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_file import VisitFile
from helmwright.visit.event import SymptomReported
from tests.cli.visit_ways import BEFORE, TO_ACCEPTANCE, names, said, written


@pytest.mark.parametrize("at", [0, 3, 7, 12])
@pytest.mark.parametrize("typed", [["symptom", "sees double"], ["symptom sees double"]])
def test_a_symptom_ends_the_visit_wherever_it_is_and_no_change_is_proposed(
    play, tmp_path, at, typed
):
    done = play(*TO_ACCEPTANCE[:at], *typed)
    assert done.exit_code == 1
    end = done.stdout[done.stdout.index("Stopped for a symptom") :]
    assert 'Avocet Brookside, "sees double"' in end
    assert "athletic trainer or a physician now" in " ".join(end.split())
    assert "No change of fit is proposed for it" in " ".join(end.split())
    for word in ("Change ", "thicker", "thinner", "Try-on"):
        assert word not in end
    assert written(tmp_path)[-1] == {"event": "symptom reported", "words": "sees double"}


def test_a_symptom_that_nobody_goes_on_to_describe_counts(play, tmp_path):
    assert play(*BEFORE, "symptom").exit_code == 1
    assert written(tmp_path)[-1] == {"event": "symptom reported", "words": "not described"}


@pytest.mark.parametrize(
    "at",
    [
        [],
        [*BEFORE],
        [*BEFORE, "", "s"],
        [*BEFORE, "stop"],
        [*BEFORE, "other"],
        [*BEFORE, "other", "front 3/4"],
        [*TO_ACCEPTANCE],
    ],
    ids=["check", "put on", "length", "reason of stop", "difference", "reason of other", "end"],
)
@pytest.mark.parametrize("words", ["bad headache", "he is dizzy", "sees double"])
def test_what_sounds_like_a_symptom_is_asked_about_at_every_question(play, tmp_path, at, words):
    done = play(*at, words, "perhaps", "y")
    told = said(done)
    assert "Is that a symptom? It would end the visit (y, n)" in told
    assert "Type y or n." in told
    assert "Tell the athletic trainer or a physician now" in told
    assert written(tmp_path)[-1] == {"event": "symptom reported", "words": words}
    assert done.exit_code == 1


def test_what_only_sounds_like_a_symptom_is_answered_like_anything_else(play, tmp_path):
    assert '"numb" is no answer here. Type g (good)' in said(play("numb", "n", "g"))
    assert names(written(tmp_path))[-2:] == ["answered", "paused"]
    told = said(play("stop", "the bell hurts my ears", "n", who="dunlin"))
    assert "Reason: the bell hurts my ears." in told


def test_undo_takes_a_symptom_back_before_it_is_described(play, tmp_path):
    told = said(play("symptom", "undo"))
    assert "Stopped for a symptom" not in told
    assert "symptom reported" not in names(written(tmp_path))


def test_what_a_player_says_need_not_be_kept(play, tmp_path):
    assert "kept in the file; Enter: leave it out" in said(play("symptom", ""))
    assert written(tmp_path)[-1]["words"] == "not described"


def test_a_symptom_that_the_disk_does_not_take_is_told_what_to_do_about(play, monkeypatch):
    whole = VisitFile.append

    def append(file, *events):
        if any(isinstance(event, SymptomReported) for event in events):
            raise NothingRan("cannot write: no space left on device")
        whole(file, *events)

    monkeypatch.setattr(VisitFile, "append", append)
    done = play("symptom neck hurts")
    assert done.exit_code == 2
    assert "Tell the athletic trainer or a physician now" in said(done)
    assert "helmet and face guard stay on" in said(done)


@pytest.mark.parametrize("agreed", [[], ["no"], ["y"], [""]])
def test_after_a_symptom_no_visit_begins_without_a_typed_yes(play, tmp_path, agreed):
    play("symptom dizzy", "")
    done = play(*agreed)
    told = said(done)
    assert "12-avocet-brookside.jsonl ended on 20" in told
    assert "for a symptom" in told
    assert "Medical staff decide whether the player is fitted again" in told
    assert "Fit visit" not in told
    assert "no visit was begun" in done.stderr
    assert done.exit_code == 1
    assert (tmp_path / "visits/12-avocet-brookside-visit-2.jsonl").read_text("utf-8") == ""


def test_after_a_symptom_a_typed_yes_begins_and_is_asked_again_until_one_was_accepted(play):
    play("symptom dizzy", "")
    asked = "Type yes where they have said that the player may be fitted"
    assert "Fit visit: Avocet" in said(play("yes", "stop", "late", ""))
    again = play("yes", *TO_ACCEPTANCE, "")
    assert asked in said(again)
    assert again.exit_code == 0
    assert asked not in said(play())


@pytest.mark.parametrize("typed", ["loose", "undone", "other", "1"])
def test_at_the_end_what_is_no_answer_closes_nothing(play, tmp_path, typed):
    told = said(play(*TO_ACCEPTANCE, typed, "undo", "c", ""))
    assert f'"{typed}" is no answer here. Press Enter, or type done, to close the visit' in told
    assert names(written(tmp_path)).count("undone") >= 1
    assert "Taken back" in told


@pytest.mark.parametrize("typed", ["", "done"])
def test_at_the_end_enter_or_done_closes(play, tmp_path, typed):
    done = play(*TO_ACCEPTANCE, typed, "undo")
    assert done.exit_code == 0
    assert names(written(tmp_path))[-1] == "accepted"
