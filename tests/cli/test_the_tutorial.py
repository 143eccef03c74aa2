"""The tutorial can be followed: every command runs, on the files as the page gives them."""

import re

from docs.tutorials.blocks import BLOCK
from docs.tutorials.refresh import HERE, commands, refreshed

PAGE = (HERE / "first-roster.md").read_text(encoding="utf-8")
FILES = [block for block in BLOCK.finditer(PAGE) if block["kind"] == "file"]


def test_every_command_of_the_tutorial_runs_as_the_page_says(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    statuses = []
    for block in BLOCK.finditer(PAGE):
        if block["kind"] == "file":
            (tmp_path / block["what"]).write_text(block["body"], encoding="utf-8")
        else:
            found = commands(block[0])
            statuses += [run(*words[1:]).exit_code for words in found]
    assert statuses == [1, 0, 0, 0, 0, 0]
    assert (tmp_path / "my-team-builds.txt").exists()


def test_the_tutorials_first_run_names_the_row_and_the_doubtful_readings(run, tmp_path):
    path = tmp_path / "my-team.csv"
    path.write_text(FILES[0]["body"], encoding="utf-8")
    page = " ".join(run("roster", str(path)).stdout.split())
    problem = 'Row 5 (Dunlin Weirside), Tape (in) "241/8": misses the space'
    notice = 'Row 4 (Curlew Fordham), Tape (in) and Tape 2 (in) "22 7/8 and 23 3/8"'
    for words in (problem, notice):
        assert words in page
        assert words in " ".join(PAGE.split())


def test_every_command_of_the_tutorial_is_shown_with_output_or_writes_a_file():
    bodies = [block["body"] for block in BLOCK.finditer(PAGE) if block["kind"] == "run"]
    assert all(len(body.splitlines()) > 1 for body in bodies)
    assert re.search(r"--out my-team-builds\.csv\nhelmwright: 5 of 5 rows answered\n", PAGE)


def test_refreshing_runs_the_command_and_cuts_its_output(tmp_path):
    page = "<!-- run: 1 -->\n```console\n$ helmwright --help\nold\n```\n"
    fresh = refreshed(page, tmp_path)
    assert fresh.startswith("<!-- run: 1 -->\n```console\n$ helmwright --help\nUsage: helmwright")
    assert fresh.endswith("\n...\n```\n")
    assert "old" not in fresh
