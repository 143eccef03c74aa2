"""Label sheets that are sold nearly everywhere: how their labels lie on a letter page.

Sizes and pitches are common practice in the stationery trade, from memory; a printer shifts the
page by its own amount, which `nudged` puts right.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

PAGE_IN = (8.5, 11.0)


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """One kind of sheet.

    Parameters
    ----------
    key, name
        What it is called in an address and on a page.
    columns, rows
        Labels across and down.
    width_in, height_in
        Of one label [in].
    left_in, top_in
        Edge of the page to the first label [in].
    across_in, down_in
        From one label's edge to the next one's [in].
    """

    key: str
    name: str
    columns: int
    rows: int
    width_in: float
    height_in: float
    left_in: float
    top_in: float
    across_in: float
    down_in: float

    def __post_init__(self) -> None:
        if self.width_in > self.across_in or self.height_in > self.down_in:
            raise ValueError(f"labels of {self.key} lie on top of each other")
        right = self.left_in + (self.columns - 1) * self.across_in + self.width_in
        bottom = self.top_in + (self.rows - 1) * self.down_in + self.height_in
        if self.left_in < 0 or self.top_in < 0 or right > PAGE_IN[0] or bottom > PAGE_IN[1]:
            raise ValueError(f"labels of {self.key} leave the page")

    @property
    def count(self) -> int:
        """Labels on a page."""
        return self.columns * self.rows

    def corner_in(self, place: int) -> tuple[float, float]:
        """Left and top of a label, counted row by row from 0 [in]."""
        row, column = divmod(place % self.count, self.columns)
        return self.left_in + column * self.across_in, self.top_in + row * self.down_in

    def nudged(self, right_in: float = 0.0, down_in: float = 0.0) -> "LabelSheet":
        """The same sheet for a printer that shifts its pages.

        Raises
        ------
        ValueError
            Where the labels would leave the page.
        """
        return replace(self, left_in=self.left_in + right_in, top_in=self.top_in + down_in)


LABEL_SHEETS: Mapping[str, LabelSheet] = {
    sheet.key: sheet
    for sheet in (
        LabelSheet("30", "30 a page, 1 by 2 5/8 in", 3, 10, 2.625, 1.0, 0.1875, 0.5, 2.75, 1.0),
        LabelSheet("20", "20 a page, 1 by 4 in", 2, 10, 4.0, 1.0, 0.15625, 0.5, 4.1875, 1.0),
        LabelSheet("10", "10 a page, 2 by 4 in", 2, 5, 4.0, 2.0, 0.15625, 0.5, 4.1875, 2.0),
        LabelSheet("6", "6 a page, 3 1/3 by 4 in", 2, 3, 4.0, 10 / 3, 0.15625, 0.5, 4.1875, 10 / 3),
    )
}
"""By their key; the first is offered first."""

USUAL_SHEET = "30"
