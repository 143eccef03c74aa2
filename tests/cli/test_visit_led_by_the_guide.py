"""Visits with the guide itself: as a program of its own, interrupted, killed; nothing here."""

import json
import os
import re
import signal
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from docs.tutorials.blocks import BLOCK, answers_of
from docs.tutorials.refresh import commands
from helmwright.cli import main
from helmwright.cli.visit_leaving import LeftError
from helmwright.cli.visit_screen import PUT_ON_WORDS
from helmwright.cli.visit_talk import TerminalTalk
from helmwright.cli.visiting import END
from tests.cli.few_draws import FIVE_MEASURES, with_few_draws
from tests.cli.visit_ways import names, of_kind, written

ROOT = Path(__file__).parents[2]
FILE = "visits/12-avocet-brookside.jsonl"


@dataclass
class Fitter:
    """Answers whatever is asked: some checks badly as long as the first build is on.

    Attributes
    ----------
    asked, typed
        The questions, and what was answered to each.
    """

    bad: dict[str, str]
    always: bool = False
    asked: list[str] = field(default_factory=list)
    typed: list[str] = field(default_factory=list)

    def ask(self, words: str) -> str:
        """The answer to a question; whoever is asked without end leaves."""
        if len(self.asked) > 200:
            raise LeftError
        self.asked.append(words)
        self.typed.append(self._answer(words))
        return self.typed[-1]

    def _answer(self, words: str) -> str:
        title, _, letters = words.partition(" (")
        is_first = self.asked.count(PUT_ON_WORDS) <= 1
        if title in self.bad and (is_first or self.always):
            return self.bad[title]
        if words in (PUT_ON_WORDS, END):
            return ""
        known = {"f, s, w)": "s", "l, s, t)": "s", "l, r, h)": "r", "inches, l, r, h)": "1"}
        return known.get(letters, "all good")


def fitted(patch: pytest.MonkeyPatch, fitter: Fitter, command: list[str]) -> Result:
    """The command with this fitter at the screen."""
    with patch.context() as here:
        here.setattr(TerminalTalk, "ask", fitter.ask)
        return CliRunner().invoke(main, command)


@pytest.fixture
def roster(tmp_path: Path) -> Path:
    path = tmp_path / "roster.csv"
    path.write_text(FIVE_MEASURES, "utf-8")
    return path


def words(roster: Path) -> list[str]:
    """The command."""
    return ["visit", "avocet", "--brief", "--roster", str(roster)]


def visit(roster: Path, *typed: str, options: tuple[str, ...] = ()) -> Result:
    given = "".join(f"{line}\n" for line in typed)
    return CliRunner().invoke(main, [*words(roster), *options], input=given)


