"""The demonstration roster: the Tamarack Valley College Kingfishers, all invented."""

from importlib import resources

DEMO_FILE = "kingfishers.csv"


def demo_roster_bytes() -> bytes:
    """The bytes of the demonstration roster, as a manager would have saved them."""
    return (resources.files("helmwright.roster") / "demo" / DEMO_FILE).read_bytes()
