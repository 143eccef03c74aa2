"""Runs commands in this process, with the stand-in for the fit room where it is asked for."""

from collections.abc import Callable

import pytest
from click.testing import CliRunner, Result

from helmwright.cli import main
from tests.roster.stand_in import stand_in


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Runs `helmwright` with these words; proposals come from the stand-in."""
    for proposer in ("own_proposer", "close_proposer"):
        monkeypatch.setattr(f"helmwright.roster.answer.{proposer}", lambda: stand_in)
    monkeypatch.setenv("COLUMNS", "80")

    def running(*words: str, given: bytes | None = None) -> Result:
        return CliRunner().invoke(main, list(words), input=given, prog_name="helmwright")

    return running
