"""One build on many heads side by side: the same rests as `helmwright.fit.kernels.batch`.

Each lane takes a head through its four phases and then the next head that waits, so that no lane
waits for another.
"""

import numpy as np
from numba import njit

from helmwright.fit.kernels.contact import PHASES
from helmwright.fit.kernels.lane_layout import (
    ANCHOR,
    BASE,
    BEFORE,
    COUNT,
    DONE,
    FOLLOW,
    FRICTION,
    HINGES,
    KEPT,
    LANES,
    LIFT,
    LOAD,
    NORMAL,
    POSE,
    ROW_SIZE,
    SETTLED,
    STEP,
    STIFFNESS,
    TRIAL,
    TRIES,
    WORK_SIZE,
    Floats,
    Integers,
    at_cache_line,
    read_six,
    write_six,
)
from helmwright.fit.kernels.lane_pass import gather
from helmwright.fit.kernels.lane_step import advance
from helmwright.fit.kernels.law import pressure


@njit(cache=True, error_model="numpy", nogil=True)
def rest_on_heads_in_lanes(
    first: int, last: int, points: Floats, areas: Floats, zones: Integers,
    drag_n_per_mm: Floats, gaps: Floats, normals: Floats, lifts: Floats, zone_mm: Floats,
    foam: Floats, friction: Floats, pull: Floats, thickness: Floats, knots: Floats,
    weights: Floats, slide_mm: float, phase_load: Floats, load_point: Floats, strap_load: Floats,
    strap_point: Floats, strap_on: Floats, kept: Floats, poses: Floats, stroke: Floats,
    force: Floats,
) -> int:  # fmt: skip
    """Rest one build on heads first to last - 1; returns how many did not settle.

    Parameters are those of `helmwright.fit.kernels.batch.rest_on_heads`; pads have HINGES hinges.

    Raises
    ------
    ValueError
        Where pads have another number of hinges.
    """
    if knots.shape[1] != HINGES or weights.shape[1] != HINGES:
        raise ValueError("the pads' laws must have 16 hinges each")
    contacts = points.shape[0]
    work, rows = at_cache_line(WORK_SIZE), at_cache_line(contacts * ROW_SIZE)
    rows = rows.reshape(contacts, ROW_SIZE)
    loads, straps = np.empty((PHASES, 6)), np.empty((PHASES, 6))
    for f in range(PHASES):
        _wrench(phase_load[f], load_point[f], 1.0, loads[f])
        _wrench(strap_load, strap_point, strap_on[f], straps[f])
    head, phase = np.full(LANES, -1), np.full(LANES, PHASES)
    failed, waiting, busy = 0, first, min(LANES, last - first)
    good = np.ones(LANES, dtype=np.bool_)
    # Lanes without a head of their own repeat the last one, and nobody asks what becomes of it.
    for m in range(LANES if busy > 0 else 0):
        h = min(first + m, last - 1)
        _seat(
            m, h, areas, zones, gaps, normals, lifts, zone_mm, foam, friction, thickness,
            slide_mm, poses, work, rows
        )  # fmt: skip
        _begin(m, loads[0], straps[0], pull[h], -1.0, work)
        if waiting < last:
            head[m], phase[m] = waiting, 0
            waiting += 1
    while busy > 0:
        gather(work, rows, points, drag_n_per_mm, zones, knots, weights)
        advance(work)
        for m in range(LANES):
            done, h, f = work[DONE * LANES + m], head[m], phase[m]
            if done == 0.0 or h < 0:
                continue
            good[m] = good[m] and done == SETTLED
            _note_pose(m, work, lifts[h], poses[h, f])
            if f < PHASES - 1:
                phase[m] = f + 1
                _begin(m, loads[f + 1], straps[f + 1], pull[h], kept[f + 1], work)
                continue
            _note_contacts(m, work, rows, points, zones, knots, weights, stroke[h], force[h])
            failed += 0 if good[m] else 1
            if waiting == last:
                head[m] = -1
                busy -= 1
                continue
            h = waiting
            waiting += 1
            head[m], phase[m], good[m] = h, 0, True
            _seat(
                m, h, areas, zones, gaps, normals, lifts, zone_mm, foam, friction,
                thickness, slide_mm, poses, work, rows
            )  # fmt: skip
            _begin(m, loads[0], straps[0], pull[h], -1.0, work)
    return failed


