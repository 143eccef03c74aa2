"""The sections show the middle head, the shell and the pads as they are, to scale."""

import numpy as np
import pytest

from helmwright.anatomy import Over, Reading, estimate_head
from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.drawing import NUMBERS, Ink, Size, sections
from helmwright.drawing.outline import Fill, pad_cut
from helmwright.drawing.plane import jaw_plane, level_plane, side_plane
from helmwright.drawing.sections import COMB_MM_PER_KPA, comb_mm
from helmwright.fit import Build
from helmwright.fit.middle import middle_rest
from tests.drawing.conftest import HEAD, READ, THICK, drawn, written
from tests.roster.stand_in import SHEET, outlook

SHELL = SHEET.shell(4)


def outline(section, ink=Ink.HEAD):
    return np.concatenate([line.points for line in section.of(ink)])


def test_the_head_is_as_high_as_it_was_estimated(three):
    side = three[0]
    assert outline(side)[:, 1].max() == pytest.approx(HEAD.mean_of("tragion_to_top"), abs=0.2)


def test_the_head_is_as_long_and_as_broad_as_it_was_estimated(three):
    side, _, jaw = three
    assert np.ptp(outline(side)[:, 0]) == pytest.approx(HEAD.mean_of("head_length"), rel=0.01)
    low = outline(jaw)[outline(jaw)[:, 1] < -30.0]
    at_pads = low[np.argsort(np.abs(low[:, 1] + 35.0))[:2]]
    assert np.ptp(at_pads[:, 0]) == pytest.approx(HEAD.mean_of("jaw_pad_width"), rel=0.03)


