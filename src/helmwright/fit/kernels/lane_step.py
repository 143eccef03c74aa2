"""From gradient and Jacobian to the next pose that each lane tries."""

import math

from helmwright.fit.kernels.contact import (
    FORCE_TOLERANCE_N,
    MOST_STEPS,
    RIDGE_N_PER_MM,
    RIDGE_NMM_PER_RAD,
)
from helmwright.fit.kernels.lane_layout import (
    BEFORE,
    COUNT,
    DONE,
    FOLLOW,
    GAVE_UP,
    GRADIENT,
    JACOBIAN,
    KEPT,
    LANES,
    LIFT,
    LOAD,
    POSE,
    SETTLED,
    SHARE,
    STEP,
    TRIAL,
    TRIES,
    Floats,
    Six,
    compiled,
    inlined,
    read_six,
    write_six,
)

STEP_TOLERANCE_MM = 1e-4
"""A lane settles where the next Newton step is at most this; it is taken all the same, so that
what is left is about its square."""

LONGEST_STEP_MM = 8.0
ARM_MM = 100.0
"""Arm on which turns count as lengths, and moments as forces."""

MOST_TRIES = 8
CAREFUL_AFTER = 25
ROUND, BOLD = 16.0, 10.0
"""Of every round of steps, the first follow the caps; the others take the symmetric Hessian
alone, which is slow but always downhill."""

Row = tuple[Six, float]


@compiled
def advance(work: Floats) -> None:
    """Accept each lane's trial and go on to the next, or shorten its step.

    The rule is that of `helmwright.fit.kernels.contact.settle_phase`, by selection. DONE tells
    what became of the phase, 0 while it goes on.
    """
    w = LANES
    for m in range(w):
        at, lift = read_six(work, TRIAL * w + m), work[LIFT * w + m]
        g = _ridge_force(at, lift, read_six(work, LOAD * w + m), read_six(work, GRADIENT * w + m))
        fresh = _newton_step(work, m, lift, g)
        old, pose = read_six(work, STEP * w + m), read_six(work, POSE * w + m)
        before, share = work[BEFORE * w + m], work[SHARE * w + m]
        tries, counted = work[TRIES * w + m], work[COUNT * w + m]
        after, slope = _dot(g, old), _dot(g, fresh)
        accepted = (after <= 0.6 * abs(before)) | (tries >= MOST_TRIES - 1)
        shorter = share * max(abs(before) / (abs(before) + after), 0.1)
        size, near = _size(fresh, ARM_MM), _size(g, 1.0 / ARM_MM) <= FORCE_TOLERANCE_N
        count = counted + (1.0 if accepted else 0.0)
        late, small = accepted & (count >= MOST_STEPS), size <= STEP_TOLERANCE_MM
        settled, gave_up = accepted & near & (small | late), late & (not near)
        # An uphill step comes from the unsymmetric part; stay, and try again without it.
        stays = accepted & ((not slope <= 0.0) | (late & (not small)))
        longest = min(1.0, LONGEST_STEP_MM / size) * (0.5 if count > CAREFUL_AFTER else 1.0)
        taken = (0.0 if stays else longest) if accepted else shorter
        here, step = _choose(accepted, at, pose), _choose(accepted, fresh, old)
        step = _choose(stays, (0.0, 0.0, 0.0, 0.0, 0.0, 0.0), step)
        write_six(work, TRIAL * w + m, _plus(here, taken, step))
        write_six(work, POSE * w + m, here)
        write_six(work, STEP * w + m, step)
        slope = 0.0 if stays else slope
        work[SHARE * w + m], work[BEFORE * w + m] = taken, slope if accepted else before
        work[TRIES * w + m], work[COUNT * w + m] = 0.0 if accepted else tries + 1.0, count
        bold = count - ROUND * math.floor(count / ROUND) < BOLD
        work[FOLLOW * w + m] = 1.0 if bold & (not stays) else 0.0
        work[KEPT * w + m] = -1.0
        work[DONE * w + m] = (SETTLED if settled else 0.0) + (GAVE_UP if gave_up else 0.0)


@inlined
def _ridge_force(at: Six, lift: float, load: Six, g: Six) -> Six:
    """Gradient with the load and the whisper of stiffness, which acts at the drawing's origin."""
    c, turn = RIDGE_N_PER_MM, RIDGE_NMM_PER_RAD
    x, y, z = c * (at[0] - lift * at[4]), c * (at[1] + lift * at[3]), c * at[2]
    return (
        g[0] - load[0] + x, g[1] - load[1] + y, g[2] - load[2] + z,
        g[3] - load[3] + turn * at[3] + lift * y, g[4] - load[4] + turn * at[4] - lift * x,
        g[5] - load[5] + turn * at[5],
    )  # fmt: skip


