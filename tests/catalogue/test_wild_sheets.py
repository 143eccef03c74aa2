"""Whatever is typed, the reader answers with a sheet or with faults, never with a crash."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ModelSheet, SheetError, packaged_text, parse_sheet
from helmwright.catalogue.hollow import jaw_widths_mm
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


CHART_ONLY = packaged_text("siskin").splitlines()
NUMBERS = (
    "inside_length",
    "inside_breadth",
    "inside_depth",
    "jaw_width",
    "front_edge",
    "delivered",
)
GIVEN = st.lists(
    st.tuples(
        st.integers(0, len(CHART_ONLY) - 1),
        st.builds('{} = "{} mm"'.format, st.sampled_from(NUMBERS), st.integers(1, 350))
        | st.builds('chart = ["{} mm", "{} mm"]'.format, *[st.integers(390, 770)] * 2)
        | st.builds('thicknesses = ["{} mm"]'.format, st.integers(1, 80)),
    ),
    min_size=1,
    max_size=5,
)


@given(GIVEN)
def test_a_sheet_without_insides_is_completed_or_refused_whatever_numbers_it_gives(edits):
    lines = list(CHART_ONLY)
    for place, line in edits:
        lines[place] = line
    answer = outcome("\n".join(lines))
    if isinstance(answer, ModelSheet):
        for shell in answer.shells:
            low, high = jaw_widths_mm(shell, answer.form)
            assert low - 0.01 <= shell.jaw_width_mm <= high + 0.01
            assert shell.crown_mm > answer.form.level_mm
