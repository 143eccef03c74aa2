"""Players and readings in a message are read by the rules of a roster's row."""

from datetime import date

import pytest

from helmwright.anatomy import Over, Sex
from helmwright.cli.visit_said import said_player, said_readings
from helmwright.roster import MEASURE_FIELDS, SYNONYMS, Player, read_roster
from helmwright.visit.wire_fault import WireError


def player(**said) -> Player:
    named = {heading.replace("_", " "): value for heading, value in said.items()}
    read = said_player(named, units="in", male_share=0.95, ages=None, today=date(2026, 8, 1))
    assert read.player is not None
    return read.player


def test_a_message_and_a_roster_with_the_same_cells_give_the_same_player():
    text = (
        'Name,Sex,Tape,Tape 2,Length,Worn,Build now\nTeal,M,22 5/8,22 1/2,7.875,braids,"front 1"\n'
    )
    (row,) = read_roster(text).players
    said = player(
        name="Teal", sex="M", tape=("22 5/8", "22 1/2"), length=7.875, worn="braids",
        build_now="front 1",
    )  # fmt: skip
    assert said.readings == row.readings
    assert (said.name, said.stated, said.worn) == (row.name, row.stated, row.worn)
    assert (said.build_now, said.sex) == ("front 1", Sex.MALE)


def test_a_unit_stands_in_the_heading_or_behind_the_number():
    in_mm = player(**{"length_(mm)": 200.0, "tape": "57.5 cm"})
    assert [reading.value_mm for reading in in_mm.readings] == pytest.approx([200.0, 575.0])


@pytest.mark.parametrize("heading", [SYNONYMS[field].split("|")[0] for field in MEASURE_FIELDS])
def test_every_measure_can_be_sent(heading):
    (measure,) = (f for f in MEASURE_FIELDS if SYNONYMS[f].split("|")[0] == heading)
    usual = {"head_length": 200.0, "head_breadth": 155.0, "tape_circumference": 575.0}
    others = {"bitragion_chin_arc": 330.0, "bigonial_breadth": 115.0}
    value = (usual | others).get(str(measure), 140.0)
    (reading,) = said_readings({f"{heading} (mm)": value}, None)
    assert reading.measure == str(measure)
    assert reading.value_mm == pytest.approx(value)


@pytest.mark.parametrize(
    ("said", "where", "words"),
    [
        ({"tape": "221/8"}, "player, tape", "22 1/8"),
        ({"tape": "57.5"}, "player, tape", "57.5 cm?"),
        ({"length": "6 1/8", "breadth": "7 7/8"}, "player, length and breadth", "swapped"),
        ({"shoe size": 12}, "player, shoe size", "roster-file.md"),
        ({"age": "5"}, "player, age", "5"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_heading(said, where, words):
    with pytest.raises(WireError) as refusal:
        player(**said)
    assert refusal.value.where == where
    assert words in str(refusal.value)


def test_readings_in_a_visit_go_over_what_is_worn_unless_it_is_said():
    worn = (Over.BRAIDS, Over.SKULL_CAP)
    (tape,) = said_readings({"tape": "22 5/8"}, worn)
    assert tape.kinds == worn
    (bare,) = said_readings({"tape": "22 5/8", "tape over": "bare"}, worn)
    assert bare.kinds == (Over.BARE,)
    (length,) = said_readings({"length": "7 7/8", "measured by": "Teal"}, None)
    assert (length.over, length.by) == (Over.UNSTATED, "Teal")


@pytest.mark.parametrize("worn", [(kind,) for kind in Over])
def test_whatever_is_worn_can_be_taped_over(worn):
    (tape,) = said_readings({"tape": "22 5/8"}, worn)
    assert tape.over is worn[0]


@pytest.mark.parametrize("said", [{}, {"tape": ""}, {"name": "Teal"}, {"tape": ()}])
def test_a_message_without_a_reading_is_refused(said):
    with pytest.raises(WireError):
        said_readings(said, None)
