"""Cells that a spreadsheet would run as formulas, made harmless."""

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def safe(cell: str) -> str:
    """The cell, with a quote before anything that a spreadsheet would run as a formula."""
    return f"'{cell}" if cell.lstrip(" ").startswith(FORMULA_STARTS) else cell
