"""Heads side by side against the same heads one after another."""

import dataclasses
from collections.abc import Callable
from pathlib import Path
from types import ModuleType, SimpleNamespace

import numpy as np
import pytest

from helmwright.fit import Build
from helmwright.fit.contact import SLIDE_IN, START_MM, Trial
from helmwright.fit.kernels import batch, contact
from helmwright.fit.kernels.lane_layout import HINGES, LANES
from helmwright.fit.kernels.lanes import rest_on_heads_in_lanes
from helmwright.fit.law import HINGES as HINGES_OF_LAWS
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import LAWS, MIDDLE, OUZEL, delivered, men, nothing_unknown, trial_of

POSE_MM, POSE_RAD = 1e-4, 1e-6


def exact(module: ModuleType, **given: object) -> dict[str, object]:
    """A kernel module's own text compiled anew, with another tolerance and more steps."""
    text = Path(str(module.__file__)).read_text(encoding="utf-8").replace("cache=True, ", "")
    for old, new in (("TOLERANCE_N = 1e-2", "TOLERANCE_N = 1e-9"), ("STEPS = 60", "STEPS = 400")):
        text = text.replace(old, new)
    text = text.replace("from helmwright.fit.kernels.contact import PHASES, rest\n", "")
    names: dict[str, object] = {"__name__": f"exact_{module.__name__}", **given}
    exec(compile(text, str(module.__file__), "exec"), names)  # noqa: S102
    return names


@pytest.fixture(scope="module")
def one_by_one() -> Callable[..., int]:
    """The kernel that takes head after head, to a billionth of a newton."""
    inner = exact(contact)
    assert inner["FORCE_TOLERANCE_N"] == 1e-9
    outer = exact(batch, PHASES=inner["PHASES"], rest=inner["rest"])
    return outer["rest_on_heads"]  # type: ignore[return-value]


def rest_with(kernel, trial: Trial, build: Build, first: int = 0, last: int | None = None):
    """Poses, strokes, forces and how many did not settle, by either kernel."""
    count, seat = len(trial), trial.seating
    poses = np.zeros((count, 4, 6))
    poses[:, 0, 2] = START_MM
    stroke, force = np.full((2, count, seat.zones.size), np.nan)
    gaps, normals, lifts = trial._bare_under(build.pads[0], len(trial))
    unknown, pads = trial.unknowns, trial.pads(build)
    unsettled = kernel(
        first, count if last is None else last, seat.points, seat.areas_cm2, seat.zones,
        seat.drag_n_per_mm, gaps, normals, lifts, unknown.zone_mm, unknown.foam,
        unknown.friction, unknown.pull, *pads, SLIDE_IN.value, *trial.loads, poses, stroke, force,
    )  # fmt: skip
    return SimpleNamespace(poses=poses, stroke=stroke, force=force, unsettled=unsettled)


def random_trial(count: int, seed: int, *, shell: int = MIDDLE) -> Trial:
    unknowns = draw_unknowns(OUZEL, count, np.random.default_rng(seed))
    return trial_of(men(count, seed=seed), shell=shell, unknowns=unknowns)


def random_build(seed: int, *, shell: int = MIDDLE) -> Build:
    rng = np.random.default_rng(seed)
    return Build(shell, tuple(int(rng.integers(len(p.thicknesses_mm))) for p in OUZEL.pads))


def verdicts(trial: Trial, build: Build, found) -> np.ndarray:
    pose, everyone = found.poses[:, -1], slice(0, len(trial))
    brow = trial._brow(build, pose, everyone)
    return trial.judge(build, found.stroke, found.force, pose, brow, everyone).right


def apart(one, other) -> tuple[np.ndarray, np.ndarray]:
    """Largest difference of each head's four poses [mm], [rad]."""
    off = np.abs(one.poses - other.poses)
    return off[..., :3].max(axis=(1, 2)), off[..., 3:].max(axis=(1, 2))


