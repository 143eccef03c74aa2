"""Output goes where it can go: never over a file that is read, and a bad place is told at once."""

import csv
import io
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from helmwright.cli.stop import tell
from helmwright.roster import read_roster

GOOD = "No,Name,tape (in),length (in),breadth (in)\n7,Teal,22 5/8,7 7/8,6 1/8\n"
FULL = Path("/dev/full")


@pytest.fixture
def roster_file(tmp_path):
    path = tmp_path / "team.csv"
    path.write_text(GOOD, encoding="utf-8")
    return path


@pytest.fixture
def no_work(monkeypatch):
    """Nobody may have waited for an answer before the place was refused."""

    def waited(*_args, **_keywords):
        raise AssertionError("work was done before --out was looked at")

    monkeypatch.setattr("helmwright.roster.answer_roster", waited)


@pytest.mark.usefixtures("no_work")
@pytest.mark.parametrize("form", [(), ("--csv",), ("--json",)])
def test_the_roster_that_is_read_is_never_written_over(run, roster_file, monkeypatch, form):
    monkeypatch.chdir(roster_file.parent)
    for name in (str(roster_file), "team.csv", f"../{roster_file.parent.name}/team.csv"):
        done = run("roster", "team.csv", *form, "--out", name)
        assert done.exit_code == 2
        assert "is a file that is read" in done.stderr
    assert roster_file.read_text(encoding="utf-8") == GOOD


@pytest.mark.usefixtures("no_work")
@pytest.mark.parametrize("words", [("roster", "--demo"), ("build", "--tape", "22")])
def test_the_sheet_that_is_read_is_never_written_over(run, tmp_path, words):
    sheet = tmp_path / "mine.toml"
    sheet.write_text("kept", encoding="utf-8")
    done = run(*words, "--sheet", str(sheet), "--out", str(sheet))
    assert done.exit_code == 2
    assert "is a file that is read" in done.stderr
    assert sheet.read_text(encoding="utf-8") == "kept"


def test_a_link_to_the_roster_is_the_roster(run, roster_file, tmp_path):
    link = tmp_path / "link.csv"
    try:
        link.symlink_to(roster_file)
    except OSError:
        pytest.skip("needs a system that lets anybody make links")
    assert run("roster", str(roster_file), "--out", str(link)).exit_code == 2
    assert roster_file.read_text(encoding="utf-8") == GOOD


def test_another_file_is_replaced_and_that_is_told(run, roster_file, tmp_path):
    out = tmp_path / "page.txt"
    first = run("roster", str(roster_file), "--out", str(out))
    assert "replaced" not in first.stderr
    again = run("roster", str(roster_file), "--out", str(out))
    assert f"{out} was there and has been replaced" in again.stderr
    assert again.exit_code == 0


@pytest.mark.usefixtures("no_work")
def test_a_bad_place_is_told_before_anybody_waits(run, roster_file, tmp_path):
    for place, why in ((tmp_path / "no" / "page.txt", "there is no folder"), (tmp_path, "folder")):
        for words in (("roster", str(roster_file)), ("build", "--tape", "22"), ("head",)):
            done = run(*words, "--out", str(place))
            assert done.exit_code == 2
            assert f"cannot write {place}" in done.stderr
            assert why in done.stderr


@pytest.mark.usefixtures("no_work")
def test_a_folder_that_lets_nobody_write_is_told_before_anybody_waits(
    run, roster_file, tmp_path, monkeypatch
):
    monkeypatch.setattr("helmwright.cli.writing.os.access", lambda *_args: False)
    done = run("roster", str(roster_file), "--out", str(tmp_path / "page.txt"))
    assert done.exit_code == 2
    assert "permission denied" in done.stderr


def program(*words: str, **settings: object) -> "subprocess.Popen[bytes]":
    return subprocess.Popen([sys.executable, "-m", "helmwright", *words], **settings)  # type: ignore[call-overload]


@pytest.mark.skipif(not FULL.is_char_device(), reason="needs a device that is always full")
@pytest.mark.parametrize(
    "words", [("sheet", "list"), ("head", "--tape", "22"), ("--help",), ("head", "--help")]
)
def test_a_disk_that_is_full_is_one_line_and_no_defect(words):
    with FULL.open("w") as full, program(*words, stdout=full, stderr=subprocess.PIPE) as running:
        _, complaint = running.communicate()
    assert running.returncode == 2
    assert complaint.decode() == "helmwright: cannot write the output: no space left on device\n"


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_stopping_it_while_it_loads_is_one_line_and_no_traceback():
    # An interruption at the first import of the command line, as Ctrl-C at once would be.
    early = (
        "import builtins, os, signal, runpy, sys\n"
        "own = builtins.__import__\n"
        "def interrupted(name, *rest, **more):\n"
        "    if name == 'click':\n"
        "        os.kill(os.getpid(), signal.SIGINT)\n"
        "    return own(name, *rest, **more)\n"
        "builtins.__import__ = interrupted\n"
        "sys.argv = ['helmwright', 'sheet', 'list']\n"
        "runpy.run_module('helmwright', run_name='__main__')\n"
    )
    done = subprocess.run([sys.executable, "-c", early], capture_output=True, check=False)
    assert done.returncode == 128 + signal.SIGINT
    assert done.stderr == b"helmwright: stopped\n"


def test_stopping_a_command_outside_its_work_is_one_line_too(run, monkeypatch):
    def interrupted(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr("helmwright.catalogue.packaged_models", interrupted)
    done = run("sheet", "list")
    assert done.exit_code == 130
    assert done.stderr == "helmwright: stopped\n"


def test_a_template_takes_a_row_below_its_headings_without_a_remark(run, tmp_path):
    out = tmp_path / "mine.csv"
    assert run("roster", "--template", "--out", str(out)).exit_code == 0
    text = out.read_text(encoding="utf-8")
    assert text == run("roster", "--template").stdout
    (headings,) = csv.reader(io.StringIO(text))
    cells = {"Player": "Teal Pond", "Height": "6 ft 2 in", "Tape (in)": "22 5/8"}
    row = ",".join(cells.get(heading, "") for heading in headings)
    read = read_roster(f"{text}{row}\n")
    assert not read.problems
    assert not read.notices
    (player,) = read.players
    assert (player.name, len(player.readings)) == ("Teal Pond", 1)
    assert player.stature_mm == pytest.approx(74 * 25.4)


def test_one_row_is_one_row_on_page_and_screen(run, roster_file, tmp_path):
    done = run("roster", str(roster_file), "--out", str(tmp_path / "page.txt"))
    assert done.stderr == "helmwright: 1 of 1 row answered\n"


def test_what_is_told_on_a_terminal_keeps_to_its_width(monkeypatch, capsys):
    said = "cannot write a-place-of-some-length/page.txt: permission denied; give another file"
    tell(said)
    assert capsys.readouterr().err == f"helmwright: {said}\n"
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    monkeypatch.setenv("COLUMNS", "60")
    tell(said)
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) > 1
    assert max(map(len, lines)) <= 60
