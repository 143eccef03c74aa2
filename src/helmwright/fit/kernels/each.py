"""A build of its own for every head, by the linear guess: descent zone by zone and in pairs."""

import numpy as np
import numpy.typing as npt
from numba import njit

from helmwright.fit.kernels.law import pressure

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Signs = npt.NDArray[np.int8]

LOOSE, TIGHT = 1, 2
"""Flags of a zone."""

LOW, HIGH = 1, 2
"""Flags of the brow."""


@njit(cache=True, error_model="numpy", nogil=True)
def cost_of(
    build: Integers, stroke: Floats, brow: float, zones: Integers, shares: Floats, foam: Floats,
    knots: Floats, weights: Floats, bands: Floats, flags: Signs,
) -> float:  # fmt: skip
    """What is wrong with one head in one build.

    Parameters
    ----------
    build
        Index of each zone's pad, shape (8,).
    stroke, brow
        Of each contact, shape (s,); of the head [mm].
    zones, shares
        Zone of each contact and its share in the zone's area, shape (s,).
    foam
        Stiffness of each zone's pad, shape (8,) [1].
    knots, weights
        Of every pad, shape (8, t, k).
    bands
        As in `helmwright.fit.kernels.batch.judge`.
    flags
        Out, shape (9,): LOOSE or TIGHT for every zone, then the brow; a gap counts as loose, a hot
        spot as tight.

    Returns
    -------
    One for each fault, and a little for how far off it is.
    """
    count = foam.shape[0]
    mean, reach, padded = np.zeros(count), np.zeros(count), np.zeros(count)
    flags[:] = 0
    for i in range(zones.shape[0]):
        z = zones[i]
        pad = build[z]
        value = foam[z] * pressure(knots[z, pad], weights[z, pad], stroke[i])[0]
        mean[z] += shares[i] * value
        reach[z] += shares[i] * stroke[i]
        padded[z] = 1.0
        if value > bands[2]:
            flags[z] = TIGHT
        elif -stroke[i] > bands[5] and flags[z] == 0:
            flags[z] = LOOSE
    cost = _cost_of_brow(brow, bands, flags)
    for z in range(count):
        if padded[z] > 0.0:
            cost += _cost_of_zone(z, mean[z], reach[z], bands, flags)
    return cost


@njit(cache=True, error_model="numpy", nogil=True)
def _cost_of_zone(z: int, mean: float, reach: float, bands: Floats, flags: Signs) -> float:
    """Cost of one zone by its mean pressure and stroke; its flag may stand already."""
    if mean > bands[1]:
        flags[z] = TIGHT
    elif not mean >= bands[0] and flags[z] == 0:  # What is no number is not snug.
        flags[z] = LOOSE
    if flags[z] == TIGHT:
        return 1.0 + 0.01 * min(mean, 60.0)
    return 1.0 + 0.1 * max(2.0 - reach, 0.0) if flags[z] == LOOSE else 0.0


@njit(cache=True, error_model="numpy", nogil=True)
def _cost_of_brow(brow: float, bands: Floats, flags: Signs) -> float:
    """Cost of the brow height, and its flag."""
    if not brow >= bands[3]:
        flags[-1] = LOW
        return float(1.0 + 0.1 * (bands[3] - brow))
    if brow > bands[4]:
        flags[-1] = HIGH
        return float(1.0 + 0.1 * (brow - bands[4]))
    return 0.0


@njit(cache=True, error_model="numpy", nogil=True)
def judge_each(
    builds: Integers, stroke: Floats, brow: Floats, zones: Integers, shares: Floats, foam: Floats,
    knots: Floats, weights: Floats, bands: Floats, flags: Signs, cost: Floats,
) -> None:  # fmt: skip
    """`cost_of` for n heads, each in its build; flags (n, 9) and cost (n,) are out."""
    for h in range(builds.shape[0]):
        cost[h] = cost_of(
            builds[h], stroke[h], brow[h], zones, shares, foam[h], knots, weights, bands, flags[h]
        )


@njit(cache=True, error_model="numpy", nogil=True)
def guess_each(
    builds: Integers, thickness: Floats, base: Floats, stroke: Floats, brow: Floats,
    stroke_slope: Floats, brow_slope: Floats, out_stroke: Floats, out_brow: Floats,
) -> None:  # fmt: skip
    """Strokes and brow of n heads, each in its build, by one slope up and one down in every pad."""
    for h in range(builds.shape[0]):
        out_brow[h] = _guess(
            builds[h], thickness, base, stroke[h], brow[h], stroke_slope[h], brow_slope[h],
            out_stroke[h],
        )  # fmt: skip


@njit(cache=True, error_model="numpy", nogil=True)
def _guess(
    build: Integers, thickness: Floats, base: Floats, stroke: Floats, brow: float,
    stroke_slope: Floats, brow_slope: Floats, out: Floats,
) -> float:  # fmt: skip
    """Strokes of one head into `out`; returns the brow."""
    out[:] = stroke
    height = brow
    for z in range(base.shape[0]):
        step = thickness[z, build[z]] - base[z]
        if step == 0.0:
            continue
        side = 1 if step > 0.0 else 0
        height += brow_slope[side, z] * step
        for i in range(out.shape[0]):
            out[i] += stroke_slope[side, z, i] * step
    return height


