"""`helmwright sheet press`, from what is typed to what is put into the sheet."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from helmwright.catalogue import Zone, packaged_text, parse_sheet
from helmwright.cli import main

POINTS = ("0 lb: 7/8 in", "1 lb: 27/32 in", "2 lb: 25/32 in", "4 lb: 11/16 in")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    place = tmp_path / "mine.toml"
    place.write_text(packaged_text("ouzel"), encoding="utf-8")
    return place


def pressed(mine: Path, *points: str, zone: str = "front", plate: str = "3 x 2 in") -> Result:
    words = ["sheet", "press", str(mine), "--zone", zone, "--pad", "7/8 in", "--plate", plate]
    return CliRunner().invoke(main, [*words, *points])


def test_the_section_that_is_printed_makes_the_sheet_that_was_told(mine):
    told = pressed(mine, *POINTS)
    assert told.exit_code == 0
    page = " ".join(told.output.split())
    assert "the fit foam is" in page
    assert "Assumed: errors of the thickness" in page
    block = told.output[told.output.index("[[press]]") :]
    sheet = parse_sheet(packaged_text("ouzel") + "\n" + block, name="mine")
    (finding,) = sheet.presses
    assert f"{finding.factor:.2f} times as stiff" in page
    assert sheet.pad(Zone.FRONT).fit_foam.key == "cushion_pressed"
    assert mine.read_text(encoding="utf-8") == packaged_text("ouzel")


def test_a_sheet_with_the_section_says_so_when_checked(mine):
    block = pressed(mine, *POINTS).output
    block = block[block.index("[[press]]") :]
    mine.write_text(packaged_text("ouzel") + "\n" + block, encoding="utf-8")
    told = CliRunner().invoke(main, ["sheet", "check", str(mine)])
    assert told.exit_code == 0
    assert "press test of the front 7/8 in pad" in " ".join(told.output.split())


@pytest.mark.parametrize("plate", ["3 x 2 in", "3 in x 2 in", "3 in by 2 in", "3 in × 2 in"])
def test_a_plates_size_is_read_as_people_write_it(mine, plate):
    assert 'plate = ["3 in", "2 in"]' in pressed(mine, *POINTS, plate=plate).output
    assert 'plate = ["4 in"]' in pressed(mine, *POINTS, plate="4 in").output


@pytest.mark.parametrize(
    ("points", "told"),
    [
        (("1 lb",), "'1 lb' is no point; write a weight, a colon and a thickness"),
        ((*POINTS[:3], "4 lb: 15/16 in"), "No foam does that"),
        ((*POINTS[:3], "4: 11/16 in"), "4 has no unit; write lb, oz, g or kg behind it"),
    ],
)
def test_what_is_wrong_is_said_without_a_line_that_nobody_wrote(mine, points, told):
    answer = pressed(mine, *points)
    assert answer.exit_code == 2
    assert told in answer.output
    assert "line " not in answer.output


def test_bare_lengths_are_inches_as_in_a_new_sheet(mine):
    bare = tuple(each.removesuffix(" in") for each in POINTS)
    words = ["sheet", "press", str(mine), "--zone", "front", "--plate", "3 x 2"]
    more = ["--reading-error", "1/64", "--layer-error", "1/16"]
    told = CliRunner().invoke(main, [*words, *more, "--pad", "0.875", *bare])
    assert told.exit_code == 0, told.output
    full = CliRunner().invoke(
        main,
        [
            *(*words[:-1], "3 x 2 in", "--reading-error", "1/64 in", "--layer-error", "1/16 in"),
            *("--pad", "7/8 in", *POINTS),
        ],
    )
    assert told.output == full.output
    assert 'pad = "7/8 in"' in told.output
    assert '["1 lb", "27/32 in"]' in told.output


def test_a_doubtful_press_is_not_to_be_put_into_the_sheet_before_it_is_repeated(mine):
    far = ("0 lb: 22.2 mm", "2 lb: 22 mm", "4 lb: 21.4 mm", "6 lb: 19 mm", "8 lb: 16.5 mm")
    page = " ".join(pressed(mine, *far).output.split())
    assert "So far from its curve it was not expected" in page
    assert "What the press says is doubtful" in page
    assert "Put this at its end, and check it again" not in page
    assert "Put this at its end, and check it again" in " ".join(
        pressed(mine, *POINTS).output.split()
    )


def test_a_faulty_sheet_is_told_with_its_lines_first(mine):
    mine.write_text(packaged_text("ouzel").replace("format = 1", "format = 2"), encoding="utf-8")
    answer = pressed(mine, *POINTS)
    assert answer.exit_code == 2
    assert "format 2 is not known to this version" in answer.output
