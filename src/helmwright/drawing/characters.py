"""A section in plain characters, for a terminal."""

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import Zone
from helmwright.drawing.parts import Ink, Label, Section, Size

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.bool_]

NAMED = (Zone.CROWN, Zone.FRONT, Zone.REAR, Zone.NAPE)
"""Pads whose names are written; left and right lie where they are."""

SHELL, PAD, HEAD = "#", ":", "."
FINE = 5
"""Samples across and down each character."""

PAD_SHARE = 0.4
"""Least share of a character that a pad fills to be shown [1]."""

TALLER = 2.0
"""How much taller than wide a terminal's character is [1]."""


def characters(section: Section, *, width: int, mm_per_column: float) -> list[str]:
    """The cut shell, pads and head in plain characters.

    Parameters
    ----------
    section
        What to draw.
    width
        Columns of the text; the section's own middle lies in the middle.
    mm_per_column
        Scale [mm].

    Returns
    -------
    Lines of at most `width` characters.
    """
    shell = section.shell
    outlines = [line.points for line in section.of(Ink.PAD)]
    middle = 0.5 * (shell[:, 0].min() + shell[:, 0].max())
    row_mm = TALLER * mm_per_column
    top, low = shell[:, 1].max(), min(shell[:, 1].min(), _lowest(section))
    rows = int(np.ceil((top - low) / row_mm))
    fine_x = middle + mm_per_column * (_centers(width) - 0.5 * width)
    fine_y = top - row_mm * _centers(rows)
    points = np.stack(np.meshgrid(fine_x, fine_y), axis=-1).reshape(-1, 2)
    shape = (rows, FINE, width, FINE)
    cells = (rows, width)
    hard = _touched([_middle_line(shell)], middle, top, cells, mm_per_column)
    in_pad = _share(np.any([_inside(each, points) for each in outlines], axis=0), shape)
    skin = [line.points for line in section.of(Ink.HEAD)]
    head = _touched(skin, middle, top, cells, mm_per_column)
    drawn = np.where(hard, SHELL, np.where(in_pad >= PAD_SHARE, PAD, np.where(head, HEAD, " ")))
    for label in section.labels:
        _write(drawn, label, middle, top, mm_per_column)
    return ["".join(row).rstrip() for row in drawn]


def _write(
    drawn: npt.NDArray[np.str_], label: Label, middle: float, top: float, scale: float
) -> None:
    """Puts a pad's name and thickness where the drawing has the thickness.

    The words run toward the middle of the head. Where there is no room for the name, the
    thickness stands alone.
    """
    if label.size is not Size.THICKNESS:
        return
    row = int((top - label.at[1]) / (TALLER * scale))
    at = (label.at[0] - middle) / scale
    for words in (f"{label.zone} {label.text}", label.text):
        start = at - 0.5 * len(label.text if at < -2.0 else words)
        start = at + 0.5 * len(label.text) - len(words) if at > 2.0 else start
        first = max(round(start + 0.5 * drawn.shape[1]), 0)
        around = drawn[row, max(first - 1, 0) : first + len(words) + 1].tolist()
        if words == label.text or (label.zone in NAMED and _is_free(around)):
            drawn[row, first : first + len(words)] = list(words)
            return


def _is_free(around: list[str]) -> bool:
    """Whether words may stand inside these characters, parted from all others."""
    return set(around[1:-1]) <= {" ", HEAD} and not any(edge.isalnum() for edge in around)


def _middle_line(shell: Floats) -> Floats:
    """The middle of the cut shell, from the outline along its inside and back outside."""
    half = len(shell) // 2
    sparse = 0.5 * (shell[:half] + shell[: half - 1 : -1])
    at = np.linspace(0.0, half - 1.0, 6 * half)
    return np.column_stack([np.interp(at, np.arange(half), sparse[:, k]) for k in (0, 1)])


def _centers(cells: int) -> Floats:
    return (np.arange(cells * FINE) + 0.5) / FINE


def _share(inside: Bits, shape: tuple[int, int, int, int]) -> Floats:
    return np.asarray(inside.reshape(shape).mean(axis=(1, 3)))


def _lowest(section: Section) -> float:
    return min(float(line.points[:, 1].min()) for line in section.of(Ink.HEAD))


def _inside(outline: Floats, points: Floats) -> Bits:
    """Which points lie inside a closed outline, by counting crossings."""
    start, end = outline, np.roll(outline, -1, axis=0)
    x, y = points[:, :1], points[:, 1:]
    spans = (start[:, 1] > y) != (end[:, 1] > y)
    rise = end[:, 1] - start[:, 1]
    slope = (end[:, 0] - start[:, 0]) / np.where(rise == 0.0, 1.0, rise)
    at = start[:, 0] + (y - start[:, 1]) * slope
    return np.asarray((spans & (x < at)).sum(axis=1) % 2 == 1)


def _touched(
    curves: list[Floats], middle: float, top: float, shape: tuple[int, int], scale: float
) -> Bits:
    """Cells that a line passes through."""
    cells = np.zeros(shape, dtype=bool)
    for points in curves:
        column = np.floor((points[:, 0] - middle) / scale + 0.5 * shape[1]).astype(int)
        row = np.floor((top - points[:, 1]) / (TALLER * scale)).astype(int)
        kept = (row >= 0) & (row < shape[0]) & (column >= 0) & (column < shape[1])
        cells[row[kept], column[kept]] = True
    return cells