def test_the_shell_is_as_broad_as_calipers_find_it(three):
    inside = three[1].shell[: len(three[1].shell) // 2]
    assert np.ptp(inside[:, 0]) == pytest.approx(SHELL.inside_breadth_mm, rel=0.03)
    assert np.ptp(inside[:, 0]) <= SHELL.inside_breadth_mm + 0.1


def test_every_pad_gives_what_the_rest_says(rest):
    # The crown's first contact lies in the middle plane, the others near their planes.
    cut = pad_cut(rest, side_plane(rest), Zone.CROWN)
    middle = len(cut.back) // 2
    given = cut.free_mm - cut.face_mm[middle]
    assert given == pytest.approx(rest.strokes(Zone.CROWN)[0], abs=0.4)
    for zone in (Zone.FRONT, Zone.LEFT, Zone.RIGHT, Zone.REAR):
        level = pad_cut(rest, level_plane(rest), zone)
        stroke = (level.free_mm - level.face_mm).mean()
        assert stroke == pytest.approx(rest.strokes(zone).mean(), abs=1.0)


def test_the_gap_at_each_contact_and_its_stroke_make_up_the_thickness(rest):
    points = rest.placed(rest.seating.points)
    ways = rest.seating.inward @ rest.turn.T
    gaps = rest.head.ovoids.clearances(0, points, ways)
    pads = np.array(rest.build.pads)[rest.seating.zones]
    thickness = rest.laws.thickness_mm[rest.seating.zones, pads]
    assert np.allclose(gaps + rest.stroke_mm, thickness, atol=0.15)


def test_a_place_of_the_shell_is_found_again(rest):
    points = rest.seating.points
    assert np.allclose(rest.drawn(rest.placed(points)), points, atol=1e-9)
    assert np.allclose(rest.turn @ rest.turn.T, np.eye(3), atol=1e-12)


def test_the_brow_height_of_the_drawing_is_that_of_the_rest(rest):
    assert rest.front_edge[2] - rest.head.brow_mm[0] == pytest.approx(rest.brow_mm, abs=0.1)


def test_a_thinner_pad_leaves_a_gap_and_says_so():
    side = drawn(Build(6, (4, 0, 0, 0, 0, 0, 0, 0)))[0]
    assert "1 front pad 5/8 in, clear of the head" in side.told
    assert side.of(Ink.CLEARANCE)
    assert len(side.of(Ink.PRESSURE)) < len(drawn(Build(4, THICK))[0].of(Ink.PRESSURE))


def test_no_pad_reaches_into_the_head(rest):
    for plane, zone in (
        (side_plane(rest), Zone.NAPE),
        (level_plane(rest), Zone.LEFT),
        (jaw_plane(rest), Zone.JAW_RIGHT),
    ):
        cut = pad_cut(rest, plane, zone)
        face = cut.at(cut.face_mm)
        # The plane's own depth is that of any of its points.
        depth = plane.origin @ plane.normal
        points = face[:, :1] * plane.right + face[:, 1:] * plane.up + depth * plane.normal
        levels = [rest.head.ovoids.level_at(0, point) for point in points]
        assert min(levels) > -1e-3
        assert [fill for fill, _ in cut.layers] == [Fill.STIFF, Fill.SOFT]
        assert np.all(cut.layers[0][1] < cut.face_mm)


def test_the_comb_is_as_long_as_the_mean_pressure_of_the_outlook(three):
    best = outlook(SHEET, Build(4, THICK), fits=0.5, found=0.3)
    for section in three:
        strokes = section.of(Ink.PRESSURE)
        lengths = [np.linalg.norm(s.points[1] - s.points[0]) for s in strokes]
        assert lengths
        expected = COMB_MM_PER_KPA * best.zones[0].pressure_kpa.mean
        assert np.allclose(lengths, expected, rtol=0.01)


def test_a_comb_grows_no_longer_than_the_hardest_bearable_pressure():
    assert comb_mm(4.0) == pytest.approx(10.4)
    assert comb_mm(-1.0) == 0.0
    assert comb_mm(400.0) == comb_mm(14.0) == pytest.approx(36.4)


def test_every_zone_is_numbered_and_carries_its_thickness(three):
    labels = [label for section in three for label in section.labels]
    told = {label.zone: label.text for label in labels if label.size is Size.THICKNESS}
    numbers = {label.zone: label.text for label in labels if label.size is Size.ZONE}
    assert numbers == {zone: str(number) for zone, number in NUMBERS.items()}
    pairs = zip(ZONES, SHEET.pads, THICK, strict=True)
    assert told == {zone: pad.labels[at].removesuffix(" in") for zone, pad, at in pairs}


def test_left_is_drawn_left_in_both_views_that_have_it(three):
    for section, zone in ((three[1], Zone.LEFT), (three[2], Zone.JAW_LEFT)):
        (number,) = (x for x in section.labels if x.zone is zone and x.size is Size.ZONE)
        (other,) = (x for x in section.labels if x.zone is zone.mirrored and x.size is Size.ZONE)
        assert number.at[0] < 0.0 < other.at[0]


def test_a_build_in_the_mirror_is_drawn_in_the_mirror():
    mirrored = tuple(THICK[ZONES.index(zone.mirrored)] for zone in ZONES)
    assert mirrored != THICK
    for here, there in zip(drawn(Build(4, THICK)), drawn(Build(4, mirrored)), strict=True):
        if here.name != "side":
            # Head and shell run around the other way; their extents and areas tell.
            assert here.low[0] == pytest.approx(-there.high[0], abs=0.1)
            assert here.high[0] == pytest.approx(-there.low[0], abs=0.1)
        assert here.high[1] == pytest.approx(there.high[1], abs=0.1)


def test_a_zone_without_a_pad_is_left_out():
    build = Build(4, THICK)
    bare = tuple(
        pad if pad.zone is not Zone.REAR else type(pad)(**{**_fields(pad), "seats": ()})
        for pad in SHEET.pads
    )
    sheet = type(SHEET)(**{**_fields(SHEET), "pads": bare, "without_pad": ((Zone.REAR, "none"),)})
    rest = middle_rest(HEAD, sheet, build)
    assert len(rest.contacts(Zone.REAR)) == 0
    assert np.allclose(level_plane(rest).up, [1.0, 0.0, 0.0])


def _fields(data):
    return {name: getattr(data, name) for name in data.__dataclass_fields__}


def test_an_air_cell_is_left_white_between_its_layers():
    redstart = load_packaged("redstart")
    rest = middle_rest(HEAD, redstart, Build(4, redstart.delivered))
    cut = pad_cut(rest, level_plane(rest), Zone.LEFT)
    assert [fill for fill, _ in cut.layers] == [Fill.STIFF, Fill.AIR, Fill.SOFT]
    depths = np.array([depth for _, depth in cut.layers])
    assert np.all(np.diff(depths, axis=0) > 0.0)
    assert np.allclose(depths[-1], np.minimum(cut.skin_mm, cut.free_mm))


def test_braids_are_drawn_between_pad_and_skin_and_the_comb_stands_on_the_skin():
    head = estimate_head([Reading(key, mm, over=Over.BRAIDS) for key, mm in READ.items()])
    build = Build(4, THICK)
    rest = middle_rest(head, SHEET, build)
    best = outlook(SHEET, build, fits=0.5, found=0.3)
    level = sections(rest, best, written(build))[1]
    assert level.of(Ink.WORN)
    cut = pad_cut(rest, level_plane(rest), Zone.LEFT)
    assert cut.worn_mm > 1.0
    assert np.all(cut.face_mm < cut.skin_mm)
    skin = np.concatenate([line.points for line in level.of(Ink.HEAD)])
    for stroke in level.of(Ink.PRESSURE):
        assert np.min(np.linalg.norm(skin - stroke.points[0], axis=1)) < 3.0
    assert not drawn(build)[1].of(
        Ink.WORN
    )  # a head of which nobody said what was worn, nearly bare