@inlined
def _newton_step(work: Floats, m: int, lift: float, g: Six) -> Six:
    """Step = -J^-1 g by elimination; positive as J is in all directions, it needs no pivots."""
    j, c, turn = JACOBIAN * LANES + m, RIDGE_N_PER_MM, RIDGE_NMM_PER_RAD
    off, more = c * lift, turn + c * lift * lift
    a0, a1 = read_six(work, j), read_six(work, j + 6 * LANES)
    a2, a3 = read_six(work, j + 12 * LANES), read_six(work, j + 18 * LANES)
    a4, a5 = read_six(work, j + 24 * LANES), read_six(work, j + 30 * LANES)
    r0 = ((a0[0] + c, a0[1], a0[2], a0[3], a0[4] - off, a0[5]), -g[0])
    r1 = ((a1[0], a1[1] + c, a1[2], a1[3] + off, a1[4], a1[5]), -g[1])
    r2 = ((a2[0], a2[1], a2[2] + c, a2[3], a2[4], a2[5]), -g[2])
    r3 = ((a3[0], a3[1] + off, a3[2], a3[3] + more, a3[4], a3[5]), -g[3])
    r4 = ((a4[0] - off, a4[1], a4[2], a4[3], a4[4] + more, a4[5]), -g[4])
    r5 = ((a5[0], a5[1], a5[2], a5[3], a5[4], a5[5] + turn), -g[5])
    v = 1.0 / r0[0][0]
    r1, r2 = _less(r1, r1[0][0] * v, r0), _less(r2, r2[0][0] * v, r0)
    r3, r4 = _less(r3, r3[0][0] * v, r0), _less(r4, r4[0][0] * v, r0)
    r5 = _less(r5, r5[0][0] * v, r0)
    v1 = 1.0 / r1[0][1]
    r2, r3 = _less(r2, r2[0][1] * v1, r1), _less(r3, r3[0][1] * v1, r1)
    r4, r5 = _less(r4, r4[0][1] * v1, r1), _less(r5, r5[0][1] * v1, r1)
    v2 = 1.0 / r2[0][2]
    r3, r4 = _less(r3, r3[0][2] * v2, r2), _less(r4, r4[0][2] * v2, r2)
    r5 = _less(r5, r5[0][2] * v2, r2)
    v3 = 1.0 / r3[0][3]
    r4, r5 = _less(r4, r4[0][3] * v3, r3), _less(r5, r5[0][3] * v3, r3)
    v4 = 1.0 / r4[0][4]
    r5 = _less(r5, r5[0][4] * v4, r4)
    s5 = r5[1] / r5[0][5]
    s4 = (r4[1] - r4[0][5] * s5) * v4
    s3 = (r3[1] - r3[0][4] * s4 - r3[0][5] * s5) * v3
    s2 = (r2[1] - r2[0][3] * s3 - r2[0][4] * s4 - r2[0][5] * s5) * v2
    s1 = (r1[1] - r1[0][2] * s2 - r1[0][3] * s3 - r1[0][4] * s4 - r1[0][5] * s5) * v1
    a = r0[0]
    s0 = (r0[1] - a[1] * s1 - a[2] * s2 - a[3] * s3 - a[4] * s4 - a[5] * s5) * v
    return (s0, s1, s2, s3, s4, s5)


@inlined
def _less(row: Row, by: float, pivot: Row) -> Row:
    return _plus(row[0], -by, pivot[0]), row[1] - by * pivot[1]


@inlined
def _plus(a: Six, by: float, b: Six) -> Six:
    return (
        a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2],
        a[3] + by * b[3], a[4] + by * b[4], a[5] + by * b[5],
    )  # fmt: skip


@inlined
def _dot(a: Six, b: Six) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3] + a[4] * b[4] + a[5] * b[5]


@inlined
def _size(a: Six, arm: float) -> float:
    """Largest of the first three, and of the last three on an arm."""
    turn = max(abs(a[3]), abs(a[4]), abs(a[5]))
    return max(abs(a[0]), abs(a[1]), abs(a[2]), arm * turn)


@inlined
def _choose(first: bool, a: Six, b: Six) -> Six:  # noqa: FBT001 (a selection per lane)
    return (
        a[0] if first else b[0], a[1] if first else b[1], a[2] if first else b[2],
        a[3] if first else b[3], a[4] if first else b[4], a[5] if first else b[5],
    )  # fmt: skip