@njit(cache=True, error_model="numpy", nogil=True)
def _wrench(force: Floats, point: Floats, share: float, out: Floats) -> None:
    """Force and its moment about the raised origin."""
    fx, fy, fz = share * force[0], share * force[1], share * force[2]
    out[0], out[1], out[2] = fx, fy, fz
    out[3] = point[1] * fz - point[2] * fy
    out[4] = point[2] * fx - point[0] * fz
    out[5] = point[0] * fy - point[1] * fx


@njit(cache=True, error_model="numpy", nogil=True)
def _seat(
    m: int, h: int, areas: Floats, zones: Integers, gaps: Floats, normals: Floats,
    lifts: Floats, zone_mm: Floats, foam: Floats, friction: Floats, thickness: Floats,
    slide_mm: float, poses: Floats, work: Floats, rows: Floats,
) -> None:  # fmt: skip
    """Put head h into lane m, with the anchors of the slide-in."""
    w, lift, q = LANES, lifts[h], poses[h, 0]
    for i in range(areas.shape[0]):
        z, row = zones[i], rows[i]
        nx, ny, nz = normals[h, i, 0], normals[h, i, 1], normals[h, i, 2]
        row[NORMAL * w + m], row[(NORMAL + 1) * w + m], row[(NORMAL + 2) * w + m] = nx, ny, nz
        row[BASE * w + m] = thickness[z] + zone_mm[h, z] - gaps[h, i]
        row[STIFFNESS * w + m] = 0.1 * areas[i] * foam[h, z]
        row[ANCHOR * w + m] = -nz * nx * slide_mm
        row[(ANCHOR + 1) * w + m] = -nz * ny * slide_mm
        row[(ANCHOR + 2) * w + m] = (1.0 - nz * nz) * slide_mm
    work[FRICTION * w + m], work[LIFT * w + m] = friction[h], lift
    write_six(work, TRIAL * w + m, (q[0] + lift * q[4], q[1] - lift * q[3], q[2], q[3], q[4], q[5]))


@njit(cache=True, error_model="numpy", nogil=True)
def _begin(m: int, load: Floats, strap: Floats, pull: float, kept: float, work: Floats) -> None:
    """Begin a phase in lane m at the trial pose."""
    w = LANES
    for r in range(6):
        work[(LOAD + r) * w + m] = load[r] + pull * strap[r]
        work[(POSE + r) * w + m] = work[(TRIAL + r) * w + m]
        work[(STEP + r) * w + m] = 0.0
    work[BEFORE * w + m], work[TRIES * w + m], work[COUNT * w + m] = 0.0, 0.0, -1.0
    work[FOLLOW * w + m], work[KEPT * w + m] = 1.0, kept


@njit(cache=True, error_model="numpy", nogil=True)
def _note_pose(m: int, work: Floats, lift: float, pose: Floats) -> None:
    """Write the pose of lane m about the drawing's origin."""
    for r in range(6):
        pose[r] = work[(TRIAL + r) * LANES + m]
    pose[0] -= lift * pose[4]
    pose[1] += lift * pose[3]


@njit(cache=True, error_model="numpy", nogil=True)
def _note_contacts(
    m: int, work: Floats, rows: Floats, points: Floats, zones: Integers, knots: Floats,
    weights: Floats, stroke: Floats, force: Floats,
) -> None:  # fmt: skip
    """Write stroke and normal force of each contact of lane m."""
    w = LANES
    tx, ty, tz, wx, wy, wz = read_six(work, TRIAL * w + m)
    for i in range(points.shape[0]):
        z, row = zones[i], rows[i]
        px, py, pz = points[i, 0], points[i, 1], points[i, 2]
        along = row[m] * (tx + wy * pz - wz * py)
        along += row[w + m] * (ty + wz * px - wx * pz)
        along += row[2 * w + m] * (tz + wx * py - wy * px)
        stroke[i] = row[BASE * w + m] - along
        force[i] = row[STIFFNESS * w + m] * pressure(knots[z], weights[z], stroke[i])[0]
