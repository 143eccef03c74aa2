"""`helmwright sheet new`: questions in the order of finding, and nothing lost on the way."""

import json
import re
from pathlib import Path

import pytest
from click.testing import Result
from hypothesis import given
from hypothesis import strategies as st

from docs.tutorials.effort import keystrokes
from helmwright.catalogue import ZONES, SheetError, Zone, parse_sheet
from helmwright.catalogue.drafting import DraftPads, SheetDraft, draft_text
from helmwright.cli.interview import PLACES, Question, asked
from helmwright.cli.written_answers import AnswerError, ages, one_of, span, thicknesses, yes

CHART_ONLY = [
    "Cage shelf 2", "4", "20 1/2-21 1/2", "",
    "1/2, 3/4, 1, 1 1/4", "3/4",  # crown
    "5/8 to 1 by 1/8", "3/4",  # front
    "", "", "", "",  # rear, sides, nape and jaw as the front
    "8-14", "",
]  # fmt: skip
"""What a volunteer types who has the chart and the bags."""

WITH_CALIPERS = [
    "Two sizes", "2", "54 to 56 cm", "56 to 58 cm",
    "1/2,3/4,1", "", "19, 22 mm", "22", "", "", "none", "12 to 24 by 4 mm", "16 mm",
    "", "y",
    "228 mm", "188 mm", "166 mm", "89", "89 mm", "55 mm",  # 89 in is asked again
    "235 mm", "192 mm", "", "", "",
]  # fmt: skip


@pytest.fixture
def new(run, tmp_path):
    """Runs the interview on typed lines; the file is `helmet.toml` of an empty folder."""

    def running(*lines: str, name: str = "helmet.toml") -> Result:
        typed = "".join(f"{line}\n" for line in lines)
        return run("sheet", "new", str(tmp_path / name), given=typed.encode())

    return running


def sheet_in(folder: Path):
    return parse_sheet((folder / "helmet.toml").read_text("utf-8"), name="helmet.toml")


def keys(answers):
    """Keys for these answers, shift and Enter counted."""
    return sum(keystrokes(answer) + 1 for answer in answers)


def test_chart_and_bags_make_a_sheet_in_few_answers_and_keystrokes(new, tmp_path):
    done = new(*CHART_ONLY)
    assert done.exit_code == 0
    sheet = sheet_in(tmp_path)
    assert sheet.model == "Cage shelf 2"
    assert sheet.ages == (8, 14)
    lows = [round(shell.chart_low_mm / 25.4, 6) for shell in sheet.shells]
    assert lows == [20.5, 21.5, 22.5, 23.5]
    assert sheet.pad(Zone.JAW_LEFT).labels == ("5/8 in", "3/4 in", "7/8 in", "1 in")
    assert sheet.insides is not None
    assert not sheet.invented
    assert (len(CHART_ONLY), keys(CHART_ONLY)) == (14, 84)


def test_the_how_to_page_states_the_same_counts():
    page = (Path(__file__).parents[2] / "docs/how-to/describe-a-helmet.md").read_text("utf-8")
    assert f"{len(CHART_ONLY)} answers, {keys(CHART_ONLY)} keystrokes" in page


def test_the_end_says_what_to_do_next(new, tmp_path):
    said = " ".join(new(*CHART_ONLY).stdout.split())
    assert "the sheet can be used" in said
    assert "helmet.toml is written. Next:" in said
    assert "inside length, inside breadth and width at the jaw first" in said
    assert "snug over" not in said
    assert "helmwright sheet check" in said
    assert not (tmp_path / "helmet.toml.draft").exists()


def test_the_questions_come_in_the_order_in_which_a_person_finds_the_answers(new):
    said = new(*CHART_ONLY).stdout
    wanted = [
        "What do you call", "How many shell sizes", "Smallest shell", "Shell 2:", "Crown pad",
        "Front pad", "Rear pad", "Left and right pad", "Nape pad", "Jaw pad", "For which ages",
        "inside calipers",
    ]  # fmt: skip
    places = [said.index(word) for word in wanted]
    assert places == sorted(places)


