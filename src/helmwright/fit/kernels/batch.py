"""One build on many heads: rests, and what they mean for every zone."""

import numpy as np
import numpy.typing as npt
from numba import njit

from helmwright.fit.kernels.contact import PHASES, rest
from helmwright.fit.kernels.law import pressure

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Bits = npt.NDArray[np.uint8]


@njit(cache=True, error_model="numpy", nogil=True)
def rest_on_heads(
    first: int, last: int, points: Floats, areas: Floats, zones: Integers,
    drag_n_per_mm: Floats, gaps: Floats, normals: Floats, lifts: Floats, zone_mm: Floats,
    foam: Floats, friction: Floats, pull: Floats, thickness: Floats, knots: Floats,
    weights: Floats, slide_mm: float, phase_load: Floats, load_point: Floats, strap_load: Floats,
    strap_point: Floats, strap_on: Floats, kept: Floats, poses: Floats, stroke: Floats,
    force: Floats,
) -> int:  # fmt: skip
    """Rest one build on heads first to last - 1; returns how many did not settle.

    Parameters
    ----------
    first, last
        The heads.
    points, areas, zones, drag_n_per_mm
        Contacts on the shell, shapes (s, 3), (s,), (s,), (s,).
    gaps, normals, lifts
        Of each head under the build's crown pad, shapes (h, s), (h, s, 3), (h,).
    zone_mm, foam, friction, pull
        What is not known, shapes (h, 8), (h, 8), (h,), (h,).
    thickness, knots, weights
        The build's pads, shapes (8,), (8, k), (8, k).
    slide_mm
        Slide-in of the first phase [mm].
    phase_load, load_point, strap_load, strap_point, strap_on, kept
        Of each phase, shapes (4, 3), (4, 3), (3,), (3,), (4,), (4,).
    poses
        In: where to start; out: the rest of each phase, shape (h, 4, 6).
    stroke, force
        Out: stroke and normal force of each contact at the last rest, shape (h, s).
    """
    contacts = points.shape[0]
    base, normal_force = np.empty(contacts), np.empty(contacts)
    raised, drag = np.empty((contacts, 3)), np.empty((contacts, 3))
    anchors, work = np.empty((contacts, 3)), np.empty((9, 6))
    loads, moments = np.empty((PHASES, 3)), np.empty((PHASES, 3))
    failed = 0
    for h in range(first, last):
        lift = lifts[h]
        for i in range(contacts):
            z = zones[i]
            base[i] = thickness[z] + zone_mm[h, z] - gaps[h, i]
            raised[i, 0], raised[i, 1] = points[i, 0], points[i, 1]
            raised[i, 2] = points[i, 2] + lift
        for f in range(PHASES):
            _load(
                phase_load[f], load_point[f], strap_load, strap_point, strap_on[f] * pull[h],
                lift, loads[f], moments[f]
            )  # fmt: skip
        good = rest(
            raised, normals[h], base, zones, areas, knots, weights, foam[h], drag_n_per_mm,
            friction[h], slide_mm, loads, moments, kept, poses[h],
            normal_force, drag, anchors, work
        )  # fmt: skip
        failed += 0 if good else 1
        q = poses[h, PHASES - 1]
        for i in range(contacts):
            px, py, pz = raised[i, 0], raised[i, 1], raised[i, 2]
            along = normals[h, i, 0] * (q[0] + q[4] * pz - q[5] * py)
            along += normals[h, i, 1] * (q[1] + q[5] * px - q[3] * pz)
            along += normals[h, i, 2] * (q[2] + q[3] * py - q[4] * px)
            stroke[h, i] = base[i] - along
            force[h, i] = normal_force[i]
    return failed


@njit(cache=True, error_model="numpy", nogil=True)
def _load(
    weight: Floats, weight_point: Floats, strap: Floats, strap_point: Floats, strap_share: float,
    lift: float, load: Floats, moment: Floats,
) -> None:  # fmt: skip
    for r in range(3):
        load[r] = weight[r] + strap_share * strap[r]
        moment[r] = 0.0
    for share, force, point in ((1.0, weight, weight_point), (strap_share, strap, strap_point)):
        fx, fy, fz = share * force[0], share * force[1], share * force[2]
        px, py, pz = point[0], point[1], point[2] + lift
        moment[0] += py * fz - pz * fy
        moment[1] += pz * fx - px * fz
        moment[2] += px * fy - py * fx


@njit(cache=True, error_model="numpy", nogil=True)
def judge(
    first: int, last: int, stroke: Floats, brow: Floats, zones: Integers, areas: Floats,
    foam: Floats, knots: Floats, weights: Floats, bands: Floats, zone_stroke: Floats,
    zone_pressure: Floats, zone_peak: Floats, zone_gap: Floats, right: Bits,
) -> None:  # fmt: skip
    """Zone means and the verdict of heads first to last - 1.

    Parameters
    ----------
    stroke, brow
        Of each head, shapes (h, s) and (h,) [mm].
    zones, areas, foam, knots, weights
        As in `rest_on_heads`.
    bands
        Loose and tight pressure, hot spot [kPa], brow low and high, largest gap [mm]: shape (6,).
    zone_stroke, zone_pressure, zone_peak, zone_gap
        Out, shape (h, 8): mean stroke [mm], mean and peak pressure [kPa], largest gap [mm].
    right
        Out, shape (h,): 1 where everything is in its band at once.
    """
    count = foam.shape[1]
    whole = np.zeros(count)
    for i in range(zones.shape[0]):
        whole[zones[i]] += areas[i]
    for h in range(first, last):
        for z in range(count):
            zone_stroke[h, z], zone_pressure[h, z] = 0.0, 0.0
            zone_peak[h, z], zone_gap[h, z] = 0.0, -1e9
        for i in range(zones.shape[0]):
            z = zones[i]
            value = foam[h, z] * pressure(knots[z], weights[z], stroke[h, i])[0]
            share = areas[i] / whole[z]
            zone_stroke[h, z] += share * stroke[h, i]
            zone_pressure[h, z] += share * value
            zone_peak[h, z] = max(zone_peak[h, z], value)
            zone_gap[h, z] = max(zone_gap[h, z], -stroke[h, i])
        fits = bands[3] <= brow[h] <= bands[4]
        for z in range(count):
            if whole[z] == 0.0:
                continue
            fits = fits and bands[0] <= zone_pressure[h, z] <= bands[1]
            fits = fits and zone_peak[h, z] <= bands[2] and zone_gap[h, z] <= bands[5]
        right[h] = 1 if fits else 0
