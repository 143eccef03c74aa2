"""Where bars and snaps are: read from a sheet, refused on their line, usual where it is silent."""

import itertools
from dataclasses import astuple

import pytest

from helmwright.catalogue import FaceArea, advise, load_packaged, parse_sheet
from helmwright.catalogue.face_places import BarPlace, usual_places
from tests.catalogue.plain_sheet import PLAIN, complaints

GUARD = "glasses = true\nshells = [1, 2]\n"
STRAP = 'part_numbers = ["S-1", "S-2"]\n'
PLACES = 'bar_places = [["50 mm", "90 mm"], ["2 in", "4 1/2 in"], ["50 mm", "140 mm"]]'
SNAPS = 'snaps = [["1 in", "1 in"], ["-20 mm", "-1 1/2 in"]]'
LENGTHS = 'strap_lengths = [["4 in", "8 in"], ["90 mm", "180 mm"]]'
GUARD_LINE = PLAIN[: PLAIN.index(GUARD)].count("\n") + 3
STRAP_LINE = PLAIN[: PLAIN.index(STRAP)].count("\n") + 2


def with_guard(*lines: str) -> str:
    return PLAIN.replace(GUARD, GUARD + "".join(f"{line}\n" for line in lines))


def with_strap(*lines: str) -> str:
    return PLAIN.replace(STRAP, STRAP + "".join(f"{line}\n" for line in lines))


def test_places_of_bars_are_read_in_any_unit():
    text = with_guard(
        PLACES,
        'bar_thickness = "1/4 in"',
        'mass_center = ["-5 mm", "100 mm"]',
        'side_opening = ["-15 mm", "170 mm"]',
    )
    (guard,) = parse_sheet(text, name="sheet").face_guards
    assert guard.places[0] == BarPlace(50.0, 90.0)
    second = guard.places[1]
    assert [second.ahead_mm, second.below_mm] == pytest.approx([50.8, 114.3])
    assert guard.bar_mm == pytest.approx(6.35)
    assert guard.mass_center == BarPlace(-5.0, 100.0)
    assert guard.side_opening_mm == (-15.0, 170.0)


def test_snaps_and_how_far_their_straps_let_out_are_read_together():
    extra = ('snaps_across = "200 mm"', 'cup_width = "3 1/2 in"')
    arcs = 'cup_chin_arcs = [["10 in", "12 in"], ["12 in", "15 in"]]'
    (strap,) = parse_sheet(with_strap(SNAPS, LENGTHS, *extra, arcs), name="sheet").chin_straps
    assert astuple(strap.snaps[0]) == pytest.approx((25.4, 25.4, 101.6, 203.2))
    assert strap.snaps[1].above_mm == pytest.approx(-38.1)
    assert [strap.across_mm, strap.cup_mm] == pytest.approx([200.0, 88.9])
    assert list(strap.chin_arcs_mm[1]) == pytest.approx([304.8, 381.0])