@njit(cache=True, error_model="numpy", nogil=True)
def descend_each(
    start: Integers, allowed: Signs, groups: Integers, thickness: Floats, base: Floats,
    stroke: Floats, brow: Floats, stroke_slope: Floats, brow_slope: Floats, zones: Integers,
    shares: Floats, foam: Floats, knots: Floats, weights: Floats, bands: Floats,
    builds: Integers, costs: Floats,
) -> None:  # fmt: skip
    """The build of least cost that a descent finds for every head, from every crown pad.

    Parameters
    ----------
    start
        Where to start, shape (8,).
    allowed
        1 where a zone may take a pad, shape (8, t).
    groups
        Zones that move together, shape (g, 2); a zone that moves alone stands there twice.
    thickness, base
        Of every pad, shape (8, t), and of the pads that were solved, (8,) [mm].
    stroke, brow, stroke_slope, brow_slope
        As in `helmwright.fit.kernels.linear.judge_linear`.
    builds, costs
        Out, shapes (n, 8), (n,).
    """
    room = np.empty(stroke.shape[1])
    flags = np.zeros(base.shape[0] + 1, dtype=np.int8)
    here = np.empty_like(start)
    for h in range(builds.shape[0]):
        costs[h] = 1e9
        builds[h] = start  # What a head keeps whose strokes are no numbers, should one not rest.
        for crown in range(-1, thickness.shape[1]):
            if crown >= 0 and allowed[0, crown] == 0:
                continue
            here[:] = start
            if crown >= 0:
                here[0] = crown
            cost = _descend(
                here, allowed, groups, thickness, base, stroke[h], brow[h], stroke_slope[h],
                brow_slope[h], zones, shares, foam[h], knots, weights, bands, room, flags,
            )  # fmt: skip
            if cost < costs[h] - 1e-9:
                costs[h] = cost
                builds[h] = here
            if cost == 0.0:
                break


@njit(cache=True, error_model="numpy", nogil=True)
def _descend(
    here: Integers, allowed: Signs, groups: Integers, thickness: Floats, base: Floats,
    stroke: Floats, brow: float, stroke_slope: Floats, brow_slope: Floats, zones: Integers,
    shares: Floats, foam: Floats, knots: Floats, weights: Floats, bands: Floats, room: Floats,
    flags: Signs,
) -> float:  # fmt: skip
    """Improve one build until neither one group nor two groups a step each make it better."""
    best = cost_of(
        here, room, _guess(here, thickness, base, stroke, brow, stroke_slope, brow_slope, room),
        zones, shares, foam, knots, weights, bands, flags,
    )  # fmt: skip
    there = here.copy()
    for _ in range(6):
        before = best
        for g in range(groups.shape[0]):
            for t in range(thickness.shape[1]):
                if allowed[groups[g, 0], t] == 0 or here[groups[g, 0]] == t:
                    continue
                there[:] = here
                there[groups[g, 0]], there[groups[g, 1]] = t, t
                height = _guess(
                    there, thickness, base, stroke, brow, stroke_slope, brow_slope, room
                )
                cost = cost_of(
                    there, room, height, zones, shares, foam, knots, weights, bands, flags
                )
                if cost < best - 1e-9:
                    best = cost
                    here[:] = there
        if best == 0.0:
            break
        if best == before:
            best = _paired(
                here, there, best, allowed, groups, thickness, base, stroke, brow, stroke_slope,
                brow_slope, zones, shares, foam, knots, weights, bands, room, flags,
            )  # fmt: skip
            if best == before:
                break
    return best


@njit(cache=True, error_model="numpy", nogil=True)
def _paired(
    here: Integers, there: Integers, best: float, allowed: Signs, groups: Integers,
    thickness: Floats, base: Floats, stroke: Floats, brow: float, stroke_slope: Floats,
    brow_slope: Floats, zones: Integers, shares: Floats, foam: Floats, knots: Floats,
    weights: Floats, bands: Floats, room: Floats, flags: Signs,
) -> float:  # fmt: skip
    """One pass over pairs of groups, a step each."""
    most = thickness.shape[1]
    origin = here.copy()
    for one in range(groups.shape[0]):
        for two in range(one + 1, groups.shape[0]):
            for way in range(4):
                first = origin[groups[one, 0]] + (1 if way & 1 else -1)
                second = origin[groups[two, 0]] + (1 if way & 2 else -1)
                if not (0 <= first < most and 0 <= second < most):
                    continue
                if allowed[groups[one, 0], first] == 0 or allowed[groups[two, 0], second] == 0:
                    continue
                there[:] = origin
                there[groups[one, 0]], there[groups[one, 1]] = first, first
                there[groups[two, 0]], there[groups[two, 1]] = second, second
                height = _guess(
                    there, thickness, base, stroke, brow, stroke_slope, brow_slope, room
                )
                cost = cost_of(
                    there, room, height, zones, shares, foam, knots, weights, bands, flags
                )
                if cost < best - 1e-9:
                    best = cost
                    here[:] = there
    return best
