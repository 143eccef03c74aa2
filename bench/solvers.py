"""The same rests by our compiled code, by NumPy over all heads, and by SciPy's general solvers."""

import time
from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np
import numpy.typing as npt

from bench import report, scipy_rest
from bench.newton_all import rest_all
from bench.phases import ARM_MM, Heads, heads_of
from bench.plan import Plan
from helmwright.anatomy import Sex
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import load_packaged
from helmwright.fit import Bands, Build
from helmwright.fit.chart import charted_shell
from helmwright.fit.contact import SLIDE_IN, Trial
from helmwright.fit.kernels import batch
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.geometry.kernels.rays import clearances
from helmwright.study import people

Floats = npt.NDArray[np.float64]
Poses = list[Floats]

MODEL = "ouzel"
HEADS = 400
REPEATS = 5


def run(plan: Plan) -> str:
    """Solve, compare, keep and tell."""
    trials = trials_of(plan.heads or (20 if plan.quick else HEADS), plan.seed)
    build = [Build(trial.shell.number, trial.sheet.delivered) for trial in trials]
    pairs = list(zip(trials, build, strict=True))
    ready = [heads_of(trial, each) for trial, each in pairs]
    count, repeats = sum(map(len, trials)), 1 if plan.quick else REPEATS
    ours = [scaled(trial.rest(each).pose) for trial, each in pairs]
    by_scalar_kernel(*pairs[0])  # compiled before the clock starts
    methods: dict[str, tuple[Callable[[], Poses], int]] = {
        "this program, as proposals use it": (
            lambda: [scaled(trial.rest(each).pose) for trial, each in pairs],
            repeats,
        ),
        "this program, one head at a time": (
            lambda: [scaled(by_scalar_kernel(trial, each)) for trial, each in pairs],
            repeats,
        ),
        "NumPy, all heads at once": (lambda: [rest_all(heads) for heads in ready], repeats),
        "scipy.optimize.root (hybr)": (lambda: each_alone(ready, scipy_rest.rest_by_root), 1),
    }
    for method in scipy_rest.MINIMIZERS:
        solve = partial(scipy_rest.rest_by_minimizing, method=method)
        methods[f"scipy.optimize.minimize ({method})"] = (partial(each_alone, ready, solve), 1)
    rows = {
        name: measured(name, solve, times, ready, ours) for name, (solve, times) in methods.items()
    }
    found: dict[str, Any] = {
        "machine": report.machine(), "seed": plan.seed, "heads": count, "methods": rows,
    }  # fmt: skip
    if not plan.quick:
        report.save("solvers", found)
    return words(found)


def trials_of(count: int, seed: int) -> list[Trial]:
    """Heads of the prior, each in the shell that the chart gives it."""
    rng = np.random.default_rng([seed, 400])
    sheet = load_packaged(MODEL)
    heads = people.drawn_heads(Sex.MALE, "joined", count, rng)
    shapes, unknowns = head_shapes(heads), draw_unknowns(sheet, count, rng)
    given, laws = charted_shell(sheet, heads.of("tape_circumference")), pad_laws(sheet)
    return [
        Trial(sheet, shell, laws, shapes.chosen(rows), unknowns.chosen(rows), Bands())
        for shell in sheet.shells
        if (rows := np.flatnonzero(given == shell.number)).size
    ]


def scaled(pose: Floats) -> Floats:
    """A pose with its rotations on a lever of ARM_MM."""
    return np.concatenate([pose[:, :3], pose[:, 3:] * ARM_MM], axis=1)


def by_scalar_kernel(trial: Trial, build: Build) -> Floats:
    """The program's kernel that takes one head after the other, shape (h, 6)."""
    seat, unknown = trial.seating, trial.unknowns
    lift = trial.lift_mm(build)
    gaps, normals = bare(trial, lift)
    poses, shape = np.zeros((len(trial), 4, 6)), (2, len(trial), seat.zones.size)
    stroke, force = np.empty(shape)
    batch.rest_on_heads(
        0, len(trial), seat.points, seat.areas_cm2, seat.zones, seat.drag_n_per_mm, gaps,
        normals, lift, unknown.zone_mm, unknown.foam, unknown.friction, unknown.pull,
        *trial.pads(build), SLIDE_IN.value, *trial.loads, poses, stroke, force,
    )  # fmt: skip
    return poses[:, -1]


def bare(trial: Trial, lift: Floats) -> tuple[Floats, Floats]:
    """Gaps and normals at given heights, shapes (h, s), (h, s, 3)."""
    points = trial.seating.points
    gaps = np.empty((lift.size, 1, points.shape[0]))
    normals = np.empty((*gaps.shape, 3))
    heights = lift[:, None]
    clearances(trial.heads.ovoids.rows, points, trial.seating.inward, heights, gaps, normals)
    return gaps[:, 0] - trial.unknowns.contact_mm, normals[:, 0]


def each_alone(ready: list[Heads], solve: Callable[[Heads], Floats]) -> Poses:
    """Every head by itself."""
    return [
        np.concatenate([solve(heads.one(index)) for index in range(len(heads))]) for heads in ready
    ]


def measured(
    name: str, solve: Callable[[], Poses], times: int, ready: list[Heads], ours: Poses
) -> dict[str, float]:
    """Microseconds a rest, the fastest of some runs, and how far the answers are from ours."""
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        poses = solve()
        seconds.append(time.perf_counter() - start)
    pose = np.concatenate([np.abs(a - b).max(axis=1) for a, b in zip(poses, ours, strict=True)])
    brow = np.concatenate(
        [np.abs(h.brow_mm(a - b) - h.brow) for h, a, b in zip(ready, poses, ours, strict=True)]
    )
    micro = min(seconds) / pose.size * 1e6
    report.say(f"{name}: {micro:.0f} microseconds a rest")
    return {
        "microseconds": round(micro, 2),
        "pose_mm_median": float(np.median(pose)),
        "pose_mm_most": float(pose.max()),
        "brow_mm_most": float(brow.max()),
        "brow_off_by_a_tenth": float((brow > 0.1).mean()),
    }


def words(found: dict[str, Any]) -> str:
    """The table."""
    methods = found["methods"]
    base = methods["this program, as proposals use it"]["microseconds"]
    rows = [
        [
            name,
            f"{each['microseconds']:,.1f}",
            f"{each['microseconds'] / base:,.1f}",
            f"{each['pose_mm_median']:.1g} / {each['pose_mm_most']:.1g}",
            f"{each['brow_mm_most']:.1g}",
            f"{100 * each['brow_off_by_a_tenth']:.1f} %",
        ]
        for name, each in methods.items()
    ]
    heads = [
        "method", "microseconds a rest", "times ours", "pose apart, median / most [mm]",
        "brow apart, most [mm]", "brow more than 0.1 mm apart",
    ]  # fmt: skip
    return (
        f"{found['heads']} heads drawn from the prior, delivered builds, four phases each, one "
        f"thread; {report.machine_words(found['machine'])}; seed {found['seed']}. Fastest of "
        f"{REPEATS} runs, one run for SciPy. Distances are from this program's answers, rotations "
        f"on a lever of {ARM_MM:.0f} mm.\n\n" + report.table(heads, rows)
    )
