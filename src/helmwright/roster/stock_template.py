"""An empty stock list of one model, to be counted through, and the demonstration's full one."""

import csv
import io
from collections.abc import Iterator
from importlib import resources

from helmwright.catalogue.sheet import ModelSheet
from helmwright.roster.stock_place import SHELL

HEADINGS = ("Place", "Size", "Count")
DEMO_STOCK = "ouzel-stock.csv"


def stock_template(sheet: ModelSheet) -> str:
    """Every shell and every pad that the sheet has, the counts left empty, as CSV."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADINGS)
    writer.writerows((place, size, "") for place, size in stock_parts(sheet))
    return text.getvalue()


def stock_parts(sheet: ModelSheet) -> Iterator[tuple[str, str]]:
    """Place and size of everything that a store may hold of a model; air cells are filled."""
    yield from ((SHELL, str(shell.number)) for shell in sheet.shells)
    for pad in sheet.pads:
        if pad.seats and pad.cell is None:
            yield from ((str(pad.zone), label) for label in pad.labels)


def demo_stock_bytes() -> bytes:
    """The bytes of the demonstration's stock list: parts of the Ouzel, all invented."""
    return (resources.files("helmwright.roster") / "demo" / DEMO_STOCK).read_bytes()
