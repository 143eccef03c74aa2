"""Whatever is typed, the reader answers with a sheet or with faults, never with a crash."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ModelSheet, SheetError, parse_sheet
from helmwright.catalogue.reading.positions import Path, line_index
from tests.catalogue.plain_sheet import PLAIN

LINES = PLAIN.splitlines()
SCRAPS = st.sampled_from(
    ["", "x", "[", "]", "[[pad]]", "[shell]", '"', "=", "a = 1", "number = true", "seats = 3",
     "chart = [1]", "zone = []", "shells = [[]]", "accept = {}", "matched = [[[], 1]]",
     "thicknesses = [\"1 in\"", "price_usd = nan", "model = 1979-05-27", "name = ''", "bars = 1e3"]
)  # fmt: skip
EDITS = st.lists(
    st.tuples(st.integers(0, len(LINES) - 1), SCRAPS | st.text(max_size=20)), min_size=1, max_size=4
)


def outcome(text: str) -> ModelSheet | SheetError:
    try:
        return parse_sheet(text, name="wild")
    except SheetError as error:
        return error


@given(EDITS)
def test_a_sheet_with_wild_lines_is_read_or_refused_with_lines_that_exist(edits):
    lines = list(LINES)
    for place, scrap in edits:
        lines[place] = scrap
    text = "\n".join(lines)
    answer = outcome(text)
    if isinstance(answer, SheetError):
        assert answer.faults
        assert all(1 <= fault.line <= text.count("\n") + 1 for fault in answer.faults)
        assert all(fault.wrong and fault.right for fault in answer.faults)


@given(st.integers(0, len(LINES) - 1), st.integers(0, len(LINES) - 1))
def test_a_sheet_with_a_piece_cut_out_is_read_or_refused(start, length):
    answer = outcome("\n".join(LINES[:start] + LINES[start + length :]))
    assert isinstance(answer, ModelSheet | SheetError)


def paths(value: object, path: Path = ()) -> set[Path]:
    """Every path of a value as the standard parser sees it."""
    inner: list[tuple[str | int, object]] = []
    if isinstance(value, dict):
        inner = list(value.items())
    elif isinstance(value, list):
        inner = list(enumerate(value))
    found = {(*path, word) for word, _ in inner}
    for word, each in inner:
        found |= paths(each, (*path, word))
    return found


@given(EDITS)
def test_the_line_index_knows_exactly_the_keys_that_the_standard_parser_knows(edits):
    lines = list(LINES)
    for place, scrap in edits:
        lines[place] = scrap
    text = "\n".join(lines)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert set(line_index(text)) == paths(data)
