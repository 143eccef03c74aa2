"""The middle heads that usual insides are made for, against the surveys' means.

The surveys tape just above the brow ridges, the trade an inch above the brow: 5 mm less (assumed).
The adult lines blend both surveys of adults, whose lengths differ by 2 mm at nearly the same
circumference, and the youth lines blend boys with some girls, over all ages from 8 to 14: hence the
tolerances.
"""

import pytest

from helmwright.catalogue.usual import ADULT_HEAD, YOUTH_HEAD

STEP_TO_TRADE_MM = -5.0


@pytest.mark.outside("us_army_2012")
def test_the_middle_adult_head_is_that_of_the_men_of_the_army_survey():
    """Means of 4082 men: circumference 574.4, length 199.5, breadth 154.3, tragion to top 131.1."""
    head = ADULT_HEAD.at(574.4 + STEP_TO_TRADE_MM)
    assert head.length_mm == pytest.approx(199.5, abs=2.0)
    assert head.breadth_mm == pytest.approx(154.3, abs=1.5)
    assert head.top_mm == pytest.approx(131.1, abs=1.5)


@pytest.mark.outside("niosh_2003")
def test_the_middle_adult_head_is_that_of_the_men_of_the_survey_of_workers():
    """Means of 2543 men: circumference 576.1, length 197.4, breadth 153.1, bigonial 120.7."""
    head = ADULT_HEAD.at(576.1 + STEP_TO_TRADE_MM)
    assert head.length_mm == pytest.approx(197.4, abs=2.0)
    assert head.breadth_mm == pytest.approx(153.1, abs=1.5)
    assert head.jaw_mm > 120.7


@pytest.mark.outside("snyder_1977")
@pytest.mark.parametrize(
    ("circumference", "length", "breadth", "top"),
    [(525.9, 186.9, 142.2, 119.5), (536.2, 188.4, 146.7, 126.0), (551.0, 192.9, 150.0, 126.3)],
    ids=["boys of 8", "boys of 11", "boys of 14"],
)
def test_the_middle_youth_head_is_that_of_boys(circumference, length, breadth, top):
    """Means of the records: circumference, length, breadth, tragion to top; n 29 to 157 each."""
    head = YOUTH_HEAD.at(circumference + STEP_TO_TRADE_MM)
    assert head.length_mm == pytest.approx(length, abs=3.0)
    assert head.breadth_mm == pytest.approx(breadth, abs=2.5)
    assert head.top_mm == pytest.approx(top, abs=4.5)
