"""The catalogue: what a helmet model offers and allows, read from its model sheet and checked."""

from helmwright.catalogue.advice import advise
from helmwright.catalogue.changing import ChangeInstruction, PartKind
from helmwright.catalogue.drafting import DraftPads, SheetDraft, draft_text
from helmwright.catalogue.face_places import BarPlace, FaceArea, Snap
from helmwright.catalogue.foam import Foam
from helmwright.catalogue.foams import BUILT_IN_FOAMS, CUSHION, VINYL_NITRILE
from helmwright.catalogue.insides import INSIDE_NUMBERS, InsideBelief
from helmwright.catalogue.instruction import FitTopic, Instruction
from helmwright.catalogue.packaged import load_packaged, packaged_models, packaged_text
from helmwright.catalogue.parts import (
    ChinStrap,
    Exclusion,
    FaceGuard,
    Hardware,
    Position,
)
from helmwright.catalogue.reading import SheetError, SheetFault, parse_sheet
from helmwright.catalogue.sheet import (
    BETWEEN_BANDS,
    USUAL_FORM,
    ModelSheet,
    PadKind,
    Seat,
    Shell,
    ShellForm,
)
from helmwright.catalogue.usual import relearned
from helmwright.catalogue.window import SnugWindow, pad_stroke_mm, snug_window
from helmwright.catalogue.zone import ZONES, Zone

__all__ = [
    "BETWEEN_BANDS",
    "BUILT_IN_FOAMS",
    "CUSHION",
    "INSIDE_NUMBERS",
    "USUAL_FORM",
    "VINYL_NITRILE",
    "ZONES",
    "BarPlace",
    "ChangeInstruction",
    "ChinStrap",
    "DraftPads",
    "Exclusion",
    "FaceArea",
    "FaceGuard",
    "FitTopic",
    "Foam",
    "Hardware",
    "InsideBelief",
    "Instruction",
    "ModelSheet",
    "PadKind",
    "PartKind",
    "Position",
    "Seat",
    "SheetDraft",
    "SheetError",
    "SheetFault",
    "Shell",
    "ShellForm",
    "Snap",
    "SnugWindow",
    "Zone",
    "advise",
    "draft_text",
    "load_packaged",
    "packaged_models",
    "packaged_text",
    "pad_stroke_mm",
    "parse_sheet",
    "relearned",
    "snug_window",
]
