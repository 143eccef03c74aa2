"""What lies around the best builds: neighbors in every shell, and a few that cover most heads."""

import numpy as np

from helmwright.fit import Build, Effort
from helmwright.fit.near import Near, near
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.race import Runner, Track
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, men, trial_of

EFFORT = Effort(climb=16, near=32, race=32)


def builds(count: int) -> list[Build]:
    return [Build(MIDDLE, (pad,) * 8) for pad in range(count)]


def test_a_cover_takes_the_build_that_fits_most_of_those_still_left():
    right = np.array([[1, 1, 1, 0, 0, 0], [1, 1, 0, 1, 0, 0], [0, 0, 0, 1, 1, 0]], dtype=np.uint8)
    one, _, three = builds(3)
    assert Near(builds(3), right).covering(3) == [one, three]


def test_a_cover_is_no_larger_than_asked_and_empty_where_nothing_fits():
    right = np.eye(4, dtype=np.uint8)
    assert len(Near(builds(4), right).covering(2)) == 2
    assert Near(builds(4), np.zeros_like(right)).covering(2) == []


def test_neighbors_are_looked_at_in_every_shell_that_was_tried_the_best_first():
    heads = men(40)
    track = Track({number: trial_of(heads, shell=number) for number in (MIDDLE, MIDDLE + 1)})
    best = delivered()
    field = [Runner(best, np.ones(32, dtype=bool))]
    around = near(track, field, best, OUZEL, EFFORT)
    found, right = around.builds, around.right
    assert found[0] == best
    assert right.shape == (len(found), EFFORT.near)
    assert {build.shell for build in found} == {MIDDLE, MIDDLE + 1}
    assert len(set(found)) == len(found)
    assert all(is_allowed(OUZEL, build.pads) for build in found)
