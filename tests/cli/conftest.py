"""Runs commands in this process, with the stand-in for the fit room where it is asked for."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from helmwright.cli import main
from tests.cli.visit_ways import ROSTER
from tests.cli.visit_ways import stand_in as stand_in_for_the_guide
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


@pytest.fixture
def play(
    run: Callable[..., Result], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Result]:
    """Plays with these lines typed; the roster and its visits are in an empty folder."""
    stand_in_for_the_guide(monkeypatch)
    (tmp_path / "roster.csv").write_text(ROSTER, "utf-8")

    def playing(*typed: str, who: str = "avocet", options: tuple[str, ...] = ()) -> Result:
        lines = "".join(f"{line}\n" for line in typed).encode()
        words = ("visit", who, "--roster", str(tmp_path / "roster.csv"), *options)
        return run(*words, given=lines)

    return playing
