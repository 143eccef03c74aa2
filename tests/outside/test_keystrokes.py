"""The count of a person's time at the keyboard against the worked example of the model's paper."""

import pytest

from docs.tutorials.effort import Effort
from helmwright.sources import Figure
from helmwright.sources.records import CARD_1980

SKILLED_KEY = Figure(0.20, "s", CARD_1980, note="Average skilled typist, 55 words a minute.")

REPLACE_BY_KEYBOARD = Effort(keys=15, pauses=4)
"""Next line, substitute, five letters, Return, five letters, Return, Return."""

REPLACE_BY_MOUSE = Effort(keys=8, pauses=2, hands=2, points=1)
"""To the mouse, point, select, back to the keyboard, replace, five letters, Escape."""


@pytest.mark.outside("card_1980")
@pytest.mark.parametrize(
    ("effort", "seconds"), [(REPLACE_BY_KEYBOARD, 8.4), (REPLACE_BY_MOUSE, 6.2)]
)
def test_replacing_a_word_takes_as_long_as_the_paper_works_out(effort, seconds):
    assert 60.0 * effort.minutes(SKILLED_KEY) == pytest.approx(seconds, abs=0.05)