@pytest.mark.parametrize("seed", range(8))
def test_heads_in_lanes_rest_where_heads_one_by_one_rest(seed: int, one_by_one):
    trial, build = random_trial(100 + seed, seed), random_build(seed)
    lanes = rest_with(rest_on_heads_in_lanes, trial, build)
    alone = rest_with(one_by_one, trial, build)
    assert lanes.unsettled == 0
    off_mm, off_rad = apart(lanes, alone)
    assert np.mean((off_mm < POSE_MM) & (off_rad < POSE_RAD)) >= 0.99
    # A rare head about to slip takes either kernel hundreds of steps to the last digit.
    assert off_mm.max() < 10 * POSE_MM
    assert off_rad.max() < 100 * POSE_RAD
    np.testing.assert_allclose(lanes.stroke, alone.stroke, rtol=0, atol=1e-3)
    np.testing.assert_allclose(lanes.force, alone.force, rtol=0, atol=1e-2)
    assert np.array_equal(verdicts(trial, build, lanes), verdicts(trial, build, alone))


@pytest.mark.parametrize("friction", [0.1, 0.25, 0.45, 0.6])
def test_lanes_agree_from_slick_to_rough_heads(friction: float, one_by_one):
    trial = trial_of(men(33), unknowns=nothing_unknown(33, friction=friction))
    lanes = rest_with(rest_on_heads_in_lanes, trial, delivered())
    alone = rest_with(one_by_one, trial, delivered())
    off_mm, off_rad = apart(lanes, alone)
    assert off_mm.max() < 10 * POSE_MM
    assert off_rad.max() < 10 * POSE_RAD


def test_a_helmet_that_touches_little_rests_in_the_same_place(one_by_one):
    heads = men(20, low=520.0, high=545.0)
    trial = trial_of(heads, shell=len(OUZEL.shells), unknowns=nothing_unknown(len(heads)))
    build = Build(len(OUZEL.shells), (0,) * 8)
    lanes = rest_with(rest_on_heads_in_lanes, trial, build)
    alone = rest_with(one_by_one, trial, build)
    assert np.mean(lanes.force == 0.0) > 0.3
    off_mm, off_rad = apart(lanes, alone)
    assert off_mm.max() < 10 * POSE_MM
    assert off_rad.max() < 10 * POSE_RAD


@pytest.mark.parametrize("count", [1, LANES - 1, LANES, LANES + 1, 3 * LANES + 5])
def test_a_head_rests_the_same_in_any_company(count: int):
    trial, build = random_trial(3 * LANES + 5, 3), delivered()
    everyone = rest_with(rest_on_heads_in_lanes, trial, build)
    some = rest_with(rest_on_heads_in_lanes, trial, build, 0, count)
    np.testing.assert_array_equal(some.poses[:count], everyone.poses[:count])
    np.testing.assert_array_equal(some.force[:count], everyone.force[:count])


def test_only_the_heads_asked_for_are_touched():
    trial = random_trial(12, 4)
    some = rest_with(rest_on_heads_in_lanes, trial, delivered(), 3, 8)
    assert np.isfinite(some.stroke[3:8]).all()
    assert np.isnan(some.stroke[:3]).all()
    assert np.isnan(some.stroke[8:]).all()


def test_no_heads_take_no_rest():
    trial = random_trial(4, 5)
    none = rest_with(rest_on_heads_in_lanes, trial, delivered(), 2, 2)
    assert none.unsettled == 0
    assert np.isnan(none.force).all()


def test_a_trial_rests_its_heads_in_lanes():
    trial, build = random_trial(20, 6), random_build(6)
    rest = trial.rest(build)
    np.testing.assert_array_equal(
        rest.force_n, rest_with(rest_on_heads_in_lanes, trial, build).force
    )


def test_lanes_expect_the_hinges_that_laws_have():
    assert HINGES == HINGES_OF_LAWS == LAWS.knots.shape[-1]
    fewer = dataclasses.replace(LAWS, knots=LAWS.knots[..., :8], weights=LAWS.weights[..., :8])
    with pytest.raises(ValueError, match="16 hinges"):
        trial_of(men(3), laws=fewer).rest(delivered())