def begun(roster: Path) -> "subprocess.Popen[str]":
    """The command as a program of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "tests.cli.few_draws", *words(roster)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env=os.environ | {"PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}", "COLUMNS": "80"},
    )


def type_and_wait(program: "subprocess.Popen[str]", typed: list[str], until: str) -> str:
    """Types lines and reads what is printed, up to and with a question."""
    assert program.stdin is not None
    assert program.stdout is not None
    program.stdin.write("".join(f"{line}\n" for line in typed))
    program.stdin.flush()
    seen = ""
    while not seen.endswith(until):
        char = program.stdout.read(1)
        assert char, seen
        seen += char
    return seen


@pytest.mark.skipif(sys.platform == "win32", reason="signals as POSIX has them")
def test_interrupted_and_killed_a_visit_comes_to_the_same_events(roster, tmp_path, monkeypatch):
    with_few_draws(monkeypatch)
    fitter = Fitter({"Nape pad": "loose"})
    assert fitted(monkeypatch, fitter, words(roster)).exit_code == 0
    undisturbed = written(tmp_path, FILE)
    (tmp_path / FILE).unlink()
    typed, asked = fitter.typed, fitter.asked
    front, right = (asked.index(f"{title} (l, s, t)") for title in ("Front pad", "Right side"))
    first = begun(roster)
    type_and_wait(first, typed[:front], "Front pad (l, s, t): ")
    first.send_signal(signal.SIGINT)
    said, _ = first.communicate()
    assert first.returncode == 1
    assert "paused; kept in" in said
    second = begun(roster)
    seen = type_and_wait(second, typed[front:right], "Right side (l, s, t): ")
    assert "Going on with the visit of Avocet Brookside; 8 answers are kept." in seen
    second.kill()
    second.communicate()
    assert visit(roster, *typed[right:]).exit_code == 0
    disturbed = [e for e in written(tmp_path, FILE) if e["event"] not in ("paused", "resumed")]
    assert disturbed == undisturbed
    assert names(disturbed)[:2] == ["started", "proposed"]
    assert len(of_kind(disturbed, "proposed")) >= 2


def test_what_is_loose_is_changed_and_the_rest_left_until_it_is_accepted(
    roster, tmp_path, monkeypatch
):
    with_few_draws(monkeypatch)
    done = fitted(monkeypatch, Fitter({"Nape pad": "loose"}), words(roster))
    told = " ".join(done.stdout.split())
    assert done.exit_code == 0, done.output
    assert "Accepted: Avocet Brookside" in told
    first, second = (each["build"]["pads"] for each in of_kind(written(tmp_path, FILE), "put on"))
    assert second["nape"]["mm"] > first["nape"]["mm"]
    assert re.search(r"Why: .*[Nn]ape", told)
    assert re.search(
        r"Start, from cup to snap: .* \(Where eyes, nose and chin lie is assumed", told
    )


def test_with_one_helmet_and_no_pads_a_visit_ends_with_what_would_fit(
    roster, tmp_path, monkeypatch
):
    with_few_draws(monkeypatch)
    shelf = tmp_path / "shelf.csv"
    shelf.write_text(STOCK, "utf-8")
    loose = dict.fromkeys(("Front pad", "Jaw pad, left", "Jaw pad, right"), "l")
    fitter = Fitter(loose, always=True)
    done = fitted(monkeypatch, fitter, [*words(roster), "--stock", str(shelf)])
    end = written(tmp_path, FILE)[-1]
    assert end["event"] == "no build", done.output
    assert done.exit_code == 1
    told = " ".join(done.stdout.split())
    assert "No build here fits Avocet Brookside" in told
    assert re.search(r"With .+ \(not here\) it fits \d+ of 100", told)


STOCK = "place,size,count\nshell,3,1\nnape,1 in,1\n" + "".join(
    f"{place},7/8 in,1\n" for place in ("crown", "front", "rear", "left", "right", "jaw left")
)


@pytest.mark.slow
def test_the_page_about_fitting_can_be_followed(tmp_path, monkeypatch):
    """Every session of the page: its commands run and ask what the page shows, to the same end."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    page = (ROOT / "docs/how-to/fit-a-player.md").read_text("utf-8")
    for block in BLOCK.finditer(page):
        if block["kind"] == "file":
            (tmp_path / block["what"]).write_text(block["body"], "utf-8")
            continue
        ((_, *words),) = commands(block[0])
        typed = "".join(f"{line}\n" for line in answers_of(block))
        printed = CliRunner().invoke(main, words, input=typed).stdout
        assert asked(printed) == asked(block["body"])


def asked(printed: str) -> list[str]:
    """The questions of a session with what was typed, and how it ended."""
    ends = ("Accepted: ", "No build here fits ", "Stopped ", "Going on with ")
    lines = [line.rstrip() for line in printed.splitlines()]
    return [line for line in lines if re.search(r"\): ?\S*$", line) or line.startswith(ends)]


def test_every_line_of_a_file_is_json_with_the_time_in_utc(roster, tmp_path, monkeypatch):
    with_few_draws(monkeypatch)
    visit(roster, "g", "pause")
    lines = (tmp_path / FILE).read_text("utf-8").splitlines()
    assert len(lines) == 4
    assert all(json.loads(line)["at"].endswith("+00:00") for line in lines)


def test_how_a_guard_is_changed_is_told_when_it_comes_to_that(roster, monkeypatch):
    with_few_draws(monkeypatch)
    long = [word for word in words(roster) if word != "--brief"]
    fitter = Fitter({"Marks and labels": "all good except guard on off"})
    fitter.bad |= {"Face guard on": "on", "Back of the head covered": "all good except nose 1 1/2"}
    fitter.bad |= {"Nose to face guard": "how"}
    told = " ".join(fitted(monkeypatch, fitter, long).stdout.split())
    first, again = told.split("Nose to face guard, once more", 1)
    steps = "How to change the face guard (the maker's own steps)"
    assert first.count(steps) == 1
    before_how, after_how = again.split("or type how.", 1)
    assert steps not in before_how
    assert steps in after_how
    assert "If the face guard was changed, look again before going on: all parts there" in again
    assert "brow height with the strap fastened" in again
    assert "hot spots" not in first.lower()


def test_what_no_part_can_cure_is_not_called_a_lack_of_parts(roster, monkeypatch):
    with_few_draws(monkeypatch)
    done = visit(roster, "all good except marks missing", "missing")
    told = " ".join(done.stdout.split())
    assert "Not accepted: Avocet Brookside" in told
    assert "Marks and labels could not be put right" in told
    assert "No build here fits" not in told
