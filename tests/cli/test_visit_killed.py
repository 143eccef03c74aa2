"""A visit that is killed at any point goes on as if nothing had happened."""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.cli.visit_ways import BEFORE, ROSTER, names, written

ROOT = Path(__file__).parents[2]
SAID_BY_A_PERSON = {"answered", "put on", "measured", "undone", "stopped", "symptom reported"}

TYPED = [
    *BEFORE, "",
    "s", "1 5/8", "l", "all good", "1 5/8",  # brow high twice, front loose
    "", "s", "1 1/8", "s", "undo", "s", "all good",
    "all good", "all good", "all good",
]  # fmt: skip
"""A visit of two try-ons with a second look and a change of mind."""

LETS_END = -1

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs fork and kill -9")

Play = Callable[[list[str], str, int | None], int]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("killed")
    (made / "roster.csv").write_text(ROSTER, "utf-8")
    return made


@pytest.fixture(scope="module")
def play(folder: Path) -> Iterator[Play]:
    """Plays typed lines in a process of its own, killed after so many milliseconds."""
    with subprocess.Popen(
        [sys.executable, "-m", "tests.cli.visit_nursery", str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}", "COLUMNS": "80"},
    ) as nursery:
        typing, answers = nursery.stdin, nursery.stdout
        assert typing is not None
        assert answers is not None

        def playing(typed: list[str], keep: str, kill_after_ms: int | None = LETS_END) -> int:
            asked = {"typed": typed, "keep": keep, "kill_after_ms": kill_after_ms}
            typing.write(json.dumps(asked) + "\n")
            typing.flush()
            return int(json.loads(answers.readline()))

        yield playing
        typing.close()


@pytest.fixture(scope="module")
def undisturbed(play: Play, folder: Path) -> list[dict[str, object]]:
    assert play(TYPED, "undisturbed", LETS_END) == 0
    return events(folder, "undisturbed")


def events(folder: Path, keep: str) -> list[dict[str, object]]:
    """What the whole lines of the file hold."""
    path = folder / keep / "12-avocet-brookside.jsonl"
    path.write_bytes(path.read_bytes()[: path.read_bytes().rfind(b"\n") + 1])
    return written(folder, f"{keep}/{path.name}")


def test_the_undisturbed_visit_has_a_second_look_two_try_ons_and_is_accepted(undisturbed):
    happened = names(undisturbed)
    assert happened[-1] == "accepted"
    assert happened.count("put on") == 2
    assert happened.count("look asked") == happened.count("undone") == 1
    assert len(SAID_BY_A_PERSON.intersection(happened)) == 3


@pytest.fixture(scope="module")
def heard(play: Play, folder: Path) -> list[int]:
    """How much a person has said after each line, in a visit that is killed after every one."""
    found = []
    for line in TYPED[:-1]:
        killed = play([line], "every", None)
        assert os.WIFSIGNALED(killed)
        assert os.WTERMSIG(killed) == signal.SIGKILL
        found.append(count_said(events(folder, "every")))
    return found


def count_said(happened: list[dict[str, object]]) -> int:
    return sum(each["event"] in SAID_BY_A_PERSON for each in happened)


def test_killed_after_every_single_answer_it_goes_on_with_the_next(
    play, folder, undisturbed, heard
):
    assert heard == sorted(set(heard))
    assert events(folder, "every") == undisturbed[: len(events(folder, "every"))]
    assert play(TYPED[-1:], "every", LETS_END) == 0
    assert events(folder, "every") == undisturbed


def test_killed_in_the_middle_of_anything_it_goes_on_with_what_is_not_kept(
    play, folder, undisturbed, heard
):
    path, kills = folder / "within" / "12-avocet-brookside.jsonl", 0
    for milliseconds in (0, 40, 80, 100, 110, 120, 130, 140, 150, 160, 180, LETS_END):
        happened = events(folder, "within") if path.exists() else []
        if names(happened)[-1:] == ["accepted"]:
            break
        kills += os.WIFSIGNALED(play(rest(happened, heard), "within", milliseconds))
    assert kills > 0
    assert events(folder, "within") == undisturbed


def rest(happened: list[dict[str, object]], heard: list[int]) -> list[str]:
    """The lines whose answers are not kept yet."""
    done = count_said(happened)
    return TYPED[sum(each <= done for each in heard) :]


@pytest.mark.parametrize("line", [1, 2, 9, 12, 23])
def test_killed_in_the_middle_of_a_line_it_goes_on_from_the_line_before(
    play, folder, undisturbed, heard, line
):
    whole = (folder / "undisturbed" / "12-avocet-brookside.jsonl").read_bytes()
    lines = whole.splitlines(keepends=True)
    torn = b"".join(lines[: line - 1]) + lines[line - 1][: len(lines[line - 1]) // 2]
    (folder / f"torn-{line}").mkdir()
    (folder / f"torn-{line}" / "12-avocet-brookside.jsonl").write_bytes(torn)
    assert play(rest(undisturbed[: line - 1], heard), f"torn-{line}", LETS_END) == 0
    assert events(folder, f"torn-{line}") == undisturbed
