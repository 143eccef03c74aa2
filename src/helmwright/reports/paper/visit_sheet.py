"""A blank sheet for one fit visit, to be filled in with a pencil and typed in later."""

from typing import Any

from helmwright.anatomy import MEASURES
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.drawing import NUMBERS
from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.chances import model_words
from helmwright.reports.lengths import measure_words
from helmwright.reports.paper.typesetting import typeset
from helmwright.reports.protocol_page import STAGES
from helmwright.visit.check import Check, Stage
from helmwright.visit.check_list import Protocol

FIELDS = ("no.", "player", "worn underneath", "station", "fitter", "date", "helmet no.", "shell")
READINGS = 3
TRY_ONS = 4
"""Columns to answer the checks in: as many try-ons fit on the paper."""

REPEATED = (Stage.CONTACT, Stage.HELD)
"""Stages whose checks have a column for each try-on."""


def visit_sheet(sheet: ModelSheet, protocol: Protocol) -> bytes:
    """The blank sheet of a model as PDF, letter size."""
    return typeset("visit_sheet.typ", sheet_data(sheet, protocol), {})


def sheet_data(sheet: ModelSheet, protocol: Protocol) -> dict[str, Any]:
    """Everything on it, in words."""
    zones = sorted(ZONES, key=NUMBERS.__getitem__)
    return {
        "title": f"Fit visit on paper: {model_words(sheet)}",
        "fields": FIELDS,
        "measures": [measure_words(measure.key) for measure in MEASURES],
        "readings": READINGS,
        "try_ons": TRY_ONS,
        "zones": [{"number": str(NUMBERS[zone]), "name": str(zone)} for zone in zones],
        "stages": [
            {
                "title": STAGES[stage],
                "columns": TRY_ONS if stage in REPEATED else 1,
                "checks": [_check(check) for check in protocol.stage(stage)],
            }
            for stage in Stage
            if protocol.stage(stage)
        ],
        "symptoms": ", ".join(symptom.word for symptom in protocol.symptoms),
        "stop": protocol.symptom_stop,
        "cautions": CAUTIONS,
        "signatures": ("player", "fitter", "guardian, if a minor"),
    }


def _check(check: Check) -> dict[str, Any]:
    return {
        "title": check.title,
        "accept": check.accept,
        "maker": check.by_maker,
        "answers": ", ".join(answer.word for answer in check.answers),
    }
