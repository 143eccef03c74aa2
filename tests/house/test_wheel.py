"""The package that others install holds all it needs, its data too."""

import os
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

from tests.house.tree import ROOT


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The program out of a wheel, in an environment that holds nothing but that wheel.

    What the program depends on is reached through a path file that points at this test run's own
    packages, so that no network is needed. A path named in such a file is not searched for more
    path files, so the editable installation of the project itself stays out of sight.
    """
    place = tmp_path_factory.mktemp("wheel")
    do(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", place, ROOT)
    (wheel,) = place.glob("*.whl")
    bare = place / "bare"
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
def test_the_wheel_brings_the_program(program: Path, tmp_path: Path):
    assert "roster" in do(program, "--help", folder=tmp_path)
