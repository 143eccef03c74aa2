"""The page of a model sheet."""

import pytest

from helmwright.catalogue import load_packaged, packaged_models
from helmwright.reports.sheet_page import sheet_page


@pytest.mark.parametrize("name", packaged_models())
@pytest.mark.parametrize("width", [40, 61, 80, 120])
def test_no_line_is_wider_than_the_terminal(name, width):
    assert max(len(line) for line in sheet_page(load_packaged(name), width).splitlines()) <= width


def test_a_narrow_page_says_of_every_shell_and_pad_what_a_wide_one_does():
    siskin = load_packaged("siskin")
    page = " ".join(sheet_page(siskin, 40).split())
    assert "Shell 2: 21 1/2 to 22 1/2 in (546 to 572 mm), inside in mm 226 x 183 (assumed)" in page
    assert "crown: 1/2, 3/4, 1, 1 1/4; as delivered 3/4" in page
    assert page.count("as delivered") == 8
