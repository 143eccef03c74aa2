"""Paper: fit cards and the roster sheet, set in type as PDF."""

from helmwright.reports.paper.card import fit_cards
from helmwright.reports.paper.roster_sheet import roster_sheet

__all__ = ["fit_cards", "roster_sheet"]
