"""What is played first, on how many heads, and which state of the program played it."""

import ast
import shutil
from collections import Counter
from pathlib import Path

import pytest
from click.testing import CliRunner

import helmwright
from helmwright.anatomy import Sex
from helmwright.cli.app import main
from helmwright.study import fingerprint as printing
from helmwright.study.dials import TURNED
from helmwright.study.plan import BESIDE, HEADLINE, LADDER, SEED, WOMEN, Part, Plan, Sizes
from helmwright.study.policies import OURS, POLICIES, RUNGS
from helmwright.study.results import Results
from helmwright.study.task import USUAL

PACKAGE = Path(helmwright.__file__).parent


def nothing_played() -> Results:
    return Results(None, SEED, "summaries", "abc")


def test_tables_that_matter_most_are_played_first():
    tasks = Plan(heads=Sizes(6, 4, 3)).tasks(nothing_played())
    shown = [(task.player.sex, task.plays[0][1][0], len(task.plays)) for task in tasks]
    assert shown == [
        *[(Sex.MALE, HEADLINE[0], 1)] * 6,
        *[(Sex.MALE, BESIDE[0], 1)] * 4,
        *[(Sex.FEMALE, WOMEN[0], 1)] * 4,
        *[(Sex.MALE, LADDER[0], 1)] * 4,
        *[(Sex.MALE, WOMEN[0], len(TURNED))] * 3,
    ]


def test_no_visit_is_played_twice_and_none_is_left_out():
    played = Counter(
        (task.player, truth, key)
        for task in Plan(heads=Sizes(5, 4, 3)).tasks(nothing_played())
        for truth, keys in task.plays
        for key in keys
    )
    assert set(played.values()) == {1}
    for part, truth, keys in (
        (Part.HEADLINE, USUAL, HEADLINE),
        (Part.RUNGS, USUAL, LADDER),
        (Part.SENSITIVITIES, USUAL, WOMEN),
        *((Part.SENSITIVITIES, truth, WOMEN) for truth in TURNED),
    ):
        for player in Plan().players(Sizes(5, 4, 3).of(part)):
            assert {(player, truth, key) for key in keys} <= played.keys()


def test_a_part_alone_is_whole():
    tasks = Plan(Part.SENSITIVITIES, Sizes.alike(1)).tasks(nothing_played())
    assert [truth for truth, _ in tasks[0].plays] == [USUAL, *TURNED]


def test_two_heights_stand_against_each_other_among_the_rungs():
    measures = {rung: set(measured) for rung, (_, measured) in RUNGS.items()}
    assert measures["tragion"] - measures["caliper"] == {"tragion_to_top"}
    assert measures["height"] - measures["caliper"] == {"brow_to_top"}
    assert list(RUNGS) == ["tape", "caliper", "tragion", "height", "five"]
    assert {"tragion none", "tragion surprise", OURS} <= POLICIES.keys()


@pytest.mark.parametrize("sizes", [(0, 1, 1), (1, 1, -2)])
def test_a_part_without_heads_is_refused(sizes):
    with pytest.raises(ValueError, match="a head at least"):
        Sizes(*sizes)


@pytest.mark.parametrize("heads", ["0", "6,4", "6,4,0", "many", "6,4,3,2", "1.5", "-3", ""])
def test_sizes_that_cannot_be_read_are_refused_with_what_would_be_right(heads):
    said = CliRunner().invoke(main, ["study", "--heads", heads])
    assert said.exit_code == 2
    assert "such as 600,150,60, would be right" in said.stderr


@pytest.mark.parametrize(("heads", "kept"), [("1", "1,1,1"), ("2, 1,1", "2,1,1")])
def test_one_run_has_its_own_sizes_and_says_them(heads, kept):
    asked = ["study", "--part", "rungs", "--heads", heads, "--policies", "one none"]
    said = CliRunner().invoke(main, asked)
    assert said.exit_code == 0, said.stderr
    assert f"--heads {kept} --policies 'one none' --seed 2027" in said.stdout


def _copied(package: Path) -> Path:
    for room in (*printing.ROOMS, "cli"):
        shutil.copytree(
            PACKAGE / room, package / room, ignore=shutil.ignore_patterns("__pycache__")
        )
    return package


def test_a_change_in_what_decides_is_another_program_and_one_in_what_tells_is_not(tmp_path):
    package = _copied(tmp_path)
    before = printing.digest_of(package, "sheet")
    assert printing.digest_of(package, "another sheet") != before
    for name, counts in (
        ("study/tables.py", False),
        ("visit/lines_told.py", False),
        ("cli/study_command.py", False),
        ("catalogue/models/wren.toml", False),
        ("study/truth.py", True),
        ("study/rules.py", True),
        ("study/ours.py", True),
        ("fit/kernels/contact.py", True),
        ("belief/__init__.py", True),
        ("visit/protocol.toml", True),
        ("anatomy/surveys/niosh_2003.toml", True),
    ):
        path, text = package / name, (package / name).read_text(encoding="utf-8")
        path.write_text(text + "\n# changed\n", encoding="utf-8")
        assert (printing.digest_of(package, "sheet") != before) is counts, name
        path.write_text(text, encoding="utf-8", newline="\r\n")
        assert printing.digest_of(package, "sheet") == before, name


def test_nothing_that_decides_imports_what_only_tells():
    """But for the rooms' own fronts, which list everything."""
    telling = {
        f"helmwright.{room}.{module}"
        for room, modules in printing.TELLING.items()
        for module in modules
        if module != "__init__"
    }
    files = [path for path in printing.deciding(PACKAGE) if path.suffix == ".py"]
    assert len(files) > 100
    for path in files:
        if path.name != "__init__.py":
            tree = ast.parse(path.read_text(encoding="utf-8"))
            imported = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
            assert not imported & telling, path


def test_what_is_said_to_tell_is_there():
    for room, modules in printing.TELLING.items():
        for module in modules:
            assert (PACKAGE / room / f"{module}.py").is_file(), module
