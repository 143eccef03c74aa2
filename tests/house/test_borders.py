"""The rooms import each other only downward, and the core knows no framework."""

import subprocess
import sys

from tests.house.tree import ROOT

LINT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())"


def test_outside_knows_inside_and_never_back():
    verdict = subprocess.run(
        [sys.executable, "-c", LINT], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert verdict.returncode == 0, verdict.stdout + verdict.stderr
    assert "0 broken" in verdict.stdout