def test_calipers_fill_in_what_they_can(new, tmp_path):
    done = new(*WITH_CALIPERS)
    assert done.exit_code == 0, done.output
    sheet = sheet_in(tmp_path)
    assert sheet.shell(1).inside_length_mm == 228.0
    assert sheet.shell(2).inside_breadth_mm == 192.0
    assert sheet.insides is not None
    assert sheet.insides.unmeasured(2) == ("inside_depth", "jaw_width", "front_edge")
    assert sheet.shell(2).chart_high_mm == 580.0
    assert sheet.pad(Zone.NAPE).seats == ()
    assert sheet.pad(Zone.JAW_RIGHT).labels == ("12 mm", "16 mm", "20 mm", "24 mm")
    assert sheet.pad(Zone.CROWN).assumed[0] == "delivered"


def test_a_wrong_answer_is_asked_again_with_what_would_be_right(new, tmp_path):
    lines = list(CHART_ONLY)
    lines[1:1] = ["four", "0"]
    lines[5:5] = ["57 in to 59 in"]
    done = new(*lines)
    said = " ".join(done.stdout.split())
    assert '"four" is no number of shells. Write a whole number from 1 to 20.' in said
    assert "0 shells are too few." in said
    assert said.count("How many shell sizes does it have?") == 3
    assert "57 cm?" in said
    assert sheet_in(tmp_path).shell(1).chart_low_mm == pytest.approx(20.5 * 25.4)


def test_a_band_that_does_not_grow_is_asked_again(new, tmp_path):
    lines = [*CHART_ONLY[:3], "20 to 21", *CHART_ONLY[3:]]
    said = " ".join(new(*lines).stdout.split())
    assert "20 in does not lie above the 20 1/2 in of the shell before" in said
    assert len(sheet_in(tmp_path).shells) == 4


def test_an_inside_that_shrinks_is_asked_again(new, tmp_path):
    lines = list(WITH_CALIPERS)
    lines[21:21] = ["220 mm"]
    said = " ".join(new(*lines).stdout.split())
    assert "220 mm is smaller than the 228 mm of a smaller shell" in said
    assert sheet_in(tmp_path).shell(2).inside_length_mm == 235.0


def test_back_goes_back_one_question_as_often_as_asked(new, tmp_path):
    lines = ["back", "Wrong name", "3", "back", "back", *CHART_ONLY]
    done = new(*lines)
    assert "This is the first question." in done.stdout
    assert sheet_in(tmp_path).model == "Cage shelf 2"


@pytest.mark.parametrize("stopped", range(1, len(CHART_ONLY)))
def test_stopping_anywhere_loses_nothing(new, tmp_path, stopped):
    whole = new(*CHART_ONLY, name="whole.toml")
    assert whole.exit_code == 0
    first = new(*CHART_ONLY[:stopped])
    assert first.exit_code == 130
    assert "kept in helmet.toml.draft" in first.stderr
    assert "Go on with: helmwright sheet new" in first.stderr
    assert not (tmp_path / "helmet.toml").exists()
    again = new("", *CHART_ONLY[stopped:])
    assert again.exit_code == 0
    written = [(tmp_path / name).read_text("utf-8") for name in ("helmet.toml", "whole.toml")]
    assert written[0] == written[1]


def test_a_draft_may_be_left_for_a_new_start(new, tmp_path):
    new("Another", "3")
    assert new("n", *CHART_ONLY).exit_code == 0
    assert sheet_in(tmp_path).model == "Cage shelf 2"


