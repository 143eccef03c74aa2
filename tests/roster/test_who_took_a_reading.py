"""Each reading goes to who took it, so that nobody's repeats are somebody else's."""

import pytest

from helmwright.roster import Player, read_roster


def first(text: str) -> Player:
    return read_roster(text).players[0]


def test_who_measured_goes_with_the_first_reading_of_each_measure_and_the_second():
    text = "Name,tape,tape 2,length,measured by,measured by 2\nTeal,22 5/8,22 3/4,7 3/4,Ada,Bo\n"
    assert [reading.by for reading in first(text).readings] == ["Ada", "Bo", "Ada"]
    one = first("Name,tape,tape 2,measured by\nTeal,22 5/8,22 3/4,Ada\n")
    assert [reading.by for reading in one.readings] == ["Ada", "Ada"]


@pytest.mark.parametrize(
    ("cells", "by"),
    [
        ("22 5/8,22 3/4,,Ada,", ["Ada", "Ada"]),
        ("22 5/8,22 3/4,,,Bo", ["", "Bo"]),
        (",22 3/4,,Ada,Bo", ["Bo"]),
        ("22 5/8,,23,Ada,Bo", ["Ada", "Ada"]),
    ],
)
def test_nobody_is_given_a_reading_that_somebody_else_took(cells, by):
    text = f"Name,tape,tape 2,light tape,measured by,measured by 2\nTeal,{cells}\n"
    assert [reading.by for reading in first(text).readings] == by
