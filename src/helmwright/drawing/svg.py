"""A drawing as SVG: presentation attributes only, one ink, valid XML."""

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

import numpy as np
import numpy.typing as npt

from helmwright.drawing.fill import DOT_MM
from helmwright.drawing.parts import Ink, Label, Line, Section, Size

Floats = npt.NDArray[np.float64]

# Widths in millimeters of the thing drawn, and dashes.
PENS: dict[Ink, tuple[float, str]] = {
    Ink.HEAD: (1.7, ""),
    Ink.BROW: (3.2, ""),
    Ink.PAD: (1.2, ""),
    Ink.LAYER: (0.8, ""),
    Ink.BEHIND: (0.9, ""),
    Ink.FREE: (0.8, "3 2.2"),
    Ink.HATCH: (0.55, ""),
    Ink.DOT: (1.0, f"1 {DOT_MM - 1.0:g}"),
    Ink.WORN: (0.5, ""),
    Ink.PRESSURE: (1.1, ""),
    Ink.CLEARANCE: (0.9, ""),
    Ink.PLANE: (0.7, "11 2.5 2 2.5"),
    Ink.ORIGIN: (0.9, ""),
}
ORDER = tuple(PENS)
FILLED = (Ink.CLEARANCE,)
PLAIN = (Ink.HATCH, Ink.DOT, Ink.WORN, Ink.PRESSURE, Ink.LAYER, Ink.FREE)

# Height of a letter, in millimeters of the thing drawn.
TALL = {Size.ZONE: 12.0, Size.THICKNESS: 14.0, Size.WORD: 10.0}
NUMERALS, WORDS = "Besley, serif", "'Atkinson Hyperlegible Next', sans-serif"
FRACTION = 0.76
"""Height of a numerator beside the whole number [1]."""

FIGURE = 0.7
"""Height of a figure of the type's size [1]."""

RING_MM = 8.6
"""Radius of the ring around a zone's number, so that nobody takes it for a thickness [mm]."""

_INK = "#000000"

BAR = 'stroke="#000000" stroke-width="0.9"'

CORNER = "%.1f %.1f"
GAP_MM = 14.0
CAPTION_MM = 16.0
CAPTION_TALL_MM = 12.0


def section_svg(section: Section, *, scale: float = 0.5, labels: bool = True) -> str:
    """One section as an SVG document.

    Parameters
    ----------
    section
        What to draw.
    scale
        Size on paper of a millimeter of the thing drawn [mm].
    labels
        Whether numbers and words are drawn; whoever sets them in type does without.
    """
    low, high = section.low, section.high
    drawn = _group(section, -low[0], high[1], labels=labels)
    return _document(section.told, section.caption, [drawn], high - low, scale)


def drawing_svg(
    drawn: Sequence[Section],
    *,
    title: str,
    notes: Iterable[str] = (),
    scale: float = 0.5,
    captions: bool = True,
) -> str:
    """Sections side by side at one scale, each with its caption, as an SVG document.

    Parameters
    ----------
    drawn
        The sections.
    title
        What the whole shows; also the document's title.
    notes
        Lines to print below.
    scale
        Size on paper of a millimeter of the thing drawn [mm].
    captions
        Whether each section's words stand below it; whoever sets them in type does without.
    """
    tops = max(float(section.high[1]) for section in drawn)
    lows = min(float(section.low[1]) for section in drawn)
    at, parts = 0.0, []
    below = tops - lows + (CAPTION_MM if captions else 0.0)
    for section in drawn:
        low, high = section.low, section.high
        parts.append(_group(section, at - low[0], tops))
        middle = at + 0.5 * (high[0] - low[0])
        if captions:
            words = _text(section.caption, middle, below - 4.0, CAPTION_TALL_MM, WORDS, "middle")
            parts.append(words)
        at += float(high[0] - low[0]) + GAP_MM
    for line in notes:
        below += 14.0
        parts.append(_text(line, 0.0, below - 4.0, 9.0, WORDS, "start"))
    told = " ".join(section.told for section in drawn)
    return _document(told, title, parts, np.array([at - GAP_MM, below]), scale)


def screen_svg(drawn: Sequence[Section], *, title: str, name: str) -> str:
    """Sections side by side for a page: in the color of its text, as wide as it is given room.

    Parameters
    ----------
    drawn
        The sections.
    title
        What the whole shows.
    name
        Tells it from other drawings of one page.

    Notes
    -----
    Lines carry what they stand for in `data-ink`, by which a style sheet finds them.
    """
    paper = drawing_svg(drawn, title=title, scale=1.0).replace(_INK, "currentColor")
    size, shown = paper.split(' viewBox="', 1)
    tag = size.split(" width=", 1)[0]
    known = shown.replace('aria-labelledby="t d"', f'aria-labelledby="{name}-t {name}-d"', 1)
    known = known.replace('<title id="t">', f'<title id="{name}-t">', 1)
    known = known.replace('<desc id="d">', f'<desc id="{name}-d">', 1)
    return f'{tag} class="sections" viewBox="{known}'