def test_a_draft_that_cannot_be_read_is_left_alone(new, tmp_path):
    draft = tmp_path / "helmet.toml.draft"
    draft.write_text("{", encoding="utf-8")
    done = new(*CHART_ONLY)
    assert done.exit_code == 2
    assert "move it away" in done.stderr
    assert draft.read_text("utf-8") == "{"


def test_answers_of_a_draft_that_can_no_longer_be_taken_are_asked_anew(new, tmp_path):
    draft = {"helmwright draft": 1, "answers": ["Cage shelf 2", "four", "never reached"]}
    (tmp_path / "helmet.toml.draft").write_text(json.dumps(draft), encoding="utf-8")
    done = new("y", *CHART_ONLY[1:])
    assert done.exit_code == 0
    assert len(sheet_in(tmp_path).shells) == 4


@pytest.mark.parametrize("answer", ["", "n", "what", "no"])
def test_a_file_that_is_there_is_never_written_over_unasked(new, tmp_path, answer):
    path = tmp_path / "helmet.toml"
    path.write_text("mine", encoding="utf-8")
    done = new(answer, "n")
    assert done.exit_code == 2
    assert "was left as it is; give the new sheet another name" in done.stderr
    assert path.read_text("utf-8") == "mine"


def test_a_file_is_written_over_where_that_is_agreed(new, tmp_path):
    (tmp_path / "helmet.toml").write_text("mine", encoding="utf-8")
    assert new("y", *CHART_ONLY).exit_code == 0
    assert sheet_in(tmp_path).model == "Cage shelf 2"


def test_a_folder_that_is_not_there_is_told_before_the_first_question(run, tmp_path):
    done = run("sheet", "new", str(tmp_path / "nowhere" / "helmet.toml"), given=b"")
    assert done.exit_code == 2
    assert "there is no folder" in done.stderr


def test_numbers_that_make_no_inside_are_told_and_can_be_gone_back_to(new, tmp_path):
    lines = list(WITH_CALIPERS)
    lines[17] = "120 mm"
    done = new(*lines, *["back"] * 7, "166 mm", *WITH_CALIPERS[18:])
    said = " ".join(done.stdout.split())
    assert "shell 1, width at the jaw: 120 mm does not go with a breadth" in said
    assert "jaw_width" not in said
    assert "to put right" not in said
    assert done.exit_code == 0, done.output
    assert sheet_in(tmp_path).shell(1).jaw_width_mm == 166.0


@pytest.mark.parametrize(
    ("typed", "both"),
    [
        ("20 1/2 to 21 1/2", ("20 1/2 in", "21 1/2 in")),
        ("20 1/2-21 1/2", ("20 1/2 in", "21 1/2 in")),
        ("20-1/2 - 21-1/2", ("20-1/2 in", "21-1/2 in")),
        ("20.5, 21.5", ("20.5 in", "21.5 in")),
        ("52-54 cm", ("52 cm", "54 cm")),
        ("520 mm to 540 mm", ("520 mm", "540 mm")),
        ("22–23", ("22 in", "23 in")),
    ],
)
def test_a_band_is_read_as_people_write_it(typed, both):
    assert span(typed, (400.0, 760.0), "both ends") == both


@pytest.mark.parametrize(
    "typed", ["", "21", "to", "21 to", "22 to 21", "5 to 6", "a to b", "1-2-3"]
)
def test_what_is_no_band_is_refused_with_what_would_be_right(typed):
    with pytest.raises(AnswerError, match="both ends"):
        span(typed, (400.0, 760.0), "both ends")


@pytest.mark.parametrize(
    ("typed", "labels"),
    [
        ("1/2, 3/4, 1", ("1/2 in", "3/4 in", "1 in")),
        ("1, 3/4, 1/2", ("1/2 in", "3/4 in", "1 in")),
        ("1/2 to 1 by 1/8", ("1/2 in", "5/8 in", "3/4 in", "7/8 in", "1 in")),
        ("12, 16, 20 mm", ("12 mm", "16 mm", "20 mm")),
        ("12 to 20 by 4 mm", ("12 mm", "16 mm", "20 mm")),
        ("7/8", ("7/8 in",)),
    ],
)
def test_thicknesses_are_read_as_people_write_them(typed, labels):
    assert thicknesses(typed, (1.0, 80.0), "Write them") == labels


