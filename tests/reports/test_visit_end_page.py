"""What would fit where nothing here does: the chart's shell first, every band told."""

import pytest

from helmwright.catalogue import load_packaged
from helmwright.fit.outlook import Build
from helmwright.reports.visit_end_page import NEAR, end_lines, in_order
from helmwright.reports.visit_parts import shell_words
from helmwright.units import MM_PER_INCH
from helmwright.visit.event import NoBuild, Would
from helmwright.visit.protocol import protocol_for
from helmwright.visit.sub_scores import sub_scores
from helmwright.visit.summary import VisitSummary

SHEET = load_packaged("ouzel")
PROTOCOL = protocol_for(SHEET)


def would(shell: int, fits: float) -> Would:
    return Would(Build(shell, SHEET.delivered), (f"shell {shell}",), fits)


@pytest.mark.parametrize(
    ("fits", "shells"),
    [
        ([0.60, 0.58, 0.57], [3, 4, 2]),
        ([0.60, 0.54, 0.50], [4, 3, 2]),
        ([0.60, 0.60 - NEAR.value + 1e-9, 0.1], [3, 4, 2]),
    ],
)
def test_the_charts_shell_is_named_first_where_its_chance_is_near_the_best(fits, shells):
    told = tuple(would(shell, each) for shell, each in zip((4, 3, 2), fits, strict=True))
    assert [each.build.shell for each in in_order(told, 3)] == shells
    assert in_order(told, 0) == list(told)


@pytest.mark.parametrize(
    ("tape_mm", "chart"),
    [
        (22.625 * MM_PER_INCH, "a tape of 22 5/8 in takes shell 3 (22 1/16 to 22 13/16 in)."),
        (30.0 * MM_PER_INCH, "The chart has no shell for a tape of 30 in."),
        (None, "The tape around the head was not read, so the chart names no shell."),
    ],
)
def test_the_chart_is_told_with_the_band_of_every_build(tape_mm, chart):
    ended = NoBuild("Nothing here fits.", (would(4, 0.60), would(3, 0.58)))
    scores = sub_scores(PROTOCOL, {})
    visit = VisitSummary("Teal Marsh", (), (), (), ended, {}, scores)
    told = " ".join(" ".join(end_lines(visit, PROTOCOL, SHEET, 80, tape_mm=tape_mm)).split())
    assert chart in told
    assert "In brackets stands the tape that the chart gives each shell." in told
    assert "Whole: shell 3 (22 1/16 to 22 13/16 in), crown" in told
    assert f"Whole: {shell_words(4, SHEET)}, crown" in told
    assert (told.index("With shell 3") < told.index("With shell 4")) is (
        tape_mm == 22.625 * MM_PER_INCH
    )
