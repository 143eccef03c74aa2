"""The whole way with the real search: a file in, a build for every player out."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from helmwright.cli import main
from tests.reports.schema_check import faults

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "docs" / "reference" / "answer.schema.json").read_text("utf-8")
)
TEAM = (
    "No,Name,tape,tape 2,length,breadth,brow to top,jaw\n"
    "7,Teal,22 5/8,22 1/2,7 7/8,6 1/8,4,5 3/8\n"
    "8,Coot,221/8,,,,,\n"
    "9,Wren,23 3/4,,,,,\n"
)
TEAL = (
    *("--tape", "22 5/8", "--tape", "22 1/2", "--length", "7 7/8", "--breadth", "6 1/8"),
    *("--brow-to-top", "4", "--jaw-width", "5 3/8"),
)


@pytest.fixture(scope="module")
def document(tmp_path_factory):
    path = tmp_path_factory.mktemp("team") / "team.csv"
    path.write_text(TEAM, encoding="utf-8")
    done = CliRunner().invoke(main, ["roster", str(path), "--json"])
    assert done.exit_code == 1
    return json.loads(done.stdout)


def test_real_answers_keep_the_documented_schema(document):
    assert faults(document, SCHEMA, SCHEMA) == []


def test_the_bad_row_is_named_and_the_others_are_answered(document):
    assert [player["name"] for player in document["players"]] == ["Teal", "Wren"]
    assert [problem["row"] for problem in document["problems"]] == [3]


def test_five_measures_give_a_better_chance_than_a_tape_alone(document):
    teal, wren = (p["proposal"]["ranked"][0]["truly_fits"]["value"] for p in document["players"])
    assert teal > wren + 0.1


def test_a_fitter_finds_right_less_often_than_it_truly_fits(document):
    for player in document["players"]:
        best = player["proposal"]["ranked"][0]
        assert best["found_right"]["value"] < best["truly_fits"]["value"]


def same_but_for_drivers(mine, among):
    """The best builds alike; of the others a roster does not count what drives their chances."""
    assert mine["ranked"][0] == among["ranked"][0]
    bare = []
    for proposal in (mine, among):
        copy = json.loads(json.dumps(proposal))
        for build in (*copy["ranked"], copy["delivered"]):
            build.pop("drivers")
        bare.append(copy)
    assert bare[0] == bare[1]
    assert all(build["drivers"] for build in (*mine["ranked"], mine["delivered"]))


def test_one_player_alone_gets_the_build_that_the_roster_gave_him(document):
    done = CliRunner().invoke(main, ["build", *TEAL, "--json"])
    assert done.exit_code == 0
    (alone,) = json.loads(done.stdout)["players"]
    same_but_for_drivers(alone["proposal"], document["players"][0]["proposal"])


def test_a_guard_that_the_sheet_does_not_allow_is_refused_and_the_builds_are_the_same(document):
    asked = ("--position", "QB", "--glasses", "yes", "--guard", "closed, four bars")
    done = CliRunner().invoke(main, ["build", *TEAL, *asked, "--json"])
    assert done.exit_code == 0
    (alone,) = json.loads(done.stdout)["players"]
    same_but_for_drivers(alone["proposal"], document["players"][0]["proposal"])
    assert alone["face"]["asked_for_refused"]
    assert [each["name"] for each in alone["face"]["guards"]] == ["open, three bars"]
    assert document["players"][0]["face"]["asked_for"] == ""
