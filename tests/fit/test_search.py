"""Which build comes first: the best, or the plainest of those that cannot be told from it."""

import numpy as np

from helmwright.fit.race import Runner
from helmwright.fit.search import ranked
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, moved


def shares(*counts: int, heads: int = 1000) -> list[np.ndarray]:
    """Verdicts right on the first so many heads: nested, so that differences have little noise."""
    return [np.arange(heads) < count for count in counts]


def test_a_build_that_changes_less_wins_where_the_gain_is_not_worth_the_pads():
    start = delivered()
    swapped = moved(start, front=1, rear=-1)
    best, plain = shares(520, 505)
    assert (
        ranked([Runner(swapped, best), Runner(start, plain)], (MIDDLE,), start, OUZEL)[0] == start
    )


def test_a_build_that_fits_clearly_more_often_wins_whatever_it_changes():
    start = delivered()
    swapped = moved(start, front=1, rear=-1)
    best, plain = shares(600, 505)
    order = ranked([Runner(swapped, best), Runner(start, plain)], (MIDDLE,), start, OUZEL)
    assert order == [swapped, start]


def test_a_build_stands_for_its_mirror_image():
    start = delivered()
    one, two = moved(start, left=1, jaw_right=-1), moved(start, right=1, jaw_left=-1)
    best, other = shares(600, 598)
    found = ranked([Runner(one, best), Runner(two, other)], (MIDDLE,), start, OUZEL)
    assert len(found) == 1
    assert found[0] in (one, two)
    turned = ranked([Runner(two, best), Runner(one, other)], (MIDDLE,), start, OUZEL)
    assert turned == found


def test_a_helmet_whose_pads_have_sides_now_keeps_the_sides_apart():
    start = moved(delivered(), left=1)
    one, two = moved(start, right=-1), moved(start, left=-1, jaw_left=1)
    best, other = shares(600, 400)
    found = ranked([Runner(one, best), Runner(two, other)], (MIDDLE,), start, OUZEL)
    assert found == [one, two]
