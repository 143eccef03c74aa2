"""What feels snug in a cell is an assumption of its own, and no pad's stiffness."""

from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import ZONES, Zone
from helmwright.fit.contact import Trial
from helmwright.fit.drivers import count_drivers
from helmwright.fit.outlook import Assumption
from helmwright.fit.rater import Rater
from helmwright.fit.seating import pad_laws
from helmwright.fit.turns import FILL_RANGE, Ground, cases
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands
from tests.fit.ordinary import MIDDLE, OUZEL, delivered
from tests.fit.test_fill import REDSTART

COUNT = 100
RING = [ZONES.index(zone) for zone in (Zone.REAR, Zone.LEFT, Zone.RIGHT)]


@cache
def ground(sheet=REDSTART) -> Ground:
    head = estimate_head([Reading("tape_circumference", 570.0)], sex=Sex.MALE)
    heads = head.draw(COUNT, np.random.default_rng(1))
    unknowns = draw_unknowns(sheet, COUNT, np.random.default_rng(2))
    shell, laws, bands = sheet.shell(MIDDLE), pad_laws(sheet), Bands.of(sheet)
    trial = Trial(sheet, shell, laws, head_shapes(heads), unknowns, bands)
    return Ground(head, heads, {MIDDLE: trial}, np.random.default_rng(1))


@pytest.mark.parametrize(
    ("assumption", "moves"), [(Assumption.FILL, True), (Assumption.FOAM, False)]
)
def test_each_turns_its_own_pads_and_no_other(assumption, moves):
    trial = ground().trials[MIDDLE]
    (case,) = (each for each in cases(ground(), COUNT) if each.assumption is assumption)
    ratio = case.turn_to(1.5)(trial).unknowns.foam / trial.unknowns.foam
    own = np.isin(np.arange(len(ZONES)), RING) == moves
    np.testing.assert_allclose(ratio[:, own], 1.5)
    np.testing.assert_allclose(ratio[:, ~own], 1.0)


def test_a_fill_far_from_what_is_assumed_moves_the_chance():
    """At three times the pressure nearly every cell is tight, and the chance falls with it."""
    trial = ground().trials[MIDDLE]
    build = delivered(sheet=REDSTART)
    (case,) = (each for each in cases(ground(), COUNT) if each.assumption is Assumption.FILL)
    far = case.turn_to(3.0)(trial).rest(build)
    assert (far.zone_pressure_kpa[:, RING[1]] > 6.0).mean() > 0.6
    assert far.right.mean() < trial.rest(build).right.mean()
    (told,) = count_drivers(ground(), [build], Rater(), COUNT).values()
    (driver,) = (each for each in told if each.assumption is Assumption.FILL)
    assert (driver.low, driver.high) == FILL_RANGE


def test_a_sheet_without_cells_leans_on_no_fill():
    assert Assumption.FILL not in {each.assumption for each in cases(ground(OUZEL), COUNT)}
