"""Gradient and Jacobian of many heads' contact problems at once, one lane each.

The same mathematics as `helmwright.fit.kernels.contact`, with two differences. Turns are about
the drawing's origin raised by the lane's lift, so that all lanes share the contact points. And on
top of the Hessian stands how a slipping contact's cap follows its normal force,

    -mu p' (d / |d|) n'

which is not symmetric, but lets Newton's method converge fast.
"""

import math

from helmwright.fit.kernels.lane_layout import (
    ANCHOR,
    BASE,
    FOLLOW,
    FRICTION,
    GRADIENT,
    JACOBIAN,
    KEPT,
    LANES,
    STIFFNESS,
    TRIAL,
    WORK_SIZE,
    Floats,
    Integers,
    Six,
    compiled,
    inlined,
    read_six,
    write_six,
)

Three = tuple[float, float, float]
Eight = tuple[float, float, float, float, float, float, float, float]


@compiled
def gather(
    work: Floats, rows: Floats, points: Floats, drag_n_per_mm: Floats, zones: Integers,
    knots: Floats, weights: Floats,
) -> None:  # fmt: skip
    """Gradient and Jacobian of every lane at its trial pose, without loads and ridge.

    Where KEPT is not negative, a phase begins: anchors are moved first, so that each contact
    holds that share of the drag that it had.

    Parameters
    ----------
    work, rows
        Lanes and contacts in lanes (`helmwright.fit.kernels.lane_layout`).
    points, drag_n_per_mm, zones
        Contacts on the shell, shapes (s, 3), (s,), (s,) [mm], [N/mm], [1].
    knots, weights
        The build's pads, shape (8, HINGES).
    """
    for j in range(GRADIENT * LANES, WORK_SIZE):
        work[j] = 0.0
    for i in range(points.shape[0]):
        x, y, row = knots[zones[i]], weights[zones[i]], rows[i]
        point = (points[i, 0], points[i, 1], points[i, 2])
        drag, softness = drag_n_per_mm[i], 1.0 / drag_n_per_mm[i]
        low = (x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7])
        high = (x[8], x[9], x[10], x[11], x[12], x[13], x[14], x[15])
        low_weights = (y[0], y[1], y[2], y[3], y[4], y[5], y[6], y[7])
        high_weights = (y[8], y[9], y[10], y[11], y[12], y[13], y[14], y[15])
        for m in range(LANES):
            n = (row[m], row[LANES + m], row[2 * LANES + m])
            u = _displacement(read_six(work, TRIAL * LANES + m), point)
            along = n[0] * u[0] + n[1] * u[1] + n[2] * u[2]
            stroke, stiffness = row[BASE * LANES + m] - along, row[STIFFNESS * LANES + m]
            value_low, half_low = _hinges(low, low_weights, stroke)
            value_high, half_high = _hinges(high, high_weights, stroke)
            force = stiffness * (value_low + value_high)
            stiff = 2.0 * stiffness * (half_low + half_high)
            friction, kept = work[FRICTION * LANES + m], work[KEPT * LANES + m]
            at = ANCHOR * LANES + m
            ax, ay, az = row[at], row[at + LANES], row[at + 2 * LANES]
            ex, ey = u[0] - along * n[0] - ax, u[1] - along * n[1] - ay
            ez = u[2] - along * n[2] - az
            # A hair's breadth keeps a contact on its anchor from dividing by zero.
            near = 1.0 / math.sqrt(ex * ex + ey * ey + ez * ez + 1e-30)
            slide = friction * force * near
            held, begins = min(slide, drag), kept >= 0.0
            part = kept * held * softness if begins else 1.0
            d = (part * ex, part * ey, part * ez)
            row[at], row[at + LANES], row[at + 2 * LANES] = (
                ax + (ex - d[0]), ay + (ey - d[1]), az + (ez - d[2])
            )  # fmt: skip
            sticks = drag if force > 0.0 else 0.0
            grip = sticks if begins else held
            slips = 1.0 if (slide < drag) & (kept < 0.0) else 0.0
            slip = slips * grip * near * near
            lean = slips * work[FOLLOW * LANES + m] * friction * stiff * near
            g = (grip * d[0] - force * n[0], grip * d[1] - force * n[1], grip * d[2] - force * n[2])
            _add_three(work, GRADIENT * LANES + m, g)
            _add_cross(work, (GRADIENT + 3) * LANES + m, LANES, point, g[0], g[1], g[2])
            _add_stiffness(work, JACOBIAN * LANES + m, point, n, d, stiff - grip, grip, slip, lean)


