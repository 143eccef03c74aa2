"""Where the project's files are, and which of them are committed."""

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def committed_files() -> list[Path]:
    """The files that git follows; skips the test outside a git checkout."""
    git = shutil.which("git")
    if git is None or not (ROOT / ".git").exists():
        pytest.skip("needs a git checkout, to tell committed files from others")
    listing = subprocess.run(
        [git, "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, encoding="utf-8"
    )
    paths = (ROOT / name for name in listing.stdout.split("\0") if name)
    return [path for path in paths if path.is_file()]
