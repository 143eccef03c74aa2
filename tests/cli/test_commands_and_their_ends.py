"""What the commands print, where, and with which exit status."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from helmwright import __version__
from helmwright.cli.writing import write_whole
from tests.roster.stand_in import stand_in

GOOD = "No,Name,tape (in),length (in),breadth (in)\n7,Teal,22 5/8,7 7/8,6 1/8\n"
READINGS = ("--tape", "22 5/8", "--length", "7 7/8", "--breadth", "6 1/8")


@pytest.fixture
def roster_file(tmp_path):
    path = tmp_path / "team.csv"
    path.write_text(GOOD, encoding="utf-8")
    return path


def test_every_row_answered_ends_with_zero(run, roster_file):
    done = run("roster", str(roster_file))
    assert done.exit_code == 0
    assert "1 of 1 row answered." in done.stdout
    assert not done.stderr


def test_some_rows_not_answered_end_with_one_and_the_rest_is_answered(run, roster_file):
    roster_file.write_text(GOOD + "8,Coot,221/8,,\n", encoding="utf-8")
    done = run("roster", str(roster_file))
    assert done.exit_code == 1
    assert "Teal" in done.stdout
    assert 'Row 3 (Coot), tape (in) "221/8"' in done.stdout


def test_no_row_answered_ends_with_two(run, roster_file):
    roster_file.write_text("Name,tape\nCoot,221/8\n", encoding="utf-8")
    assert run("roster", str(roster_file)).exit_code == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("roster",), "give a roster FILE, or --demo"),
        (("roster", "nowhere.csv"), "cannot read nowhere.csv: no such file"),
        (("roster", "--demo", "x.csv"), "give a roster FILE or --demo, not both"),
        (("roster", "--template", "--demo"), "--template prints an empty roster"),
        (("roster", "--demo", "--model", "heron"), "no model sheet 'heron' in the package"),
        (("roster", "--demo", "--model", "a", "--sheet", "b"), "exclude each other"),
        (("roster", "--demo", "--json", "--csv"), "exclude each other"),
        (("roster", "--demo", "--sheet", "nowhere.toml"), "cannot read nowhere.toml"),
        (("build",), "no reading given"),
        (("head", "--tape", "221/8"), '--tape "221/8": misses the space'),
        (("head", "--tape", "57.5"), "57.5 cm?"),
        (("build", "--tape", "22", "--now", "crown 9"), "there is no crown pad of 9 in"),
        (("build", "--tape", "22", "--now", "ear 1"), "'ear' is no place in the shell"),
        (("head", "--length", "6 1/8", "--breadth", "7 7/8"), "look swapped"),
        (("sheet", "show", "heron"), "no model sheet 'heron'"),
        (("sheet", "check", "nowhere.toml"), "cannot read nowhere.toml"),
    ],
)
def test_what_cannot_run_ends_with_two_and_one_line_that_helps(run, words, said):
    done = run(*words)
    assert done.exit_code == 2
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert not done.stdout


def test_the_demonstration_needs_no_file_and_shows_one_row_to_put_right(run):
    done = run("roster", "--demo")
    assert done.exit_code == 1
    assert "Wren Siltbank" in done.stdout


def test_a_roster_may_come_from_standard_input(run):
    assert run("roster", "-", given=GOOD.encode()).exit_code == 0


def test_json_goes_to_a_file_and_the_problems_to_the_screen(run, roster_file, tmp_path):
    roster_file.write_text(GOOD + "8,Coot,221/8,,\n", encoding="utf-8")
    out = tmp_path / "answer.json"
    done = run("roster", str(roster_file), "--json", "--out", str(out))
    assert done.exit_code == 1
    assert not done.stdout
    assert "not answered: Row 3 (Coot)" in done.stderr
    assert json.loads(out.read_text(encoding="utf-8"))["answered"] == 1


def test_a_table_in_a_file_starts_with_the_mark_that_spreadsheets_want(run, roster_file, tmp_path):
    out = tmp_path / "builds.csv"
    assert run("roster", str(roster_file), "--csv", "--out", str(out)).exit_code == 0
    assert out.read_bytes().startswith(b"\xef\xbb\xbfrow,")


def test_csv_has_a_line_for_each_row(run, roster_file):
    done = run("roster", str(roster_file), "--csv")
    assert [line.split(",")[4] for line in done.stdout.splitlines()] == [
        "outcome",
        "answered",
        "caution",
    ]


def test_the_same_seed_gives_the_same_page_and_another_seed_another(run, roster_file):
    roster_file.write_text("Name,tape\nTeal,22 7/8\n", encoding="utf-8")
    pages = [
        run("roster", str(roster_file), "--seed", seed, "--json").stdout for seed in ("5", "5", "6")
    ]
    assert pages[0] == pages[1] != pages[2]


def test_bare_numbers_take_the_unit_that_is_asked_for(run, roster_file):
    roster_file.write_text("Name,tape\nTeal,57.5\n", encoding="utf-8")
    assert run("roster", str(roster_file)).exit_code == 2
    assert run("roster", str(roster_file), "--units", "cm").exit_code == 0


def test_an_interruption_leaves_no_file_and_says_so(run, roster_file, tmp_path, monkeypatch):
    def interrupted(*_args, **_keywords):
        raise KeyboardInterrupt

    monkeypatch.setattr("helmwright.roster.answer_roster", interrupted)
    done = run("roster", str(roster_file), "--out", str(tmp_path / "page.txt"))
    assert done.exit_code == 130
    assert done.stderr.strip() == "helmwright: stopped; nothing was written"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["team.csv"]


def test_a_write_that_breaks_off_leaves_the_old_file_whole(tmp_path, monkeypatch):
    path = tmp_path / "page.txt"
    path.write_text("old", encoding="utf-8")

    def breaks_off(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", breaks_off)
    with pytest.raises(KeyboardInterrupt):
        write_whole(path, b"new")
    assert path.read_text(encoding="utf-8") == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["page.txt"]


@pytest.mark.skipif(not Path(os.devnull).is_char_device(), reason="needs a device file")
def test_a_device_is_written_to_and_not_replaced():
    write_whole(Path(os.devnull), b"gone")
    assert Path(os.devnull).is_char_device()


def test_head_prints_inches_first_and_names_the_odd_reading(run):
    done = run("head", "--tape", "24 1/2", "--length", "7 1/4", "--breadth", "5 5/8")
    assert done.exit_code == 0
    assert "tape around the head" in done.stdout
    assert "Look at these readings" in done.stdout


def test_a_reading_may_be_given_twice(run):
    once = run("head", "--tape", "22 5/8", "--json").stdout
    twice = run("head", "--tape", "22 5/8", "--tape", "22 5/8", "--json").stdout

    def width(text):
        (head,) = (player["head"] for player in json.loads(text)["players"])
        (row,) = (row for row in head if row["measure"] == "tape_circumference")
        return row["high_mm"] - row["low_mm"]

    assert width(twice) < width(once)


def test_build_draws_explains_and_ranks(run):
    done = run("build", *READINGS, "--name", "Teal", "--sex", "M")
    assert done.exit_code == 0
    for words in ("from the right side", "Why this build", "Builds, best first", "Measure next"):
        assert words in done.stdout


def test_what_is_in_the_helmet_now_may_be_said(run):
    done = run("build", *READINGS, "--now", "front 1 1/8, jaw 3/4", "--json")
    (player,) = json.loads(done.stdout)["players"]
    assert player["proposal"]["now"]["pads"][1].startswith("1 1/8")
    assert player["proposal"]["ranked"][0]["changes"] == ["front", "jaw left", "jaw right"]


def test_the_share_of_males_moves_a_head_of_unstated_sex_and_no_other(run, roster_file):
    def jaw(*words):
        (player,) = json.loads(run("head", "--tape", "22", *words, "--json").stdout)["players"]
        return next(m["mean_mm"] for m in player["head"] if m["measure"] == "bigonial_breadth")

    assert jaw("--male-share", "0") < jaw("--male-share", "0.5") < jaw("--male-share", "1")
    assert jaw("--male-share", "0") == pytest.approx(jaw("--sex", "F"))
    assert jaw("--sex", "M", "--male-share", "0") == jaw("--sex", "M")
    assert run("roster", str(roster_file), "--male-share", "0.2").exit_code == 0
    assert run("build", *READINGS, "--male-share", "1.2").exit_code == 2


def test_a_defect_over_one_player_ends_with_one_and_the_rest_is_answered(
    run, roster_file, monkeypatch
):
    def failing(estimate, sheet, **keywords):
        if len(estimate.read) == 1:
            raise RuntimeError("the contact has no rest")
        return stand_in(estimate, sheet, **keywords)

    for proposer in ("own_proposer", "close_proposer"):
        monkeypatch.setattr(f"helmwright.roster.answer.{proposer}", lambda: failing)
    roster_file.write_text(GOOD + "8,Coot,23,,\n", encoding="utf-8")
    done = run("roster", str(roster_file))
    assert done.exit_code == 1
    assert "Teal" in done.stdout
    assert "Row 3 (Coot): a defect of the program" in " ".join(done.stdout.split())
    alone = run("build", "--tape", "23")
    assert alone.exit_code == 2
    assert "the contact has no rest" in alone.stderr


def test_build_and_head_answer_as_documents_too(run):
    assert json.loads(run("build", *READINGS, "--json").stdout)["players"][0]["proposal"]
    assert json.loads(run("head", *READINGS, "--json").stdout)["players"][0]["proposal"] is None


def test_sheets_are_listed_shown_and_checked(run, tmp_path):
    assert "ouzel" in run("sheet", "list").stdout
    text = run("sheet", "show", "ouzel").stdout
    copy = tmp_path / "mine.toml"
    copy.write_text(text, encoding="utf-8")
    assert "the sheet can be used" in run("sheet", "check", str(copy), "--quick").stdout
    copy.write_text(text.replace("number = 1", "number = -1", 1), encoding="utf-8")
    broken = run("sheet", "check", str(copy))
    assert broken.exit_code == 2
    assert "line " in broken.stderr


def test_the_version_is_the_packages_own(run):
    assert run("--version").stdout.strip() == f"helmwright, version {__version__}"


@pytest.mark.parametrize("words", [(), ("roster",), ("build",), ("head",), ("sheet", "check")])
def test_help_names_every_option_and_tells_what_it_is_for(run, words):
    done = run(*words, "--help")
    assert done.exit_code == 0
    assert done.stdout.startswith("Usage: helmwright")


def test_help_comes_without_loading_the_kernels():
    asked = (
        "import sys; import helmwright.cli; print('numba' in sys.modules, 'numpy' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True, env=os.environ
    )
    assert done.stdout.split() == ["False", "False"]


def redirected(*words: str, **settings: str) -> subprocess.CompletedProcess[bytes]:
    """The program with its output in a pipe, on a console that writes no accents."""
    plain = {k: v for k, v in os.environ.items() if k != "PYTHONIOENCODING"}
    narrow = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    return subprocess.run(
        [sys.executable, "-m", "helmwright", *words],
        capture_output=True,
        check=False,
        env={**plain, **narrow, **settings},
    )


@pytest.mark.parametrize("form", ["--json", "--csv"])
def test_no_name_is_lost_on_the_way_into_a_file(roster_file, form):
    roster_file.write_text("Name,tape\nÅsa,221/8\n", encoding="utf-8")
    done = redirected("roster", str(roster_file), form)
    assert "Åsa" in done.stdout.decode("utf-8")


def test_output_to_a_pipe_is_plain_text_on_any_encoding(roster_file):
    roster_file.write_text("Name,tape\nÅsa,221/8\n", encoding="utf-8")
    done = redirected("roster", str(roster_file), PYTHONIOENCODING="ascii", FORCE_COLOR="1")
    assert done.returncode == 2
    assert b"?sa" in done.stdout
    assert b"\x1b" not in done.stdout + done.stderr


def test_a_defect_in_a_command_ends_with_two_and_shows_where_it_is(run, roster_file, monkeypatch):
    def broken(*_args, **_kwargs):
        raise ZeroDivisionError("a defect planted by the test")

    monkeypatch.setattr("helmwright.roster.read_roster_file", broken)
    done = run("roster", str(roster_file))
    assert done.exit_code == 2
    assert "Traceback" not in done.stdout