def test_a_sheet_may_be_silent_about_all_of_it():
    sheet = parse_sheet(PLAIN, name="sheet")
    (guard,), (strap,) = sheet.face_guards, sheet.chin_straps
    assert (guard.places, guard.bar_mm, guard.mass_center) == ((), None, None)
    assert (strap.snaps, strap.across_mm, strap.cup_mm, strap.chin_arcs_mm) == ((), None, None, ())


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ('bar_places = [["50 mm", "90 mm"], ["50 mm", "115 mm"]]',),
            "bar_places: places: 2; bars: 3. Write one place for each bar across, or none.",
        ),
        (
            ('bar_places = [["50 mm", "90 mm"], ["50 mm", "85 mm"], ["50 mm", "140 mm"]]',),
            (
                "bar_places: this bar is no lower than the one before (85 mm, 90 mm). "
                "List the bars from top to bottom."
            ),
        ),
        (
            ('bar_places = ["50 mm", "90 mm", "95 mm"]',),
            'bar_places: "50 mm" is no pair of lengths. ',
        ),
        (
            ('bar_places = [["50 mm", 90], ["50 mm", "99 mm"], ["50 mm", "140 mm"]]',),
            "bar_places: 90 has no unit; 90 mm? ",
        ),
        (
            ('bar_places = [["50 cm", "90 mm"], ["50 mm", "99 mm"], ["50 mm", "140 mm"]]',),
            'bar_places: "50 cm" is out of range',
        ),
        (('mass_center = ["50 mm"]',), "mass_center: lengths: 1; needed: 2. "),
        (('side_opening = ["168 mm"]',), "side_opening: lengths: 1; needed: 2. "),
        (
            ('side_opening = ["-15 mm", "60 mm"]',),
            'side_opening: "60 mm" is out of range',
        ),
        (('bar_thickness = "1 in"',), 'bar_thickness: "1 in" is out of range'),
        (('bar_places = [["50 mm"]]',), 'bar_places: ["50 mm"] is no pair of lengths. '),
    ],
)
def test_a_fault_of_a_guards_places_is_named_on_its_line(lines, said):
    first, *_ = complaints(with_guard(*lines))
    assert first.startswith(f'line {GUARD_LINE}: face guard "three bars", {said}')


@pytest.mark.parametrize(
    ("lines", "line", "said"),
    [
        (
            ('snaps = [["1 in", "1 in"]]', LENGTHS),
            0,
            ("snaps: 1 on a side, where 4 points need 2. "
            "Write one for each point of one side, high to low."),
        ),
        ((SNAPS,), 0, "strap_lengths: snaps and strap_lengths go together. "),
        (
            (SNAPS, 'strap_lengths = [["4 in", "8 in"], ["7 in", "3 in"]]'),
            1,
            "strap_lengths: 177.8 mm is not under 76.2 mm. Write the smaller length first.",
        ),
        (
            ('cup_chin_arcs = [["10 in", "12 in"]]',),
            0,
            "cup_chin_arcs: bands: 1; sizes: 2. Write one band for each size, in order.",
        ),
        (('cup_width = "3 1/2"',), 0, 'cup_width: '),
    ],
)  # fmt: skip
def test_a_fault_of_a_strap_is_named_on_its_line(lines, line, said):
    first, *_ = complaints(with_strap(*lines))
    where = 'chin strap "soft cup", '
    assert where + said in first
    if "go together" not in said:
        assert first.startswith(f"line {STRAP_LINE + line}: ")


def test_usual_places_go_down_in_even_steps_from_what_is_covered():
    nose = usual_places((FaceArea.NOSE, FaceArea.MOUTH), 4)
    mouth = usual_places((FaceArea.MOUTH, FaceArea.JAW), 3)
    assert len(nose) == 4
    assert nose[0].below_mm < mouth[0].below_mm
    steps = [low.below_mm - high.below_mm for high, low in itertools.pairwise(nose)]
    assert steps == pytest.approx([steps[0]] * 3)
    assert nose[-1] == mouth[-1]


def test_one_bar_over_the_eyes_lies_before_them():
    (bar,) = usual_places((FaceArea.EYES,), 1)
    assert 30.0 < bar.below_mm < 60.0


def test_the_invented_guards_cover_what_their_bars_say():
    """A bar for each part covered, by the usual heights; none where the guard leaves it open."""
    for guard in load_packaged("ouzel").face_guards:
        assert len(guard.places) == guard.bars
        top = guard.places[0].below_mm
        assert (FaceArea.NOSE in guard.covers) == (top < 80.0)
        assert top > 60.0


def test_advice_names_guards_and_straps_whose_places_are_not_known():
    told = advise(parse_sheet(PLAIN, name="sheet"))
    assert "no places of bars for: three bars. Usual ones are assumed, and wide" in told
    assert "no snaps for: soft cup. No lengths to begin with can be said" in told
    assert not any("no places of bars" in each for each in advise(load_packaged("ouzel")))
