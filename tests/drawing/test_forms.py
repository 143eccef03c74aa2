"""The same drawing as SVG and in plain characters."""

import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from helmwright.drawing import Ink, characters, drawing_svg, section_svg
from helmwright.drawing.svg import PENS

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def document(three):
    return drawing_svg(three, title="Dunlin & Teal <b>: shell 4", notes=("Half size.",), scale=0.5)


def test_the_document_is_xml_with_a_title_and_a_description(document):
    root = ET.fromstring(document)  # noqa: S314 - our own text
    assert root.tag == f"{SVG}svg"
    assert root.findtext(f"{SVG}title") == "Dunlin & Teal <b>: shell 4"
    assert "5 left pad 7/8 in, touching" in (root.findtext(f"{SVG}desc") or "")
    named = root.attrib["aria-labelledby"].split()
    assert sorted(named) == sorted(e.attrib["id"] for e in root.iter() if "id" in e.attrib)


def test_a_strict_policy_finds_nothing_to_refuse(document):
    root = ET.fromstring(document)  # noqa: S314 - our own text
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags == {"svg", "title", "desc", "g", "path", "text"}
    names = {name for element in root.iter() for name in element.attrib}
    assert not {name for name in names if name in ("style", "class") or name.startswith("on")}


def test_one_ink_draws_it_all(document):
    colors = set(re.findall(r'(?:fill|stroke)="([^"]*)"', document))
    assert colors == {"none", "#000000"}


def test_a_millimeter_is_half_a_millimeter_on_paper(document):
    root = ET.fromstring(document)  # noqa: S314 - our own text
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    assert float(root.attrib["width"].removesuffix("mm")) == pytest.approx(0.5 * width, abs=0.01)
    assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(0.5 * height, abs=0.01)


def test_what_is_drawn_has_the_size_of_the_thing(three):
    root = ET.fromstring(section_svg(three[1]))  # noqa: S314 - our own text
    paths = list(root.iter(f"{SVG}path"))
    shell = np.array(re.findall(r"(-?[\d.]+) (-?[\d.]+)", paths[0].attrib["d"]), dtype=float)
    assert np.allclose(np.ptp(shell, axis=0), np.ptp(three[1].shell, axis=0), atol=0.11)
    assert {path.attrib.get("data-ink") for path in paths} >= {"head", "pad", "pressure", "free"}


def test_nothing_is_drawn_outside_the_page(three):
    for section in three:
        inside = np.concatenate([section.shell, *(line.points for line in section.lines)])
        assert np.all(inside >= section.low - 1e-9)
        assert np.all(inside <= section.high + 1e-9)


def test_every_ink_has_a_pen():
    assert set(PENS) == set(Ink) - {Ink.SHELL}


def test_a_fraction_is_built_and_never_typed(document):
    root = ET.fromstring(document)  # noqa: S314 - our own text
    words = [element.text or "" for element in root.iter(f"{SVG}text")]
    assert not [word for word in words if "/" in word]
    assert words.count("8") >= 4


@pytest.mark.parametrize(("width", "scale"), [(29, 9.6), (40, 7.0)])
def test_characters_keep_their_width_and_show_shell_pads_and_head(three, width, scale):
    for section in three:
        lines = characters(section, width=width, mm_per_column=scale)
        assert max(len(line) for line in lines) <= width
        assert {"#", ":", "."} <= set("".join(lines))


def test_characters_are_to_scale_too(three):
    lines = characters(three[1], width=41, mm_per_column=7.0)
    columns = [at for line in lines for at, mark in enumerate(line) if mark == "#"]
    rows = [at for at, line in enumerate(lines) if "#" in line]
    size = np.ptp(three[1].shell, axis=0)
    assert 7.0 * (max(columns) - min(columns) + 1) == pytest.approx(size[0], abs=10.0)
    assert 14.0 * (max(rows) - min(rows) + 1) == pytest.approx(size[1], abs=20.0)


@pytest.mark.parametrize("width", [29, 27, 25, 23, 21])
def test_words_in_a_drawing_of_characters_never_touch(three, width):
    rows = characters(three[0], width=width, mm_per_column=278.0 / width)
    assert not [row for row in rows if re.search(r"\d[a-z]", row)]
    assert any("7/8" in row for row in rows)
