"""The way from nothing: start.py, as far as it can be tried without installing anything."""

import importlib.util
import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import start
from tests.house.tree import ROOT


def test_what_it_says_at_the_end_keeps_to_eighty_columns():
    told = (start.NEXT_STEPS, start.ROOM_STEPS)
    said = [line for each in told for line in each.format(program=".venv/bin/h").splitlines()]
    assert max(len(line) for line in (*said, *start.USAGE.splitlines())) <= 80


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own for start.py, whose path has a space in it."""
    here = tmp_path / "a place"
    (here / "requirements").mkdir(parents=True)
    (here / "requirements" / "run.txt").write_text("numpy==1\n", encoding="utf-8")
    (here / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    venv = here / ".venv"
    monkeypatch.setattr(start, "HERE", here)
    monkeypatch.setattr(start, "VENV", venv)
    monkeypatch.setattr(start, "PYTHON", venv / "python")
    monkeypatch.setattr(start, "UNFINISHED", venv / "unfinished")
    return here


@pytest.fixture
def done(place: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What start.py would have done to the place, in order, without doing it."""
    steps: list[str] = []

    def make_environment() -> None:
        steps.append("make")
        (place / ".venv").mkdir(exist_ok=True)
        start.PYTHON.touch()

    monkeypatch.setattr(start, "make_environment", make_environment)
    monkeypatch.setattr(start, "install", lambda *arguments: steps.append(arguments[-1]))
    monkeypatch.setattr(start, "sound", lambda _venv, python: python.exists())
    return steps


INSTALLED = ["requirements/run.txt", "."]


def test_from_nothing_it_makes_the_environment_and_installs(done):
    start.prepare("run")
    assert done == ["make", *INSTALLED]


def test_a_second_run_with_nothing_changed_does_nothing(done):
    start.prepare("run")
    done.clear()
    start.prepare("run")
    assert done == []


def test_changed_pins_are_installed_into_the_environment_that_is_there(place, done):
    start.prepare("run")
    done.clear()
    (place / "requirements" / "run.txt").write_text("numpy==2\n", encoding="utf-8")
    start.prepare("run")
    assert done == INSTALLED


def test_an_interrupted_installation_is_begun_from_nothing(done, monkeypatch):
    def interrupted(*_arguments: str) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(start, "install", interrupted)
        with pytest.raises(KeyboardInterrupt):
            start.prepare("run")
    done.clear()
    start.prepare("run")
    assert done == ["make", *INSTALLED]


def test_a_refused_installation_leaves_what_was_there_in_use(place, done, monkeypatch):
    def refused(*_arguments: str) -> None:
        raise start.Trouble("no network")

    start.prepare("run")
    (place / "requirements" / "test.txt").write_text("pytest==1\n", encoding="utf-8")
    with monkeypatch.context() as patch:
        patch.setattr(start, "install", refused)
        with pytest.raises(start.Trouble, match="no network"):
            start.prepare("test")
    done.clear()
    start.prepare("run")
    assert done == []


def test_an_environment_whose_python_is_gone_is_made_anew(done):
    start.prepare("run")
    done.clear()
    start.PYTHON.unlink()
    start.prepare("run")
    assert done == ["make", *INSTALLED]


def test_an_environment_is_sound_only_where_it_was_made_and_with_pip(tmp_path: Path):
    made, moved = tmp_path / "made", tmp_path / "moved"
    python = Path("Scripts/python.exe" if os.name == "nt" else "bin/python")
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", made], check=True)
    assert not start.sound(made, made / python)
    subprocess.run([made / python, "-m", "ensurepip"], check=True, capture_output=True)
    assert start.sound(made, made / python)
    made.rename(moved)
    assert not start.sound(moved, moved / python)
    assert not start.sound(tmp_path / "nowhere", tmp_path / "nowhere" / python)


def test_the_stamp_follows_the_pins_the_project_file_the_python_and_the_place(place, monkeypatch):
    stamps = {start.fingerprint("run")}
    (place / "requirements" / "run.txt").write_text("numpy==2\n", encoding="utf-8")
    stamps.add(start.fingerprint("run"))
    (place / "pyproject.toml").write_text("[project]\nname = 'x'\n", encoding="utf-8")
    stamps.add(start.fingerprint("run"))
    monkeypatch.setattr(start, "VENV", place / "elsewhere")
    stamps.add(start.fingerprint("run"))
    monkeypatch.setattr(sys, "version", "3.99.0")
    stamps.add(start.fingerprint("run"))
    assert len(stamps) == 5


def test_an_old_python_is_refused_with_what_would_be_right():
    with pytest.raises(start.Trouble, match=r"Python 3\.9\.18; Helmwright needs 3\.11 or later"):
        start.refuse_unfit_python((3, 9, 18))


def test_a_missing_ensurepip_names_the_package_that_brings_it(monkeypatch):
    real = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == "ensurepip" else real(name)
    )
    with pytest.raises(start.Trouble, match=r"'ensurepip'.*python3-venv"):
        start.make_environment()


@pytest.mark.parametrize(
    ("complaint", "advice"),
    [
        ("WARNING: Retrying after connection broken by 'NewConnectionError(...)'", "network"),
        ("ERROR: No matching distribution found for numba==0", "not ready-made for Python"),
        ("ERROR: No space left on device", "pip's own words"),
    ],
)
def test_a_failed_installation_says_what_can_be_done(complaint, advice):
    assert advice in start.reason_of(complaint)


