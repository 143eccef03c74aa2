"""The package that others install holds all it needs, its data too."""

import json
import os
import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest

from helmwright.catalogue import ZONES
from tests.house.tree import ROOT, committed_files


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("wheel")
    do(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", place, ROOT)
    (wheel,) = place.glob("*.whl")
    return wheel


@pytest.fixture(scope="module")
def program(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The program out of the wheel, in an environment that holds nothing else.

    What the program depends on is reached through a path file that points at this test run's own
    packages, so that no network is needed. A path named in such a file is not searched for more
    path files, so the editable installation of the project itself stays out of sight.
    """
    bare = tmp_path_factory.mktemp("bare")
    do(sys.executable, "-m", "venv", "--without-pip", bare)
    python = scripts_of(bare) / ("python.exe" if os.name == "nt" else "python")
    do(sys.executable, "-m", "pip", "--python", python, "install", "--no-deps", "--no-index", wheel)
    ask = "import sysconfig; print(sysconfig.get_path('purelib'))"
    packages = Path(do(python, "-c", ask).strip())
    path_file = packages / "dependencies.pth"
    path_file.write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return scripts_of(bare) / ("helmwright.exe" if os.name == "nt" else "helmwright")


def scripts_of(environment: Path) -> Path:
    return environment / ("Scripts" if os.name == "nt" else "bin")


def do(*command: str | Path, folder: Path | None = None) -> str:
    """Run a command without this run's import path; fail with its own words."""
    clean = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        command, cwd=folder, env=clean, capture_output=True, check=False, encoding="utf-8"
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.mark.slow
def test_the_wheel_holds_every_file_of_the_package_and_no_other(wheel: Path):
    source = ROOT / "src"
    files = [path for path in committed_files() if path.is_relative_to(source / "helmwright")]
    with zipfile.ZipFile(wheel) as archive:
        packed = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert packed == {path.relative_to(source).as_posix() for path in files}


@pytest.mark.slow
def test_the_wheel_brings_the_program(program: Path, tmp_path: Path):
    answer = do(program, "--help", folder=tmp_path)
    assert all(command in answer for command in ("roster", "build", "head", "sheet"))


@pytest.mark.slow
def test_one_player_is_answered_far_from_the_source(program: Path, tmp_path: Path):
    readings = ("--tape", "22 5/8", "--length", "7 3/4", "--breadth", "6 1/8")
    answer = json.loads(do(program, "build", *readings, "--json", folder=tmp_path))
    (player,) = answer["players"]
    assert len(player["proposal"]["ranked"][0]["zones"]) == len(ZONES)
