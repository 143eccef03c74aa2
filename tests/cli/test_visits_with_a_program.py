"""Whole visits with a program at the other end of the pipe: accepted, none, symptom, killed."""

import subprocess
import sys
from pathlib import Path

import pytest

from helmwright.catalogue import load_packaged
from tests.cli.wearer import AVOCET, Program, Wearer, events

OUZEL = load_packaged("ouzel")


def wearer() -> Wearer:
    """A head that wants a thicker front than the first proposal has, and thinner jaw pads."""
    return Wearer(front=28.6, jaw_left=19.0, jaw_right=19.0)


def test_visits_with_a_program_end_accepted_or_with_a_symptom_or_without_a_build(tmp_path: Path):
    with Program("--keep", str(tmp_path)) as program:
        head = wearer()
        heard = head.play(program, program.send("start", player=AVOCET))
        end = heard[-1]
        assert end["message"] == "accepted"
        assert end["build"]["pads"] == head.worn
        assert abs(head.worn["front"]["mm"] - 28.6) < 2.5
        assert len(head.proposals) > 1
        builds = [str(proposal["build"]) for proposal in head.proposals]
        assert len(set(builds)) == len(builds)
        assert all(any(a in p["why"].lower() for a in ("front", "jaw")) for p in head.proposals[1:])

        second = Wearer()
        program.send("start", player=AVOCET | {"name": "Teal Coppice"})
        told = program.send("symptom", words="dizzy since practice")
        assert told["message"] == "symptom"
        assert "proposal" not in str(told)
        assert second.answer(told) is None

        third = Wearer(front=28.6)
        stock = [{"place": "shell", "size": "3", "count": 0}]
        player = AVOCET | {"name": "Dunlin Marsh", "build now": "shell 3"}
        end = third.play(program, program.send("start", player=player, stock=stock))[-1]
        assert end["message"] == "no build"
        assert end["would"]
        assert all(would["lacking"] for would in end["would"])
        assert all(0.0 < would["fits"] <= 1.0 for would in end["would"])
        assert program.close() == 1
    assert len(list(tmp_path.glob("*.jsonl"))) == 3


@pytest.mark.slow
def test_a_dialogue_that_is_killed_goes_on_where_it_was_in_the_terminal_too(tmp_path: Path):
    whole, broken = tmp_path / "whole", tmp_path / "broken"
    with Program("--keep", str(whole)) as program:
        lines = len(wearer().play(program, program.send("start", player=AVOCET)))
        assert program.close() == 0
    head = wearer()
    with Program("--keep", str(broken)) as program:
        told = program.send("start", player=AVOCET)
        assert told["kept"] == 0
        head.play(program, told, most=lines // 2)
    in_terminal(broken)
    with Program("--keep", str(broken)) as program:
        told = program.send("start", player=AVOCET)
        assert (told["kept"] > 0, told["next"]["message"]) == (True, "paused")
        assert head.play(program, told)[-1]["message"] == "accepted"
        assert program.close() == 0
    (one,), (other,) = whole.glob("*.jsonl"), broken.glob("*.jsonl")
    names = [event["event"] for event in events(other)]
    assert names.count("paused") == names.count("resumed") == 1
    assert events(one) == events(other, without=("paused", "resumed"))


def in_terminal(folder: Path) -> None:
    """Goes on with the visit in the terminal, where somebody leaves at once."""
    roster = folder / "roster.csv"
    roster.write_text("Name,Tape\nAvocet Brookside,22 5/8\n", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "helmwright", "visit", "Avocet", "--roster", str(roster),
         "--keep", str(folder)],
        input="", capture_output=True, text=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert "Going on" in done.stdout, done.stderr