@pytest.mark.parametrize("words", [["dance"], ["check", "twice"], ["demo"], ["docs", "now"]])
def test_unknown_words_get_the_usage_and_status_2(words, capsys):
    assert start.main(words) == 2
    assert start.USAGE in capsys.readouterr().err


def test_help_is_usage_and_names_every_job(capsys):
    assert start.main(["--help"]) == 0
    usage = capsys.readouterr().out
    assert all(
        re.search(rf"^  {job}\b", usage, re.MULTILINE) for job in start.JOBS if job != "demo"
    )


def test_trouble_is_told_without_a_traceback(monkeypatch, capsys):
    def in_trouble() -> None:
        raise start.Trouble("the roof leaks")

    monkeypatch.setattr(start, "refuse_unfit_python", in_trouble)
    assert start.main([]) == 1
    assert capsys.readouterr().err == "\nstart.py: the roof leaks\n"


def test_the_status_of_what_it_runs_comes_through(monkeypatch):
    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "refuse_unfit_python", lambda: None)
    monkeypatch.setattr(start, "run", lambda _command, **_settings: 5)
    assert [start.main([job]) for job in ("test", "check", "docs", "bench")] == [5, 5, 5, 5]


def test_a_room_is_tested_on_both_databases_and_one_summary_says_both(monkeypatch, capsys):
    ran = []

    def run(command, **settings) -> int:
        ran.append((command[1:], settings))
        return 1 if settings else 0

    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "run", run)
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    assert start.test([]) == 1
    assert ran == [
        (["-m", "pytest"], {}),
        (["-m", "pytest", *start.ON_BOTH], {"HELMWRIGHT_TEST_ON": "postgresql"}),
    ]
    closing = capsys.readouterr().out.splitlines()[-3:]
    assert closing == [
        "== All tests, on SQLite: passed.",
        "== All that keep a room, on PostgreSQL: not passed (status 1); the lines above say what.",
        f"== Left out: what needs a browser (tests/browser). Add one with: {start.ADD_CHROMIUM}",
    ]
    ran.clear()
    monkeypatch.setattr(shutil, "which", lambda name: name)
    start.test([])
    assert "Left out" not in capsys.readouterr().out


def test_tests_that_are_asked_for_run_alone(monkeypatch):
    ran = []

    def run(command) -> int:
        ran.append(command[3:])
        return 0

    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "run", run)
    assert start.test(["tests/units", "-k", "fraction"]) == 0
    assert ran == [["tests/units", "-k", "fraction"]]


@pytest.mark.parametrize(("status", "comes_through"), [(0, 0), (130, 0), (2, 2)])
def test_a_room_that_is_stopped_is_no_failure_and_one_that_does_not_open_is(
    monkeypatch, capsys, status, comes_through
):
    monkeypatch.setattr(start, "refuse_unfit_python", lambda: None)
    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "serve", lambda _command: status)
    assert start.main([]) == comes_through
    assert ("What to do next" in capsys.readouterr().out) == (comes_through == 0)


@pytest.mark.skipif(os.name == "nt", reason="signals are told otherwise there")
def test_a_server_is_let_finish_when_somebody_presses_ctrl_c():
    slow = (
        "import signal, sys, time\n"
        "def end(*_):\n    time.sleep(0.7)\n    print('finished', flush=True)\n    sys.exit(7)\n"
        "signal.signal(signal.SIGINT, end)\nprint('ready', flush=True)\ntime.sleep(60)"
    )
    body = f"import sys, start; sys.exit(start.serve([sys.executable, '-c', {slow!r}]))"
    with subprocess.Popen(
        [sys.executable, "-c", body],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as run:
        assert run.stdout is not None
        assert run.stdout.readline() == "ready\n"
        os.killpg(run.pid, signal.SIGINT)  # as a terminal does: to all of them
        assert run.stdout.read() == "finished\n"
        assert run.wait(timeout=20) == 7


@pytest.mark.parametrize(("status", "comes_through"), [(0, 0), (1, 0), (2, 2), (130, 130)])
def test_a_wrong_row_in_the_demo_is_no_failure_and_the_rest_is(
    monkeypatch, capsys, status, comes_through
):
    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "run", lambda _command: status)
    assert start.roster([]) == comes_through
    assert ("What to do next" in capsys.readouterr().out) == (comes_through == 0)


def test_every_check_runs_even_where_one_fails(monkeypatch, capsys):
    statuses = iter([0, 3, 0, 4, 0])
    monkeypatch.setattr(start, "prepare", lambda _kind: None)
    monkeypatch.setattr(start, "run", lambda _command: next(statuses))
    assert start.check([]) == 3
    assert next(statuses, "none left") == "none left"
    assert "Not right yet: lint, borders between the rooms." in capsys.readouterr().out


def test_it_needs_nothing_but_the_standard_library():
    command = [sys.executable, "-I", "-S", str(ROOT / "start.py"), "--help"]
    answer = subprocess.run(command, capture_output=True, text=True, check=True, env=bare())
    assert answer.stdout == start.USAGE


def bare() -> dict[str, str]:
    """As little environment as a process can do with; Windows needs its root folder named."""
    return {name: os.environ[name] for name in ("PATH", "SYSTEMROOT") if name in os.environ}
