"""The reference page names every key that the reader knows, with the interval it allows."""

import re
from pathlib import Path

import pytest

from helmwright.catalogue import PartKind, packaged_models, packaged_text, parse_sheet
from helmwright.catalogue.reading.foams import _STANDINGS
from helmwright.catalogue.reading.pads import _ROOMS
from helmwright.catalogue.reading.table import Table
from helmwright.catalogue.usual import COMMON_SPREAD, OWN_SHARE, USUAL_PADS
from tests.catalogue.plain_sheet import PLAIN

PAGE = (Path(__file__).parents[2] / "docs/reference/model-sheet.md").read_text(encoding="utf-8")
EXAMPLES = "\n".join(re.findall(r"^```toml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE))
PADS_OF_PLAIN = PLAIN[PLAIN.index('[[pad]]\nzone = "front"') : PLAIN.index("[[face_guard]]")]
OTHER_PADS = re.sub(r'\[\[pad\]\]\nzone = "rear"\n(?:.+\n)+', "", PADS_OF_PLAIN)
MODEL_SECTION = "The model"


def rows(section: str) -> dict[str, str]:
    """The rows of a section's table by their key."""
    heading = section if section == MODEL_SECTION else rf"`\[\[?(?:\w+\.)?{section}\]?\]`"
    found = re.search(rf"^## {heading}.*?(?=^## |\Z)", PAGE, re.DOTALL | re.MULTILINE)
    assert found, f"no section for {section}"
    return dict(re.findall(r"^\| `(\w+)` \|(.*)$", found[0], re.MULTILINE))


def section_of(table: Table) -> str:
    words = [part for part in table.path if isinstance(part, str)]
    return words[-1] if words else MODEL_SECTION


def read_everything() -> None:
    whole = EXAMPLES + OTHER_PADS.replace('"soft"', '"cushion"')
    for text in (whole, PLAIN, *map(packaged_text, packaged_models())):
        parse_sheet(text, name="sheet")


def test_the_examples_of_the_page_make_a_sheet_without_a_fault():
    read_everything()


def test_every_key_that_the_reader_knows_is_on_the_page(monkeypatch):
    asked: dict[str, set[str]] = {}
    close = Table.close

    def noting(table: Table) -> bool:
        asked.setdefault(section_of(table), set()).update(table.asked)
        return close(table)

    monkeypatch.setattr(Table, "close", noting)
    read_everything()
    sections = asked.pop(MODEL_SECTION)
    assert {"shell", "pad", "foam", "form", "instruction", "changing"} <= asked.keys()
    for section, keys in asked.items():
        assert keys == rows(section).keys()
    own = {key for key in sections if f"[{key}]" not in PAGE}
    assert own <= rows(MODEL_SECTION).keys()


@pytest.mark.parametrize("kind", ["as_length", "number", "whole"])
def test_every_interval_on_the_page_is_the_one_that_is_checked(monkeypatch, kind):
    checked: set[tuple[str, str, str]] = set()
    read = getattr(Table, kind)

    def noting(table: Table, key: str, *args, **kwargs):
        low, high = args[-2:] if kind == "as_length" else args[:2]
        checked.add((section_of(table), key, f"{low:g} to {high:g}"))
        return read(table, key, *args, **kwargs)

    monkeypatch.setattr(Table, kind, noting)
    read_everything()
    assert checked
    wrong = [each for each in checked if each[2] not in rows(each[0])[each[1]]]
    assert [each for each in wrong if each[1] != "points"] == []


def test_the_bounds_of_each_zone_are_on_the_page():
    for zone, room in _ROOMS.items():
        low, high = room.azimuth_deg
        azimuth = "any" if high - low == 360 else f"{low:g} to {high:g}"
        elevation = "{:g} to {:g}".format(*room.elevation_deg)
        assert f"| {zone} | {azimuth} | {elevation} |" in PAGE


def test_the_standings_that_a_foam_may_claim_are_on_the_page():
    allowed = rows("foam")["standing"].split("|")[1]
    assert re.findall(r'`"([^"]+)"`', allowed) == list(_STANDINGS)


def test_the_kinds_of_parts_with_steps_of_their_own_are_on_the_page():
    allowed = rows("changing")["part"].split("|")[1]
    assert re.findall(r'`"([^"]+)"`', allowed) == list(PartKind)


def test_the_spreads_of_usual_insides_are_on_the_page():
    section = PAGE[PAGE.index("## A sheet without insides") : PAGE.index("## `[form]`")]
    for number, spread in COMMON_SPREAD.items():
        assert f"| `{number}` | {spread.value:g} mm |" in section
    assert f"Each size by itself adds {OWN_SHARE.value:g} of that" in section


def test_what_the_page_says_of_pads_left_out_is_what_is_taken():
    row = rows("pad")
    areas = {zone: usual.area.value for zone, usual in USUAL_PADS.items()}
    layers = {zone: usual.fit_layer.value for zone, usual in USUAL_PADS.items()}
    assert "crown 80, jaws and nape 20, others 30 (assumed)" in row["area_cm2"]
    assert "crown 8, rear and sides 9, front 10, nape and jaws 12 mm" in row["fit_layer"]
    assert list(areas.values()) == [80, 30, 30, 30, 30, 20, 20, 20]
    assert list(layers.values()) == [8, 10, 9, 9, 9, 12, 12, 12]
