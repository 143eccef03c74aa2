"""Roster files in every form that a manager may save them in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import Over, Sex, Touch
from helmwright.roster import (
    RosterError,
    decode_roster,
    demo_roster_bytes,
    read_roster,
)
from helmwright.roster.plain import printable
from helmwright.units import UnitsError


def values(player, measure):
    return [round(r.value_mm, 1) for r in player.readings if r.measure == measure]


def test_columns_may_stand_in_any_order_and_go_by_synonyms():
    roster = read_roster('Width,Jersey,Tape (in),Player,"Length (mm)"\n6 1/8,12,22 5/8,Teal,200\n')
    (player,) = roster.players
    assert (player.number, player.name, player.row) == ("12", "Teal", 2)
    assert values(player, "tape_circumference") == [574.7]
    assert values(player, "head_length") == [200.0]
    assert values(player, "head_breadth") == [155.6]
    assert not roster.problems
    assert not roster.notices


def test_a_unit_in_the_cell_goes_before_the_unit_of_the_column():
    roster = read_roster("Name,Tape (in)\nTeal,57.5 cm\nCoot,575 mm\nWren,7 1/4 US hat\n")
    assert [values(p, "tape_circumference") for p in roster.players] == [[575.0], [575.0], [578.5]]


def test_a_hat_size_column_is_read_as_united_states_sizes():
    (player,) = read_roster("Name,US hat size\nTeal,7 1/4\n").players
    assert values(player, "tape_circumference") == [578.5]


@pytest.mark.parametrize(
    ("cell", "mm"), [("57 cm", 570.0), ('22 5/8"', 574.7), ("7¼", 578.5), ("7 1/4 US hat", 578.5)]
)
def test_a_cell_with_a_unit_of_its_own_is_no_hat_size_in_a_hat_column(cell, mm):
    roster = read_roster(f"Name,US hat\nTeal,{cell.replace(chr(34), chr(8243))}\n")
    assert values(roster.players[0], "tape_circumference") == [mm]


@pytest.mark.parametrize("header", ["Name,Hat size", "hat_size,shoe"])
def test_hat_sizes_under_another_heading_are_told_what_to_be_headed(header):
    with pytest.raises(RosterError, match='head the column "US hat"'):
        read_roster(f"{header}\nTeal,7 1/4\n")


def test_a_column_of_hat_sizes_beside_others_is_told_so_too():
    (notice,) = read_roster("Name,tape,Hat size\nTeal,22 5/8,7 1/4\n").notices
    assert notice.column == "Hat size"
    assert '"US hat"' in notice.right


def test_a_name_cannot_bring_escape_codes_or_turn_the_line_around():
    roster = read_roster('Name,tape\n"\x1b[31mTeal\u202e\nPond\x07",22 5/8\n')
    assert roster.players[0].name == "[31mTeal Pond"
    assert read_roster("Name,tape,Shoe\x1b[2J\nTeal,22,9\n").notices[0].column == "Shoe[2J"


@given(st.text(max_size=40))
def test_whatever_is_typed_prints_as_one_line_and_stays_when_it_is_plain(text):
    shown = printable(text)
    assert shown == printable(shown)
    assert len(shown.splitlines()) <= 1
    assert "\x1b" not in shown
    assert printable("Zoë O’Brien-Núñez") == "Zoë O’Brien-Núñez"


@pytest.mark.parametrize("called", ["Total", "AVERAGE", "Average:", "team average", "Std. Dev"])
def test_a_line_of_sums_is_no_player(called):
    roster = read_roster(f"No,Name,tape\n1,Teal,22 5/8\n,{called},22 5/8\n")
    assert [player.name for player in roster.players] == ["Teal"]
    (problem,) = roster.problems
    assert problem.row == 3
    assert "sums or averages" in problem.wrong


@pytest.mark.parametrize("name", ["Max", "Sum Reed", "Totals Marsh", "Count Avocet"])
def test_a_whole_name_is_a_player_whatever_it_means(name):
    assert read_roster(f"Name,tape\n{name},22 5/8\n").players[0].name == name


def test_readings_over_something_say_that_its_thickness_is_assumed():
    roster = read_roster("Name,tape,jaw,hair\nTeal,22 5/8,,cap\nCoot,22,,bare\nWren,,5 1/2,cap\n")
    notices = [n for n in roster.notices if n.column == "hair"]
    assert [(notice.row, notice.value) for notice in notices] == [(2, "cap"), (4, "cap")]
    for notice in notices:
        assert "skull cap of assumed thickness under a drawn-in tape" in notice.wrong
        assert "(skull cap 1 mm; 0 to 2 mm, 19 times of 20)" in notice.wrong
        assert "when that changes" in notice.right


def test_the_share_of_males_goes_with_every_player():
    assert read_roster("Name,tape\nTeal,22\n").players[0].male_share == 0.95
    assert read_roster("Name,tape\nTeal,22\n", male_share=0.5).players[0].male_share == 0.5


def team(tape: float, count: int = 12, sex: str = "") -> str:
    rows = (f"P{n} Pond,{tape + 0.05 * (n % 3)},7.8,6.1,{sex}\n" for n in range(count))
    return "Name,tape,length,breadth,sex\n" + "".join(rows)


@pytest.mark.parametrize(("tape", "word"), [(23.8, "long"), (21.2, "short")])
def test_tapes_that_run_long_or_short_over_a_whole_team_are_said_once(tape, word):
    notices = [n for n in read_roster(team(tape)).notices if n.row == 0]
    (notice,) = notices
    assert f"Over 12 heads the circumferences run {word}" in notice.wrong
    assert "tape" in notice.column


@pytest.mark.parametrize("text", [team(22.5), team(23.8, count=4)])
def test_a_usual_team_and_a_few_heads_raise_no_alarm(text):
    assert not [n for n in read_roster(text).notices if n.row == 0]


def test_a_usual_team_of_women_is_held_against_women():
    usual, long = (read_roster(team(tape, sex="F")).notices for tape in (22.8, 24.2))
    assert not [n for n in usual if "circumferences run" in n.wrong]
    assert [n for n in long if "circumferences run long" in n.wrong]


def test_second_and_third_readings_go_to_the_same_measure():
    roster = read_roster("Name,tape,tape 2,Tape (3rd reading)\nTeal,22 5/8,22 7/8,\n")
    assert values(roster.players[0], "tape_circumference") == [574.7, 581.0]


def test_blank_cells_in_every_spelling_are_blank():
    roster = read_roster("Name,tape,length,breadth,jaw\nTeal,22 5/8,,n/a,-\n")
    assert len(roster.players[0].readings) == 1
    assert not roster.problems


def test_height_weight_and_sex_are_read_as_rosters_state_them():
    roster = read_roster("Name,Ht,Wt,Sex,tape\nTeal,6-2,215,M,22 5/8\nSora,170 cm,64 kg,f,22\n")
    teal, sora = roster.players
    assert teal.stature_mm == pytest.approx(1879.6)
    assert teal.weight_kg == pytest.approx(97.52, abs=0.01)
    assert teal.sex is Sex.MALE
    assert (sora.stature_mm, sora.weight_kg, sora.sex) == (1700.0, 64.0, Sex.FEMALE)


def test_words_for_a_height_or_a_weight_are_left_out_and_told_how_one_is_written():
    roster = read_roster("Name,Ht,Wt,tape\nTeal,seventeen,heavy,22 5/8\n")
    assert roster.players[0].stature_mm is None
    assert [each.right for each in roster.notices] == [
        "write it like 6-2, 74 in or 188 cm",
        "write it like 205 lb or 93 kg",
    ]


def test_what_the_tape_went_over_goes_with_the_readings_over_hair_only():
    (player,) = read_roster("Name,tape,jaw,hair\nTeal,22 5/8,5 1/2,braids\n").players
    assert [r.over for r in player.readings] == [Over.BRAIDS, Over.UNSTATED]


def test_two_players_may_wear_one_number_and_nobody_needs_one():
    roster = read_roster("#,Name,tape\n22,Teal,22 5/8\n22,Coot,23\n,Wren,22\n")
    assert [p.number for p in roster.players] == ["22", "22", ""]


def test_title_and_blank_lines_count_as_a_spreadsheet_counts_them():
    roster = read_roster("Our team\n\nName,tape\nTeal,22 5/8\n\nCoot,221/8\n")
    assert [p.row for p in roster.players] == [4]
    assert [p.row for p in roster.problems] == [6]


def test_a_cell_with_a_line_end_is_still_one_row():
    roster = read_roster('Name,tape,notes\nTeal,22 5/8,"one\ntwo"\nCoot,221/8,\n')
    assert [p.row for p in roster.problems] == [3]


def test_a_byte_mark_and_semicolons_change_nothing():
    plain = read_roster("Name,Tape (cm),Length (cm)\nTeal,57.5,20\n")
    saved = "\ufeffName;Tape (cm);Length (cm)\r\nTeal;57,5;20\r\n".encode()
    assert read_roster(decode_roster(saved)) == plain


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_name_with_an_accent_survives_every_way_of_saving(encoding):
    data = "Name,tape\nRené Pond,22 5/8\n".encode(encoding)
    assert read_roster(decode_roster(data)).players[0].name == "René Pond"


def test_tabs_part_cells_as_well():
    assert read_roster("Name\ttape\nTeal\t22 5/8\n").players[0].name == "Teal"


def test_a_name_in_two_columns_is_put_together():
    roster = read_roster("Last name,First name,tape\nPond,Teal,22 5/8\n")
    assert roster.players[0].name == "Teal Pond"


def test_a_column_that_is_not_known_is_named_and_notes_are_passed_over():
    roster = read_roster("Name,tape,Shoe,Notes\nTeal,22 5/8,11,left-handed\n")
    (notice,) = roster.notices
    assert notice.column == "Shoe"
    assert "left out" in notice.wrong


def test_a_player_without_a_reading_is_answered_as_a_forecast():
    roster = read_roster("Name,tape\nTeal,\n")
    assert len(roster.players) == 1
    assert "forecast" in roster.notices[0].right


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"PK\x03\x04rest", "workbook"),
        (b"\x00\x01\x02\x81", "no text file"),
    ],
)
def test_what_is_no_text_is_refused_with_what_would_be_right(data, words):
    with pytest.raises(RosterError, match=words):
        decode_roster(data)


@pytest.mark.parametrize("text", ["", "\n\n", "just words\n", "Shoe,Belt\n11,34\n"])
def test_a_file_without_a_header_is_refused_with_an_example(text):
    with pytest.raises(RosterError, match=r"tape \(in\)"):
        read_roster(text)


def test_a_header_without_rows_is_refused():
    with pytest.raises(RosterError, match="no row"):
        read_roster("Name,tape\n")


def test_the_demonstration_has_one_problem_and_three_notices():
    roster = read_roster(decode_roster(demo_roster_bytes()))
    assert len(roster.players) == 23
    assert [(p.row, p.column) for p in roster.problems] == [(5, "Tape (in)")]
    assert [n.row for n in roster.notices] == [0, 13, 23]


def test_the_demonstration_says_that_it_is_invented():
    assert b"invented" in demo_roster_bytes().splitlines()[0]


@given(st.text(max_size=300))
def test_any_text_is_a_roster_or_is_refused_in_words(text):
    try:
        roster = read_roster(text)
    except RosterError:
        return
    assert len(roster.players) + len(roster.problems) >= 1


cells = st.text(st.characters(exclude_characters=',"\r\n', exclude_categories=["Cs"]), max_size=12)


@given(st.lists(st.tuples(cells, cells, cells, cells), min_size=1, max_size=6))
def test_whatever_stands_in_the_cells_every_row_is_answered_or_named(rows):
    lines = ["Name,tape,length,Ht", *(",".join(row) for row in rows)]
    told = [at for at, row in enumerate(rows, start=2) if any(cell.strip() for cell in row)]
    try:
        roster = read_roster("\n".join(lines))
    except RosterError:
        assert not told
        return
    except UnitsError:
        pytest.fail("a complaint of the units room came through")
    answered = {player.row for player in roster.players}
    unanswered = {problem.row for problem in roster.problems}
    assert answered | unanswered == set(told)
    assert not answered & unanswered


@pytest.mark.parametrize(
    ("words", "over"),
    [
        *((word, Over.BRAIDS) for word in ("dreads", "Dreadlocks", "locks", "locs", "braids")),
        *((word, Over.THICK_HAIR) for word in ("thick hair", "Afro", "long")),
        *((word, Over.SHORT_HAIR) for word in ("short", "Crew cut")),
        *((word, Over.BARE) for word in ("bald", "shaved", "buzz", "Buzz cut", "bare")),
        *((word, Over.UNSTATED) for word in ("none", "no cap", "")),
        *((word, Over.SKULL_CAP) for word in ("cap", "durag")),
        *((word, Over.WINTER_CAP) for word in ("beanie", "Winter cap")),
    ],
)
def test_hair_goes_by_the_words_that_people_use(words, over):
    (player,) = read_roster(f"Name,tape,hair\nTeal,22 5/8,{words}\n").players
    assert player.readings[0].over is over


@pytest.mark.parametrize(
    ("cell", "meant"),
    [
        ("10-May", "5-10"),
        ("5-Oct", "5-10"),
        ("May-10", "5-10"),
        ("2-Jun", "6-2"),
        ("6-Feb", "6-2"),
        ("5/10/2024", "5-10"),
        ("2024-06-02", "6-2"),
    ],
)
def test_a_height_that_became_a_date_is_asked_about(cell, meant):
    (notice,) = read_roster(f"Name,tape,height\nTeal,22 5/8,{cell}\n").notices
    feet, over = meant.split("-")
    assert notice.right == f"was it {meant}? Write it with units: {feet} ft {over} in"


def test_a_date_that_can_be_no_height_still_says_how_one_is_written():
    (notice,) = read_roster("Name,tape,height\nTeal,22 5/8,20-Dec\n").notices
    assert notice.right == "write it with units: 6 ft 2 in"


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("Helmet size", 'of the helmet only "build now" is read, what is in it now'),
        ("Helmet", 'of the helmet only "build now" is read, what is in it now'),
        ("Head lenght", 'did you mean "head length"?'),
        ("Shoe size", "call it notes to have it passed over"),
        ("Jersey color", "call it notes to have it passed over"),
    ],
)
def test_a_heading_that_is_not_known_is_likened_only_to_a_close_one(heading, said):
    (notice,) = read_roster(f"Name,tape,{heading}\nTeal,22 5/8,9\n").notices
    assert notice.right == said


def test_what_is_said_of_a_row_keeps_its_jersey_number():
    (problem,) = read_roster("No,Name,tape\n28,Brook,231/8\n").problems
    assert (problem.number, problem.who) == ("28", "Brook")


def first(text: str):
    (player,) = read_roster(text).players
    return player


def test_hair_and_a_cap_over_it_are_both_worn_and_both_taped_over():
    player = first("Name,tape,worn\nTeal,22 5/8,braids and skull cap\n")
    assert player.worn == (Over.BRAIDS, Over.SKULL_CAP)
    assert player.readings[0].kinds == (Over.BRAIDS, Over.SKULL_CAP)


def test_what_the_tape_went_over_may_differ_from_what_will_be_worn():
    player = first("Name,tape,tape over,worn\nTeal,22 5/8,bare,winter cap\n")
    assert player.readings[0].over is Over.BARE
    assert player.worn == (Over.WINTER_CAP,)


def test_hair_that_was_taped_over_stays_on_under_a_cap():
    player = first("Name,tape,tape over,worn\nTeal,22 5/8,braids,cap\n")
    assert player.readings[0].kinds == (Over.BRAIDS,)
    assert player.worn == (Over.BRAIDS, Over.SKULL_CAP)


def test_what_the_tape_went_over_is_worn_where_nobody_says_more():
    assert first("Name,tape,tape over\nTeal,22 5/8,locs\n").worn == (Over.BRAIDS,)
    assert first("Name,tape\nTeal,22 5/8\n").worn is None


@pytest.mark.parametrize("words", ["braids and afro", "durag + beanie", "wig", "braids and wig"])
def test_a_covering_that_cannot_be_is_said_once_and_taken_as_not_stated(words):
    roster = read_roster(f"Name,tape,hair\nTeal,22 5/8,{words}\n")
    assert roster.players[0].readings[0].over is Over.UNSTATED
    (notice,) = roster.notices
    assert "taken as not stated" in notice.wrong
    assert "skull cap" in notice.right


def test_a_light_tape_has_a_column_of_its_own():
    player = first("Name,tape (in),light tape (cm),hair\nTeal,22 5/8,58.2,thick hair\n")
    assert [r.touch for r in player.readings] == [Touch.DRAWN_IN, Touch.LIGHT]
    assert values(player, "tape_circumference") == [574.7, 582.0]
    assert all(r.over is Over.THICK_HAIR for r in player.readings)


def unsaid(rows: str) -> list[str]:
    roster = read_roster(f"Name,sex,age,tape,hair\n{rows}")
    return [n.wrong for n in roster.notices if "nothing was said of the hair" in n.wrong]


def test_women_of_whose_hair_nothing_was_said_are_named_once_with_what_is_assumed():
    (said,) = unsaid("Teal,F,,22,\nCoot,F,21,22,\nWren,F,,22,bare\nSora,M,,22,\nRail,F,12,21,\n")
    assert "of the hair of Teal, Coot: taken to be as women of the surveys" in said
    assert "1/16 in (1.6 mm) under the tape, none to 3/16 in 19 times of 20 (assumed)" in said
    assert "of the hair of Tern: " in unsaid("Tern,F,,22,skull cap\n")[0]
    assert not unsaid("Tern,F,,22,bare and skull cap\n")
    assert not unsaid("Wren,F,,22,braids\nSora,M,,22,\nTeal,,,22,\n")
    (many,) = unsaid("".join(f"P{n},F,,22,\n" for n in range(9)))
    assert "P0, P1, P2, P3, P4 and 4 more" in many
