"""Who is meant by a name, part of one, or a number."""

import pytest

from helmwright.roster import read_roster
from helmwright.roster.one_player import PlayerError, find_player, is_alone

ROSTER = read_roster(
    "No,Player,Tape (in)\n"
    "12,Avocet Brookside,22 5/8\n"
    "7,Étienne Teal,22 1/2\n"
    "12,Teal Siltbank,23\n"
    "5,Coot Teal,22\n"
    "5,Coot Teal,22 1/4\n"
    "44,Egret Marsh,57\n"
    ",Dunlin,23\n"
)


@pytest.mark.parametrize(
    ("asked", "row"),
    [
        ("Avocet Brookside", 2),
        ("avocet", 2),
        ("brook", 2),
        ("ETIENNE", 3),
        ("7", 3),
        ("no. 7", 3),
        ("#7", 3),
        ("siltbank", 4),
        ("row 4", 4),
        ("row 6", 6),
        ("dunlin", 8),
    ],
)
def test_a_player_is_found_by_name_part_number_or_row(asked, row):
    assert find_player(ROSTER, asked).row == row


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("12", "2 players are meant by '12': Avocet Brookside (no. 12, row 2), Teal Siltbank"),
        ("teal", "4 players are meant"),
        ("coot teal", "Coot Teal (no. 5, row 6). Say which, such as row 5"),
        ("grebe", "nobody on the roster is called 'grebe'; there are Avocet Brookside"),
        ("99", "nobody on the roster is called '99'"),
        ("row 99", "nobody on the roster"),
        ("", "nobody on the roster"),
        ("egret marsh", "that row cannot be used yet. Row 7 (Egret Marsh), Tape (in)"),
        ("44", "that row cannot be used yet."),
    ],
)  # fmt: skip
def test_who_is_not_clear_is_told_with_who_is_there(asked, told):
    with pytest.raises(PlayerError) as wrong:
        find_player(ROSTER, asked)
    assert told in str(wrong.value)


def test_a_namesake_with_the_same_number_is_seen():
    assert is_alone(ROSTER, find_player(ROSTER, "avocet"))
    assert not is_alone(ROSTER, find_player(ROSTER, "row 5"))