@pytest.mark.parametrize(
    "typed", [",", "1/2 3/4", "1/2, 1/2", "22", "1/2 to 1 by 1/3", "1 to 1/2 by 1/8", "thick"]
)
def test_what_are_no_thicknesses_is_refused(typed):
    with pytest.raises(AnswerError):
        thicknesses(typed, (1.0, 80.0), "Write them")


def test_the_delivered_thickness_is_found_however_it_is_typed():
    labels = ("5/8 in", "3/4 in")
    assert {one_of(word, labels) for word in ("3/4", "3/4 in", "0.75", "19.05 mm")} == {"3/4 in"}
    with pytest.raises(AnswerError, match="is not among the thicknesses"):
        one_of("7/8", labels)


@pytest.mark.parametrize("typed", ["n", "?", "57 in to 59 in", "21 to 1/3", "wide to narrow", "9."])
def test_refusals_are_clean_sentences_about_what_was_typed(typed):
    for read in (
        lambda text: span(text, (400.0, 760.0), "both ends"),
        lambda text: thicknesses(text, (1.0, 80.0), "Write them"),
    ):
        with pytest.raises(AnswerError) as told:
            read(typed)
        said = str(told.value)
        assert "?." not in said
        assert ".." not in said
        assert f"'{typed} in'" not in said
        assert re.search(r"[.?] Write (both ends|them|the smaller)", said)


def test_ages_and_yes_are_read_or_refused():
    assert ages("8 to 14") == ages("8-14") == (8, 14)
    assert ages("") is None
    assert yes("", unless=True)
    assert not yes("No", unless=True)
    for wrong in ("14-8", "2 to 4", "youth", "8"):
        with pytest.raises(AnswerError):
            ages(wrong)


def test_every_zone_is_asked_for_once():
    assert sorted(zone for zones in PLACES.values() for zone in zones) == sorted(ZONES)


@given(st.text(min_size=1, max_size=30).filter(lambda text: text.isprintable() and text.strip()))
def test_a_sheet_of_any_name_is_written_so_that_it_reads_back(name):
    pads = dict.fromkeys(ZONES, DraftPads(("1/2 in", "3/4 in"), "3/4 in"))
    draft = SheetDraft(name, (("21 in", "22 in"),), pads, insides=({"inside_length": "230 mm"},))
    sheet = parse_sheet(draft_text(draft), name="draft")
    assert sheet.model == name.strip()
    assert sheet.shell(1).inside_length_mm == 230.0


@given(st.lists(st.text(max_size=12), max_size=14))
def test_whatever_is_typed_is_taken_or_refused_with_a_reason(typed):
    taken: list[str] = []
    for line in typed:
        question = asked(taken)
        if isinstance(question, SheetDraft):
            break
        reason = refusal(question, line)
        if reason is None:
            taken.append(line)
        else:
            assert reason.endswith(".")


def refusal(question: Question, line: str) -> str | None:
    """Why a line cannot be taken; None where it can."""
    try:
        question.read(line)
    except AnswerError as error:
        return str(error)
    return None


def test_a_draft_without_a_word_on_every_zone_is_refused():
    with pytest.raises(ValueError, match="a word on every zone"):
        SheetDraft("A", (("21 in", "22 in"),), {Zone.CROWN: None})


def test_a_helmet_without_any_pad_is_told_to_need_one():
    draft = asked([*CHART_ONLY[:4], *["none"] * 6, "", ""])
    assert isinstance(draft, SheetDraft)
    with pytest.raises(SheetError, match="pad is missing"):
        parse_sheet(draft_text(draft), name="bare")
