"""The line index agrees with the eye on every way of writing TOML that a sheet may use."""

from helmwright.catalogue.reading.positions import line_index

TEXT = '''# a remark with = and [brackets]
title = "one" # and "quotes"

[plain]
"quoted key" = 1
dotted.inner = "x"
many = [
  "a", # first, with ] in it
  [1, 2],

  { x = 1, y = [3,
    4] },
]
long = """
[not.a.table]
key = 5 \\""" still inside
"""
literal = \'\'\'
[[nor this]]\'\'\'
after = 2024-01-01 10:00:00

[[row]]
a = 1
[row.sub]
b = 2
[[row]]
a = {c = 1}
[[row.deep]]
d = 1
'''


def test_every_key_and_item_has_the_line_that_it_stands_on():
    lines = line_index(TEXT)
    assert lines["title",] == 2
    assert lines["plain",] == 4
    assert lines["plain", "quoted key"] == 5
    assert lines["plain", "dotted", "inner"] == 6
    assert lines["plain", "many"] == 7
    assert [lines["plain", "many", place] for place in range(3)] == [8, 9, 11]
    assert lines["plain", "many", 2, "y", 1] == 12
    assert lines["plain", "after"] == 20


def test_what_looks_like_a_table_inside_a_text_is_none():
    lines = line_index(TEXT)
    assert ("not",) not in lines
    assert ("nor this",) not in lines


def test_repeated_tables_are_counted_and_their_inner_tables_belong_to_the_last():
    lines = line_index(TEXT)
    assert lines["row", 0] == 22
    assert lines["row", 0, "sub", "b"] == 25
    assert lines["row", 1] == 26
    assert lines["row", 1, "a", "c"] == 27
    assert lines["row", 1, "deep", 0, "d"] == 29


def test_line_ends_of_windows_count_once():
    assert line_index(TEXT.replace("\n", "\r\n")) == line_index(TEXT)


def test_an_empty_text_has_no_keys():
    assert line_index("") == {}
    assert line_index("# only a remark") == {}
