"""`helmwright visit --jsonl`: who is fitted, what is refused, and what it ends with."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from helmwright.cli import main
from tests.cli.wearer import AVOCET

STOP = '{"message": "stop", "reason": "lunch"}\n'


def run(*words: str, sent: str = ""):
    return CliRunner().invoke(main, ["visit", "--jsonl", *words], input=sent)


def told(result) -> list[dict[str, object]]:
    return [json.loads(line) for line in result.stdout.splitlines()]


def start(**fields) -> str:
    return json.dumps({"message": "start", "player": AVOCET, **fields}) + "\n"


def test_a_player_of_a_roster_is_fitted_without_a_start_message(tmp_path: Path):
    roster = tmp_path / "roster.csv"
    roster.write_text("No,Name,Tape,Build now\n7,Teal,22 5/8,shell 4\n", encoding="utf-8")
    result = run("teal", "--roster", str(roster), "--seed", "5", sent=STOP)
    first, last = told(result)
    assert (first["message"], first["who"], first["seed"]) == ("started", "Teal", 5)
    assert (last["message"], last["reason"]) == ("stopped", "lunch")
    assert result.exit_code == 1
    assert [path.name for path in tmp_path.iterdir()] == ["roster.csv"]


@pytest.mark.parametrize(
    "words", [("--demo",), ("--roster", "team.csv"), ("--now", "shell 4"), ("nobody", "--demo")]
)
def test_what_names_no_player_ends_before_the_dialogue(words):
    result = run(*words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.count("\n") == 1


@pytest.mark.parametrize(
    ("fields", "where", "words"),
    [
        ({"model": "robin"}, "model", "there is: ouzel"),
        ({"model": "ouzel", "sheet": "format = 1"}, "sheet", "exclude each other"),
        ({"sheet": "format = 2"}, "sheet", "line 1"),
        ({"stock": [{"place": "chin", "size": "1 in", "count": 1}]}, "stock", "the places are"),
        ({"player": AVOCET | {"build now": "shell 9"}}, "start", "has no shell 9"),
        ({"player": AVOCET | {"tape": "221/8"}}, "player, tape", "22 1/8"),
    ],
)
def test_a_start_that_cannot_be_is_answered_with_what_and_where(fields, where, words):
    (error,) = told(run(sent=start(**fields)))
    assert (error["message"], error["where"]) == ("error", where)
    assert words in f"{error['what']} {error['right']}".replace("The places", "the places")


def test_current_and_build_now_must_not_both_be_said():
    pads = ["crown", "front", "rear", "left", "right", "nape", "jaw left", "jaw right"]
    current = {"shell": 4, "pads": {zone: {"pad": "7/8 in"} for zone in pads}}
    both = AVOCET | {"build now": "shell 4"}
    (error,) = told(run(sent=start(player=both, current=current)))
    assert (error["where"], "say the same" in str(error["what"])) == ("current", True)


def test_what_is_in_the_helmet_and_on_the_shelf_is_what_the_start_says(tmp_path: Path):
    pads = ["crown", "front", "rear", "left", "right", "nape", "jaw left", "jaw right"]
    current = {"shell": 3, "pads": {zone: {"pad": "7/8 in"} for zone in pads}}
    stock = [{"place": "front", "size": "1", "count": 2}]
    sent = start(current=current, stock=stock, seed=3) + '{"message": "state"}\n'
    first, state = told(run("--keep", str(tmp_path), sent=sent))
    begun = state["events"][0]  # type: ignore[index]
    assert begun["current"]["pads"]["nape"] == {"pad": "7/8 in", "mm": 22.225}
    assert begun["shelf"] == [{"place": "front", "size": "1 in", "count": 2}]
    assert begun["seed"] == 3
    assert any("nothing is listed for shells" in each for each in first["notices"])  # type: ignore[attr-defined]
    (file,) = tmp_path.iterdir()
    assert '"event": "paused"' in file.read_text("utf-8").splitlines()[-1]


def test_a_visit_that_goes_on_says_that_it_keeps_what_it_began_with(tmp_path: Path):
    run("--keep", str(tmp_path), sent=start(seed=3))
    (first,) = told(run("--keep", str(tmp_path), sent=start(seed=4)))
    assert first["seed"] == 3
    assert any("as they were when it began" in each for each in first["notices"])  # type: ignore[attr-defined]


def test_one_dialogue_fits_the_same_player_twice_each_visit_in_a_file_of_its_own(tmp_path: Path):
    sent = start() + '{"message": "stop"}\n' + start()
    first, end, second = told(run("--keep", str(tmp_path), sent=sent))
    assert (first["message"], end["message"], second["message"]) == (
        "started",
        "stopped",
        "started",
    )
    assert len(list(tmp_path.iterdir())) == 2
    assert any('over ("stopped")' in each for each in second["notices"])  # type: ignore[attr-defined]


def test_two_players_without_a_name_do_not_share_a_visit(tmp_path: Path):
    run("--keep", str(tmp_path), sent=start(player={"tape": "22 5/8"}))
    (error,) = told(run("--keep", str(tmp_path), sent=start(player={"tape": "21 1/8"})))
    assert error["message"] == "error"
    assert "Give the player a name" in str(error["what"])
