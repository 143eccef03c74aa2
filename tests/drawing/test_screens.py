"""The drawing for a page takes its color from the page, and stands beside others."""

import re
import xml.etree.ElementTree as ET

import pytest

from helmwright.drawing import drawing_svg, screen_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def shown(three):
    return screen_svg(three[:2], title="Shell 3 & its pads", name="after")


def test_it_takes_the_color_of_the_page_in_every_mode(shown):
    assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', shown)) == {"none", "currentColor"}


def test_a_strict_policy_finds_nothing_to_refuse_on_a_screen(shown):
    root = ET.fromstring(shown)  # noqa: S314 - our own text
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags == {"svg", "title", "desc", "g", "path", "text"}
    names = {name for element in root.iter() for name in element.attrib}
    assert not {name for name in names if name == "style" or name.startswith("on")}


def test_two_of_one_page_have_names_of_their_own(three, shown):
    other = screen_svg(three[:2], title="Shell 3", name="now")
    ids = [set(re.findall(r' id="([^"]*)"', text)) for text in (shown, other)]
    assert ids == [{"after-t", "after-d"}, {"now-t", "now-d"}]
    assert 'aria-labelledby="after-t after-d"' in shown


def test_it_is_the_drawing_on_paper_but_for_color_and_size(three, shown):
    paper = drawing_svg(three[:2], title="Shell 3 & its pads", scale=1.0)
    paths = [re.findall(r' d="([^"]*)"', text) for text in (paper, shown)]
    assert paths[0] == paths[1]
    root = ET.fromstring(shown)  # noqa: S314 - our own text
    assert "width" not in root.attrib
    assert ET.fromstring(paper).attrib["viewBox"] == root.attrib["viewBox"]  # noqa: S314
