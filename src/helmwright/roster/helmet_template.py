"""An empty list of helmets, to be filled in."""

HELMET_TEMPLATE = {
    "ID": "TV-0147",
    "Serial": "",
    "Model": "as on its model sheet",
    "Shell": "4",
    "Color": "navy",
    "Made": "3/1/2024",
    "Bought": "5/2/2024",
    "First certified": "3/1/2024",
    "Recertified": "",
    "Recertify every (months)": "",
    "Life (years)": "",
    "Store": "as the room calls it",
    "Build now": "crown 7/8, jaw left 1 1/8",
    "Face guard": "",
    "Chin strap": "",
    "Notes": "",
}
"""Headings, each with an invented example of what goes below it."""


def helmet_template() -> str:
    """The headings as CSV; no example stands below them, it would be taken in."""
    return f"{','.join(HELMET_TEMPLATE)}\n"
