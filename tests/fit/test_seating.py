"""The inside of a shell meets its caliper numbers, and pads sit where the sheet says."""

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.seating import JAW_FORWARD_MM, seat_shell, shell_surface
from tests.fit.ordinary import OUZEL

SHELLS = pytest.mark.parametrize("shell", OUZEL.shells, ids=[s.number for s in OUZEL.shells])


@SHELLS
def test_calipers_in_the_bare_shell_read_the_sheet(shell):
    surface = shell_surface(shell, OUZEL.form)
    middle = np.array([0.0, 0.0, OUZEL.form.level_mm])
    section = surface.section(0, middle, np.array([1.0, 0.0, 0.0]))
    length, breadth = np.ptp(section, axis=0)
    assert length == pytest.approx(shell.inside_length_mm, abs=0.05)
    assert breadth == pytest.approx(shell.inside_breadth_mm, abs=0.05)
    crown = surface.ray(0, middle, np.array([0.0, 0.0, 1.0]))
    assert crown[2] == pytest.approx(shell.front_edge_mm + shell.inside_depth_mm, abs=1e-6)


@SHELLS
def test_the_inside_width_at_the_jaw_is_the_sheets(shell):
    surface = shell_surface(shell, OUZEL.form)
    at_the_jaw = np.array([JAW_FORWARD_MM, 0.0, OUZEL.form.jaw_height_mm])
    side = surface.ray(0, at_the_jaw, np.array([0.0, 1.0, 0.0]))
    assert 2.0 * side[1] == pytest.approx(shell.jaw_width_mm, abs=0.05)


@SHELLS
def test_contacts_lie_on_the_shell_and_face_inward(shell):
    seating = seat_shell(shell, OUZEL)
    surface = shell_surface(shell, OUZEL.form)
    for point, inward in zip(seating.points, seating.inward, strict=True):
        assert surface.level_at(0, point) == pytest.approx(0.0, abs=1e-6)
        assert np.linalg.norm(inward) == pytest.approx(1.0)
        assert surface.level_at(0, point + 5.0 * inward) < 0.0


@SHELLS
def test_the_front_edge_is_in_the_middle_at_its_height_on_the_shell(shell):
    edge = seat_shell(shell, OUZEL).front_edge
    assert edge[1] == 0.0
    assert edge[2] == pytest.approx(shell.front_edge_mm)
    assert shell_surface(shell, OUZEL.form).level_at(0, edge) == pytest.approx(0.0, abs=1e-6)


def test_every_zone_bears_with_the_area_of_its_pad():
    seating = seat_shell(OUZEL.shell(3), OUZEL)
    areas = np.array([OUZEL.pad(zone).area_cm2 for zone in ZONES])
    np.testing.assert_allclose(np.bincount(seating.zones, seating.areas_cm2), areas)
    counts = np.bincount(seating.zones, minlength=len(ZONES))
    assert counts.tolist() == [len(OUZEL.pad(zone).seats) for zone in ZONES]


def test_left_contacts_are_the_mirror_of_right_ones():
    seating = seat_shell(OUZEL.shell(3), OUZEL)
    for zone in (Zone.LEFT, Zone.JAW_LEFT):
        one = seating.points[seating.zones == ZONES.index(zone)]
        two = seating.points[seating.zones == ZONES.index(zone.mirrored)]
        np.testing.assert_allclose(one * [1.0, -1.0, 1.0], two, atol=1e-9)


def test_zones_lie_where_their_names_say():
    seating = seat_shell(OUZEL.shell(3), OUZEL)
    center = {zone: seating.points[seating.zones == place].mean(axis=0)
              for place, zone in enumerate(ZONES)}  # fmt: skip
    assert center[Zone.CROWN][2] == max(point[2] for point in center.values())
    assert center[Zone.FRONT][0] == max(point[0] for point in center.values())
    assert center[Zone.REAR][0] < -80.0
    assert center[Zone.NAPE][0] < 0.0
    assert center[Zone.NAPE][2] < 0.0 < center[Zone.REAR][2]
    assert center[Zone.LEFT][1] > 0.0 > center[Zone.RIGHT][1]
    assert center[Zone.JAW_LEFT][2] < 0.0
