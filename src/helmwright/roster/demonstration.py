"""The demonstration roster: the Tamarack Valley College Kingfishers, all invented."""

from importlib import resources

DEMO_FILE = "kingfishers.csv"


def demo_roster_bytes() -> bytes:
    """The bytes of the demonstration roster, as a manager would have saved them."""
    return (resources.files("helmwright.roster") / "demo" / DEMO_FILE).read_bytes()


TEMPLATE = {
    "Number": "12",
    "Player": "Example Player (invented)",
    "Position": "LB",
    "Sex": "M",
    "Age": "",
    "Height": "6 ft 2 in",
    "Weight (lb)": "215",
    "Tape (in)": "22 5/8",
    "Tape 2 (in)": "22 1/2",
    "Length (in)": "7 7/8",
    "Breadth (in)": "6 1/8",
    "Brow to top (in)": "4",
    "Jaw width (in)": "5 3/8",
    "Worn": "bare",
    "Glasses": "no",
    "Light tape (in)": "",
    "Tape over": "",
    "Measured by": "",
    "Measured on": "",
    "Build now": "",
    "Notes": "hair cut in week five",
}
"""Headings of an empty roster, each with an invented example of what goes below it.

What most rosters do without stands to the right. The height is spelled with ft and in: a
spreadsheet would make a date of 6-2.
"""


def roster_template() -> str:
    """The headings of a roster to be filled in, as CSV.

    No example stands below them: one that is written over leaves its numbers in every cell that
    nobody measured.
    """
    return f"{','.join(TEMPLATE)}\n"
