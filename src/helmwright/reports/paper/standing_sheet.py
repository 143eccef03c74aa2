"""The roster as it stands, and the order of a fitting day, to tick and to write on."""

from collections.abc import Sequence
from dataclasses import dataclass

from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.paper.typesetting import typeset


@dataclass(frozen=True, slots=True)
class StandingRow:
    """One player.

    Parameters
    ----------
    number, name, position
        As on the roster.
    standing
        Where the player stands, in a word or two.
    helmet, build
        The helmet's own ID, and what is in it.
    reading
        Head circumference as people write it; empty where nobody measured.
    """

    number: str
    name: str
    position: str
    standing: str
    helmet: str = ""
    build: str = ""
    reading: str = ""


def standing_sheet(rows: Sequence[StandingRow], *, title: str, foot: str) -> bytes:
    """A letter page on its side, as many as it takes, as PDF.

    Parameters
    ----------
    rows
        In the order in which they are printed.
    title
        Such as "Roster of the Kingfishers".
    foot
        When it was printed, and the head of the ledger's chain.

    Raises
    ------
    ValueError
        Without rows.
    """
    if not rows:
        raise ValueError("there is nobody on this list")
    data = {
        "title": title,
        "foot": foot,
        "count": len(rows),
        "rows": [
            [row.number, row.name, row.position, row.reading, row.standing, row.helmet, row.build]
            for row in rows
        ],
        "cautions": CAUTIONS,
    }
    return typeset("standing_sheet.typ", data, {})
