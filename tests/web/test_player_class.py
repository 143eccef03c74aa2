"""A class tells an age, or is asked about."""

from datetime import date

import pytest

from helmwright.records.readers.heads import class_faults
from helmwright.web.desk.player_form import PlayerForm

TODAY = date(2026, 8, 7)


@pytest.mark.parametrize("said", ["9", "11th", "HS junior", "college freshman"])
def test_a_class_that_tells_an_age_is_taken(said):
    assert class_faults(said, TODAY) == []


@pytest.mark.parametrize("said", ["Freshman", "senior"])
def test_a_class_of_high_school_or_college_is_asked_about(said):
    form = PlayerForm({"name": "Avocet Brookside", "school_class": said}, today=TODAY)
    (told,) = form.errors["school_class"]
    assert "college" in told