def _document(told: str, title: str, parts: list[str], size: Floats, scale: float) -> str:
    width, height = float(size[0]), float(size[1])
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width * scale:.2f}mm"'
        f' height="{height * scale:.2f}mm" viewBox="0 0 {width:.2f} {height:.2f}" role="img"'
        f' aria-labelledby="t d" fill="none" stroke="none">\n'
        f'<title id="t">{escape(title)}</title>\n<desc id="d">{escape(told)}</desc>\n'
        f"{''.join(parts)}</svg>\n"
    )


def _group(section: Section, right: float, down: float, *, labels: bool = True) -> str:
    """One section, its own origin put at a place of the page."""
    drawn = [f'<path d="{_path([(section.shell, True)])}" fill="#000000"/>\n']
    drawn += [_stroke(ink, section.of(ink)) for ink in ORDER if section.of(ink)]
    drawn += [_label(label) for label in section.labels if labels]
    name = quoteattr(section.name)
    place = f'transform="translate({right:.2f} {down:.2f})"'
    return f"<g data-section={name} {place}>\n{''.join(drawn)}</g>\n"


def _stroke(ink: Ink, lines: Sequence[Line]) -> str:
    width, dash = PENS[ink]
    if ink is Ink.DOT:
        curves = [(row, False) for line in lines for row in _rows(line.points)]
    else:
        curves = [(line.points, line.closed) for line in lines]
    path = _path(curves)
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    fill = ' fill="#000000"' if ink in FILLED else ""
    ends = "" if ink in PLAIN else ' stroke-linecap="round" stroke-linejoin="round"'
    return (
        f'<path data-ink="{ink}" d="{path}" stroke="#000000" stroke-width="{width}"'
        f"{ends}{dashed}{fill}/>\n"
    )


def _rows(points: Floats) -> Floats:
    """Rows of dots as strokes that are broken into dots, shape (k, 2, 2): a tenth of the text."""
    half = 0.5 * PENS[Ink.DOT][0]
    steps = np.diff(points, axis=0)
    ends = (np.abs(steps[:, 1]) > half) | (steps[:, 0] > 1.5 * DOT_MM)
    first = points[np.concatenate([[True], ends])] - np.array([half, 0.0])
    last = points[np.concatenate([ends, [True]])] + np.array([half, 0.0])
    return np.stack([first, last], axis=1)


def _path(curves: Sequence[tuple[Floats, bool]]) -> str:
    """Path data of curves, each with whether it is closed, in one go; up is down in SVG."""
    form = "".join(
        f"M{CORNER}L{' '.join([CORNER] * (len(curve) - 1))}{'Z' if closed else ''}"
        for curve, closed in curves
    )
    corners = np.concatenate([curve for curve, _ in curves]) * np.array([1.0, -1.0])
    return form % tuple(corners.ravel().tolist())


def _label(label: Label) -> str:
    size = Size.WORD if label.text[:1].isalpha() else label.size
    x, y, tall = label.at[0], -label.at[1], TALL[size]
    if size is not Size.THICKNESS or "/" not in label.text:
        family = NUMERALS if size is Size.THICKNESS else WORDS
        ring = _ring(x, y) if size is Size.ZONE else ""
        return ring + _text(label.text, x, y + 0.35 * tall, tall, family, "middle")
    whole, _, fraction = label.text.rpartition(" ")
    above, below = fraction.split("/")
    return _fraction(whole, above, below, x, y, tall)


def _ring(x: float, y: float) -> str:
    turn = f"a{RING_MM} {RING_MM} 0 1 1"
    half = f"{turn} {{:.1f}} 0".format
    path = f"M{x - RING_MM:.1f} {y:.1f}{half(2.0 * RING_MM)}{half(-2.0 * RING_MM)}Z"
    return f'<path d="{path}" {BAR}/>\n'


def _fraction(whole: str, above: str, below: str, x: float, y: float, tall: float) -> str:
    """Whole number, then numerator over bar over denominator."""
    small, wide = FRACTION * tall, 0.62 * FRACTION * tall * max(len(above), len(below))
    left = 0.62 * tall * len(whole)
    start = x - 0.5 * (left + wide)
    middle = start + left + 0.5 * wide
    parts = []
    if whole:
        parts.append(_text(whole, start + 0.45 * left, y + 0.35 * tall, tall, NUMERALS, "middle"))
    parts += [
        _text(above, middle, y - 0.12 * tall, small, NUMERALS, "middle"),
        f'<path d="M{middle - 0.5 * wide:.2f} {y:.2f}h{wide:.2f}" {BAR}/>\n',
        _text(below, middle, y + (0.12 + FIGURE * FRACTION) * tall, small, NUMERALS, "middle"),
    ]
    return "".join(parts)


def _text(text: str, x: float, y: float, tall: float, family: str, anchor: str) -> str:
    weight = ' font-weight="700"' if family is NUMERALS else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-family="{family}" font-size="{tall:.2f}"{weight}'
        f' text-anchor="{anchor}" fill="#000000">{escape(text)}</text>\n'
    )
