"""What a release is made of agrees with itself."""

import re
import tomllib

import pytest

import helmwright
from tests.house.tree import ROOT

PIN = re.compile(r"^([\w.-]+)==([^\s;\\]+)(?: *; *([^\\\n]+?))? *\\$", re.MULTILINE)
REQUIREMENTS = ROOT / "requirements"


def pins(name: str) -> set[tuple[str, str]]:
    """Name and version of everything that a requirements file pins."""
    text = (REQUIREMENTS / name).read_text(encoding="utf-8")
    return {(name, version) for name, version, _where in PIN.findall(text)}


def names_asked_for(name: str) -> set[str]:
    """What an .in file asks for by name."""
    lines = (REQUIREMENTS / name).read_text(encoding="utf-8").splitlines()
    return {re.split(r"[<>=!~ ;\[]", line)[0] for line in lines if line and line[0] not in "#-"}


def test_the_change_log_begins_with_this_version():
    log = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    newest = re.search(r"^## (\S+)", log, re.MULTILINE)
    assert newest is not None
    assert newest[1] == helmwright.__version__


@pytest.mark.parametrize("name", ["run.txt", "test.txt"])
def test_every_pin_carries_hashes(name: str):
    text = (REQUIREMENTS / name).read_text(encoding="utf-8")
    for entry in re.split(r"\n(?=\w)", text.strip()):
        assert re.search(r"--hash=sha256:[0-9a-f]{64}", entry), entry.splitlines()[0]


def test_the_tests_run_on_the_very_packages_that_the_program_runs_on():
    assert pins("run.txt") <= pins("test.txt")


def test_what_the_package_asks_for_is_what_is_pinned():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {re.split(r"[<>=!~ \[]", line)[0] for line in project["dependencies"]}
    assert asked == names_asked_for("run.in")
    assert asked <= {name for name, _version in pins("run.txt")}
