"""What most tests of the records begin with."""

import pytest

from tests.records.fitting import Fitting
from tests.records.room import Room


@pytest.fixture
def room() -> Room:
    return Room()


@pytest.fixture
def fitting(room: Room) -> Fitting:
    """A visit begun in the room."""
    return Fitting(room)
