"""`helmwright air`, from what is typed to what is said."""

import pytest
from click.testing import CliRunner, Result

from helmwright.cli import main

HEAD = ("--tape", "22 7/8", "--length", "8", "--breadth", "6 1/8")


def asked(*words: str) -> Result:
    return CliRunner().invoke(main, ["air", *words])


def test_without_a_head_the_limits_of_the_gas_law_are_told():
    told = asked("--model", "redstart", "--field", "32 F", "--elevation", "5280 ft")
    assert told.exit_code == 0
    page = " ".join(told.output.split())
    assert "Filled by feel at 70 F, 0 ft; worn at 32 F, 5280 ft." in page
    assert "a rigid cell would read 1.9 psi (13.4 kPa), which overstates it" in page
    assert "take 1.12 of its space" in page
    assert "Assumed: the pressure at which a fill feels snug" in page
    assert "nothing here is a safety score" in page


def test_with_a_head_room_and_field_stand_side_by_side():
    told = asked("--model", "redstart", "--field", "0 F", *HEAD)
    assert told.exit_code == 0
    rows = {line[:8].strip(): line for line in told.output.splitlines()}
    assert "in the room        in the field" in told.output
    for zone in ("rear", "left", "right"):
        before, after = rows[zone][9:25].split(" to ")
        assert float(after) < float(before)
    assert "or is slack" in " ".join(told.output.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--field", "32 F"), "Ouzel (invented) has no air cells; name a model that has"),
        (("--model", "redstart", "--field", "32"), "--field: 32 has no unit; 32 F or 32 C?"),
        (("--model", "redstart", "--elevation", "a mile"), "--elevation: 'a mile' is no elevation"),
        (("--model", "redstart", "--room", "70 C"), "--room: 70 C is no air for a helmet"),
    ],
)
def test_what_cannot_be_read_is_named_with_its_option(words, told):
    answer = asked(*words)
    assert answer.exit_code == 2
    assert told in " ".join(answer.output.split())