@inlined
def _displacement(q: Six, p: Three) -> Three:
    return (
        q[0] + q[4] * p[2] - q[5] * p[1],
        q[1] + q[5] * p[0] - q[3] * p[2],
        q[2] + q[3] * p[1] - q[4] * p[0],
    )


@inlined
def _hinges(x: Eight, w: Eight, s: float) -> tuple[float, float]:
    """Pressure and half its slope from eight hinges, as `law.pressure` but without a branch."""
    a0, a1, a2, a3 = max(s - x[0], 0.0), max(s - x[1], 0.0), max(s - x[2], 0.0), max(s - x[3], 0.0)
    a4, a5, a6, a7 = max(s - x[4], 0.0), max(s - x[5], 0.0), max(s - x[6], 0.0), max(s - x[7], 0.0)
    b0, b1, b2, b3 = w[0] * a0, w[1] * a1, w[2] * a2, w[3] * a3
    b4, b5, b6, b7 = w[4] * a4, w[5] * a5, w[6] * a6, w[7] * a7
    half = (b0 + b1) + (b2 + b3) + ((b4 + b5) + (b6 + b7))
    value = (b0 * a0 + b1 * a1) + (b2 * a2 + b3 * a3)
    return value + ((b4 * a4 + b5 * a5) + (b6 * a6 + b7 * a7)), half


@inlined
def _add_stiffness(
    work: Floats, at: int, p: Three, n: Three, d: Three, both: float, grip: float, slip: float,
    lean: float,
) -> None:  # fmt: skip
    """Add U' K U with K = grip I + both n n' - lean d n' - slip d d' and displacement u = U q."""
    w, px, py, pz = LANES, p[0], p[1], p[2]
    nx, ny, nz, dx, dy, dz = n[0], n[1], n[2], d[0], d[1], d[2]
    ox, oy, oz = both * nx - lean * dx, both * ny - lean * dy, both * nz - lean * dz
    sx, sy, sz = slip * dx, slip * dy, slip * dz
    k00, k01, k02 = grip + ox * nx - sx * dx, ox * ny - sx * dy, ox * nz - sx * dz
    k10, k11, k12 = oy * nx - sy * dx, grip + oy * ny - sy * dy, oy * nz - sy * dz
    k20, k21, k22 = oz * nx - sz * dx, oz * ny - sz * dy, grip + oz * nz - sz * dz
    m00, m01, m02 = k02 * py - k01 * pz, k00 * pz - k02 * px, k01 * px - k00 * py
    m10, m11, m12 = k12 * py - k11 * pz, k10 * pz - k12 * px, k11 * px - k10 * py
    m20, m21, m22 = k22 * py - k21 * pz, k20 * pz - k22 * px, k21 * px - k20 * py
    _add_six(work, at, (k00, k01, k02, m00, m01, m02))
    _add_six(work, at + 6 * w, (k10, k11, k12, m10, m11, m12))
    _add_six(work, at + 12 * w, (k20, k21, k22, m20, m21, m22))
    _add_cross(work, at + 18 * w, 6 * w, p, k00, k10, k20)
    _add_cross(work, at + 19 * w, 6 * w, p, k01, k11, k21)
    _add_cross(work, at + 20 * w, 6 * w, p, k02, k12, k22)
    _add_cross(work, at + 21 * w, 6 * w, p, m00, m10, m20)
    _add_cross(work, at + 22 * w, 6 * w, p, m01, m11, m21)
    _add_cross(work, at + 23 * w, 6 * w, p, m02, m12, m22)


@inlined
def _add_three(work: Floats, at: int, a: Three) -> None:
    work[at] += a[0]
    work[at + LANES] += a[1]
    work[at + 2 * LANES] += a[2]


@inlined
def _add_six(work: Floats, at: int, a: Six) -> None:
    b = read_six(work, at)
    total = (b[0] + a[0], b[1] + a[1], b[2] + a[2], b[3] + a[3], b[4] + a[4], b[5] + a[5])
    write_six(work, at, total)


@inlined
def _add_cross(work: Floats, at: int, apart: int, p: Three, x: float, y: float, z: float) -> None:
    """Add p x (x, y, z), its components that far apart."""
    work[at] = work[at] + p[1] * z - p[2] * y
    work[at + apart] = work[at + apart] + p[2] * x - p[0] * z
    work[at + 2 * apart] = work[at + 2 * apart] + p[0] * y - p[1] * x
