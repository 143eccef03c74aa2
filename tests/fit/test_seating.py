"""The inside of a shell meets its caliper numbers, and pads sit where the sheet says."""

import re
from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.catalogue import ZONES, ModelSheet, SheetError, ShellForm, Zone, hollow, parse_sheet
from helmwright.catalogue.reading.pads import _ROOMS
from helmwright.fit.seating import seat_shell, shell_surface
from tests.catalogue.plain_sheet import PLAIN
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
    at_the_jaw = np.array([hollow.JAW_FORWARD_MM, 0.0, OUZEL.form.jaw_height_mm])
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


FORM = {
    "level": (0.0, 80.0),
    "jaw_height": (-90.0, 20.0),
    "section_exponent": (1.8, 4.0),
    "dome_exponent": (1.5, 4.0),
    "rear_taper": (0.5, 4.0),
    "front_slope": (0.0, 1.0),
}
SHELL = {
    "inside_length": (150.0, 330.0),
    "inside_breadth": (120.0, 280.0),
    "inside_depth": (50.0, 150.0),
    "front_edge": (20.0, 100.0),
    "jaw_width": (100.0, 260.0),
}
LENGTHS = {*SHELL, "level", "jaw_height"}


def everywhere(text: str) -> str:
    """A sheet whose pads have contacts in every corner of the room of their zone."""
    for zone, room in _ROOMS.items():
        middle = [sum(room.azimuth_deg) / 2, sum(room.elevation_deg) / 2]
        seats = [middle, *map(list, product(room.azimuth_deg, room.elevation_deg))]
        text = re.sub(rf'(zone = "{zone}"[^\[]*?seats = )[^\n]*', rf"\g<1>{seats}", text)
    return text


ONE_SHELL = everywhere(
    PLAIN[: PLAIN.index("[[shell]]\nnumber = 2")] + PLAIN[PLAIN.index("[[pad]]") :]
).replace("shells = [1, 2]", "shells = [1]")


def ends_or_between(low: float, high: float) -> st.SearchStrategy[float]:
    return (st.sampled_from([low, high]) | st.floats(low, high)).map(lambda one: round(one, 3))


def written(numbers: dict[str, float]) -> str:
    """The plain sheet with one shell and those numbers."""
    words = {key: f'"{one!r} mm"' if key in LENGTHS else repr(one) for key, one in numbers.items()}
    text = ONE_SHELL
    for key in SHELL:
        text = re.sub(rf"^{key} = .*$", f"{key} = {words[key]}", text, flags=re.MULTILINE)
    form = "\n".join(f"{key} = {words[key]}" for key in FORM)
    return text.replace("[[shell]]", f"[form]\n{form}\n\n[[shell]]")


@st.composite
def numbers(draw: st.DrawFn) -> dict[str, float]:
    """Numbers of a form and a shell, each within its own interval, ends often."""
    return {key: draw(ends_or_between(*ends)) for key, ends in {**FORM, **SHELL}.items()}


def room_for_the_jaw(numbers: dict[str, float]) -> tuple[float, float]:
    length, breadth = numbers["inside_length"], numbers["inside_breadth"]
    shell = replace(OUZEL.shells[0], inside_length_mm=length, inside_breadth_mm=breadth)
    shape = {f"{key}_mm" if key in LENGTHS else key: numbers[key] for key in FORM}
    return hollow.jaw_widths_mm(shell, ShellForm(**shape))


def check_seated(sheet: ModelSheet) -> None:
    """Every shell can be seated, its contacts on a smooth hollow, its jaw as wide as it says."""
    for shell in sheet.shells:
        seating, surface = seat_shell(shell, sheet), shell_surface(shell, sheet.form)
        assert np.isfinite(seating.points).all()
        np.testing.assert_allclose(np.linalg.norm(seating.inward, axis=1), 1.0)
        for point, inward in zip(seating.points, seating.inward, strict=True):
            assert surface.level_at(0, point) == pytest.approx(0.0, abs=1e-5)
            assert surface.level_at(0, point + 0.2 * inward) < 0.0
        at_the_jaw = np.array([hollow.JAW_FORWARD_MM, 0.0, sheet.form.jaw_height_mm])
        side = surface.ray(0, at_the_jaw, np.array([0.0, 1.0, 0.0]))
        assert 2.0 * side[1] == pytest.approx(shell.jaw_width_mm, abs=0.05)


@given(numbers())
@settings(max_examples=300)
def test_a_sheet_is_refused_or_can_be_seated(wild):
    try:
        sheet = parse_sheet(written(wild), name="wild")
    except SheetError:
        return
    check_seated(sheet)


@given(numbers(), st.floats(0.0, 1.0))
@settings(max_examples=200)
def test_a_jaw_that_the_other_numbers_leave_room_for_is_accepted_and_can_be_seated(wild, share):
    room = {
        "rear_taper": max(wild["rear_taper"], 1.1),
        "jaw_height": min(wild["jaw_height"], wild["level"] - 10.0),
        "inside_depth": max(wild["inside_depth"], wild["level"] + 20.0 - wild["front_edge"]),
    }
    wild = wild | room
    ends = room_for_the_jaw(wild)
    jaw = ends[0] + share * (ends[1] - ends[0])
    wild["jaw_width"] = round(min(max(jaw, 100.0), 260.0), 3)
    if not ends[0] <= wild["jaw_width"] <= ends[1]:
        return
    check_seated(parse_sheet(written(wild), name="wild"))


@pytest.mark.parametrize(
    ("key", "value"), [("rear_taper", 0.8), ("jaw_height", 20.0), ("jaw_width", 120.0)]
)
def test_what_would_make_an_edge_is_refused_when_the_sheet_is_read(key, value):
    usual = {
        "level": 30.0, "jaw_height": -35.0, "section_exponent": 2.35, "dome_exponent": 2.3,
        "rear_taper": 1.35, "front_slope": 0.22, "inside_length": 229.0, "inside_breadth": 188.0,
        "inside_depth": 86.0, "front_edge": 55.0, "jaw_width": 166.0,
    }  # fmt: skip
    check_seated(parse_sheet(written(usual), name="usual"))
    level = {"level": 20.0} if key == "jaw_height" else {}
    with pytest.raises(SheetError, match=key):
        parse_sheet(written(usual | level | {key: value}), name="edged")
