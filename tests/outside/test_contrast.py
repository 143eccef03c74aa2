"""Every pair of colors that a page uses is told apart, in every mode, by the WCAG's own formula."""

import re

import pytest

from tests.house.tree import ROOT

STYLES = ROOT / "src/helmwright/web/static/web"
MODES = ("room", "night", "glare")

TEXT, CONTROL = 4.5, 3.0

PAIRS = [
    *((ink, paper, TEXT) for ink in ("ink", "ink2", "yes", "check", "no")
      for paper in ("ground", "sheet")),
    ("sheet", "ink", TEXT),
    ("tape-ink", "tape", TEXT),
    ("rule", "ground", CONTROL),
    ("rule", "sheet", CONTROL),
]  # fmt: skip
"""What is written or drawn, on what, and the contrast that it needs."""


def luminance(color: str) -> float:
    """Relative luminance of #RRGGBB."""
    channels = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colors."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def tokens(mode: str) -> dict[str, str]:
    """Colors of a mode by their names."""
    text = (STYLES / "tokens.css").read_text(encoding="utf-8")
    (block,) = re.findall(rf'\[data-mode="{mode}"\] \{{(.*?)\}}', text, re.DOTALL)
    return dict(re.findall(r"--([\w-]+): (#[0-9A-F]{6});", block))


@pytest.mark.outside("wcag_22")
def test_contrast_runs_from_1_to_21():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#808080", "#808080") == 1.0


@pytest.mark.outside("wcag_22")
@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize(("ink", "paper", "least"), PAIRS, ids=str)
def test_a_pair_that_is_used_is_told_apart(mode, ink, paper, least):
    colors = tokens(mode)
    assert contrast(colors[ink], colors[paper]) >= least


@pytest.mark.outside("wcag_22")
def test_every_mode_names_the_same_colors():
    room = tokens("room")
    assert all(tokens(mode).keys() == room.keys() for mode in MODES)


@pytest.mark.outside("wcag_22")
def test_styles_name_colors_by_their_tokens_alone():
    """A color that stands in a style sheet by itself would be seen by no check of a pair."""
    found = {
        f"{path.name}: {color}"
        for path in STYLES.rglob("*.css")
        if path.name != "tokens.css"
        for color in re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[;\s,)])|\brgba?\(|\bhsla?\(",
                                path.read_text(encoding="utf-8"))
    }  # fmt: skip
    assert not found


@pytest.mark.outside("wcag_22")
def test_the_tape_color_is_for_tapes_only_and_never_written_in():
    """`tape` as text or as a line on paper has too little contrast to be read."""
    said = "\n".join(path.read_text(encoding="utf-8") for path in STYLES.rglob("*.css"))
    assert not re.findall(r"(?<![\w-])(?:color|stroke|border[\w-]*):[^;]*var\(--tape\)", said)
