"""What lies around the best builds: neighbors in every shell, and a few that cover most heads."""

import numpy as np

from helmwright.fit import Build, Effort
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.race import Runner, Track
from helmwright.fit.search import covering_builds, near_verdicts, ranked
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, men, moved, trial_of

EFFORT = Effort(climb=16, near=32, race=32)


def builds(count: int) -> list[Build]:
    return [Build(MIDDLE, (pad,) * 8) for pad in range(count)]


def test_a_cover_takes_the_build_that_fits_most_of_those_still_left():
    right = np.array([[1, 1, 1, 0, 0, 0], [1, 1, 0, 1, 0, 0], [0, 0, 0, 1, 1, 0]], dtype=np.uint8)
    one, _, three = builds(3)
    assert covering_builds(builds(3), right, 3) == [one, three]


def test_a_cover_is_no_larger_than_asked_and_empty_where_nothing_fits():
    right = np.eye(4, dtype=np.uint8)
    assert len(covering_builds(builds(4), right, 2)) == 2
    assert covering_builds(builds(4), np.zeros_like(right), 2) == []


def test_neighbors_are_looked_at_in_every_shell_that_was_tried_the_best_first():
    heads = men(40)
    track = Track({number: trial_of(heads, shell=number) for number in (MIDDLE, MIDDLE + 1)})
    best = delivered()
    field = [Runner(best, np.ones(32, dtype=bool))]
    found, right = near_verdicts(track, field, best, OUZEL, EFFORT)
    assert found[0] == best
    assert right.shape == (len(found), EFFORT.near)
    assert {build.shell for build in found} == {MIDDLE, MIDDLE + 1}
    assert len(set(found)) == len(found)
    assert all(is_allowed(OUZEL, build.pads) for build in found)


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
