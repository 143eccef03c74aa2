"""Paper: cards, rosters, labels and blank sheets, set in type as PDF."""

from helmwright.reports.paper.card import fit_cards
from helmwright.reports.paper.fitted_card import (
    CardPad,
    CardPicture,
    CardReading,
    FittedCard,
    Signature,
    fitted_cards,
    signature_svg,
)
from helmwright.reports.paper.label_sheets import LABEL_SHEETS, USUAL_SHEET, LabelSheet
from helmwright.reports.paper.labels import (
    DrawerLabel,
    HelmetLabel,
    code_picture,
    drawer_labels,
    helmet_labels,
)
from helmwright.reports.paper.roster_sheet import roster_sheet
from helmwright.reports.paper.standing_sheet import StandingRow, standing_sheet
from helmwright.reports.paper.visit_sheet import visit_sheet

__all__ = [
    "LABEL_SHEETS",
    "USUAL_SHEET",
    "CardPad",
    "CardPicture",
    "CardReading",
    "DrawerLabel",
    "FittedCard",
    "HelmetLabel",
    "LabelSheet",
    "Signature",
    "StandingRow",
    "code_picture",
    "drawer_labels",
    "fit_cards",
    "fitted_cards",
    "helmet_labels",
    "roster_sheet",
    "signature_svg",
    "standing_sheet",
    "visit_sheet",
]
