"""Heads that several tests of the study share."""

import pytest

from helmwright.anatomy import Sex
from helmwright.study.players import Met, Player, meet


@pytest.fixture(scope="session")
def met() -> Met:
    return meet(Player(Sex.MALE, "niosh_2003", 3, seed=11))
