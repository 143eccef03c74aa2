"""Rests of a helmet with air cells, whose pressure hardly rises over much of their stroke."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.fit.contact import SLIDE_IN, Trial
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import delivered, men, moved, trial_of
from tests.outside.contact_energy import Contact, contact_of, phases_of

HEADS = 2
REDSTART = load_packaged("redstart")
BUILDS = [delivered(sheet=REDSTART), moved(delivered(sheet=REDSTART), crown=-1, nape=2, front=1)]


def at_gauge(kpa: float) -> ModelSheet:
    """The model with every cell at another pressure."""
    pads = (replace(pad, cell=pad.cell.at_gauge(kpa)) if pad.cell else pad for pad in REDSTART.pads)
    return replace(REDSTART, pads=tuple(pads))


SLACK = pad_laws(at_gauge(0.2))
"""Laws of cells that hold next to nothing."""


@cache
def trial() -> Trial:
    unknowns = draw_unknowns(REDSTART, HEADS, np.random.default_rng(5))
    return trial_of(men(HEADS), sheet=REDSTART, unknowns=unknowns)


@pytest.mark.outside("scipy_optimize")
@pytest.mark.parametrize("head", range(HEADS))
@pytest.mark.parametrize("build", BUILDS)
def test_the_rest_on_air_is_scipys_minimum(build, head):
    """Nothing but friction and the other pads keeps a helmet from wandering on such cells.

    Tolerance: 0.02 mm of stroke, 0.05 N of force. Seen: 0.03 N.
    """
    rest = trial().rest(build)
    pose, contact = phases_of(trial(), build, head)[-1]
    assert rest.unsettled == 0
    assert rest.stroke_mm[head] == pytest.approx(contact.stroke(pose), abs=0.02)
    assert rest.force_n[head] == pytest.approx(contact.normal_force(pose), abs=0.05)


def filled_last(head: int) -> tuple[np.ndarray, Contact]:
    """Put on with slack cells, let go, and only then filled, strapped and shaken."""
    build = BUILDS[0]
    slack = trial_of(men(HEADS), sheet=REDSTART, unknowns=trial().unknowns, laws=SLACK)
    contact, filled = contact_of(trial(), build, head), contact_of(trial(), build, head).laws
    up = np.array([0.0, 0.0, trial().lift_mm(build)[head]])
    force, point, strap, strap_point, on, kept = trial().loads
    slide, q = np.array([0.0, 0.0, SLIDE_IN.value]), np.zeros(6)
    contact.anchors = slide - contact.normals * (contact.normals @ slide)[:, None]
    contact.laws = contact_of(slack, build, head).laws
    contact.caps = contact.friction * contact.normal_force(q)
    for phase in range(4):
        if phase:
            contact.keep(q, kept[phase])
        if phase == 2:
            contact.laws = filled
        tug = on[phase] * trial().unknowns.pull[head] * strap
        moment = np.cross(point[phase] + up, force[phase]) + np.cross(strap_point + up, tug)
        q = contact.settled(q, force[phase] + tug, moment)
    return q, contact


@pytest.mark.outside("scipy_optimize")
@pytest.mark.parametrize("head", range(HEADS))
def test_filling_last_leaves_the_cells_pressures_as_filling_first_does(head):
    """Other pads differ by some tenths of kPa, the brow by a millimeter or so."""
    pose, contact = filled_last(head)
    rest, zones, edge = trial().rest(BUILDS[0]), trial().seating.zones, trial().seating.front_edge
    last, first = contact.normal_force(pose), rest.force_n[head]
    for place, pad in enumerate(REDSTART.pads):
        own = zones == place
        apart = (last[own].sum() - first[own].sum()) / (0.1 * contact.areas[own].sum())
        assert abs(apart) < (0.25 if pad.cell else 1.5)
    height = [q[2] - q[4] * edge[0] for q in (pose, rest.pose[head])]
    assert abs(height[0] - height[1]) < 5.0
