"""What a tutorial has a person type is counted key by key."""

import pytest

from docs.tutorials.blocks import BLOCK, answers_of
from docs.tutorials.effort import (
    GO_TO_A_CELL,
    OPEN_A_FILE,
    PRINT,
    SAVE_AND_CLOSE,
    Effort,
    effort_of,
    effort_table,
    keystrokes,
    one_line,
    one_roster,
)

PAGE = """# Page

Words.

## 1. The sheet

<!-- run answers: Dunlin|4| -->
```console
$ helmwright sheet new a.toml
What?: Dunlin
```

## 2. The roster

<!-- workbook: team.xlsx -->
```text
Number,Player,Age,Tape (in)
7,Teal,12,
8,Coot,,21 3/8
```

<!-- run -->
```console
$ helmwright roster team.xlsx --cards cards.pdf
two words
```

## 3. Nothing to do

Only words.
"""


@pytest.mark.parametrize(
    ("text", "keys"),
    [("", 0), ("22 5/8", 6), ("Teal", 5), ("USA", 4), ("A B", 5), ('"22"', 6), ("a_b", 4)],
)
def test_a_capital_costs_the_shift_key_once_for_a_run_of_them(text, keys):
    assert keystrokes(text) == keys


def test_a_line_is_one_field_with_its_enter_and_a_look_at_the_note_where_it_says_anything():
    assert one_line("22 5/8", looked_up=True) == Effort(1, 7, pauses=1, looks=1)
    assert one_line("", looked_up=True) == Effort(1, 1, pauses=1)


def test_a_cell_that_is_passed_over_is_one_tab_and_the_end_of_a_row_none():
    around = OPEN_A_FILE + GO_TO_A_CELL + SAVE_AND_CLOSE
    body = "Number,Player,Age,Tape\n7,Teal,12,\n8,Coot,,21 3/8\n"
    typed = Effort(6, 2 + 6 + 3 + 2 + 6 + 1 + 7, pauses=6, looks=6)
    assert one_roster(body) == around + typed


def test_answers_commands_cells_and_printing_of_a_section_are_counted():
    first, second, third = PAGE.split("\n## ")[1:]
    assert effort_of(first).entries == 4
    assert effort_of(first).keys == keystrokes("helmwright sheet new a.toml") + 1 + 8 + 2 + 1
    assert effort_of(second).points == 3
    assert effort_of(second).entries == 7
    assert effort_of(second).words == 2
    assert PRINT.points == 1
    assert effort_of(third) == Effort()


def test_the_table_adds_the_sections_up():
    head, _, *rows = effort_table(PAGE).splitlines()
    assert head.startswith("| step | fields | keys | minutes")
    counts = [[cell.strip() for cell in row.split("|")[2:4]] for row in rows]
    sums = [sum(int(each) for each in column) for column in zip(*counts[:-1], strict=True)]
    assert [int(each) for each in counts[-1]] == sums
    assert len(rows) == 3


def test_looking_up_and_reading_take_time_besides_the_keys():
    typed = Effort(keys=15, pauses=4)
    more = Effort(keys=15, pauses=4, looks=1, words=4)
    assert 60.0 * (more.minutes() - typed.minutes()) == pytest.approx(3.0)


def test_an_answer_that_is_empty_is_an_enter():
    (block, *_) = BLOCK.finditer(PAGE)
    assert answers_of(block) == ["Dunlin", "4", ""]
