"""The quoted UK 1990 table against a package that carries the reference whole."""

import json
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

from helmwright.anatomy import Sex
from helmwright.anatomy.surveys.youth_table import reference_circumference


def lms_rows(sex: Sex) -> list[dict[str, float]]:
    """Rows of head circumference [cm] by age, as the package's own data file has them."""
    spec = find_spec("rcpchgrowth")
    if spec is None or spec.origin is None:
        pytest.skip("needs the package rcpchgrowth")
    table = Path(spec.origin).parent / "data_tables" / "uk90_child.json"
    rows = json.loads(table.read_text("utf-8"))["measurement"]["ofc"][sex.value]
    return [row for row in rows if row["decimal_age"] >= 8.0]


@pytest.mark.outside("uk_1990")
@pytest.mark.parametrize("sex", Sex)
def test_medians_and_spreads_are_the_reference_s_to_a_tenth_of_a_millimeter(sex):
    age, median, sd = reference_circumference(sex)
    rows = {row["decimal_age"]: row for row in lms_rows(sex)}
    for at, middle, spread in zip(age, median, sd, strict=True):
        row = rows[float(at)]
        assert row["L"] == 1
        assert middle == pytest.approx(10.0 * row["M"], abs=0.051)
        assert spread == pytest.approx(10.0 * row["M"] * row["S"], abs=0.1)


@pytest.mark.outside("uk_1990")
@pytest.mark.parametrize("sex", Sex)
def test_straight_lines_between_birthdays_miss_the_reference_by_little(sex):
    age, median, _ = reference_circumference(sex)
    for row in lms_rows(sex):
        between = float(np.interp(row["decimal_age"], age, median))
        assert between == pytest.approx(10.0 * row["M"], abs=0.15)
