"""The order by minutes for the chance, against every order there is."""

from itertools import permutations
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pytest

from helmwright.fit import Build
from helmwright.fit.next_build_tally import Tally

DRAWS = 240


def expected_minutes(order, owner: np.ndarray, took: dict[Build, float]) -> float:
    """Mean over the draws of what is spent until the draw's own build was tried."""
    ends = np.cumsum([took[build] for build in order])
    by_owner = {build.pads[0]: end for build, end in zip(order, ends, strict=True)}
    return float(np.mean([by_owner[int(one)] for one in owner]))


@pytest.mark.outside("smith_1956")
@pytest.mark.parametrize("seed", range(6))
def test_trying_in_the_order_told_spends_the_least_of_all_orders(seed):
    """Six builds, on each draw just one of them right: 720 orders are counted one by one.

    Smith's rule on disjoint chances; the chances and minutes are drawn, the order is the program's.
    """
    rng = np.random.default_rng(seed)
    builds = [Build(1, (number,)) for number in range(6)]
    owner = rng.choice(6, size=DRAWS, p=rng.dirichlet(np.ones(6)))
    took = {build: float(rng.uniform(3.0, 9.0)) for build in builds}

    def rest(build: Build, first: int, last: int) -> Any:
        return SimpleNamespace(right=owner[first:last] == build.pads[0])

    class Drawn:
        felt_bias = np.zeros(2 * DRAWS)

        def __len__(self) -> int:
            return 2 * DRAWS

        def trial(self, _: int) -> Any:
            return SimpleNamespace(rest=rest)

    class Certain:
        def found_right(self, _trial, _build, rested, _bias):
            return rested.right.astype(float)

    tally = Tally(cast("Any", Drawn()), cast("Any", Certain()))
    told = tally.select(builds, took.__getitem__)
    least = min(expected_minutes(order, owner, took) for order in permutations(builds))
    assert sorted(told) == builds
    assert expected_minutes(told, owner, took) == pytest.approx(least, rel=1e-12)
