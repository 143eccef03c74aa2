"""Model sheets of the room."""

from collections.abc import Sequence
from functools import lru_cache

from django.db.models import Count

from helmwright.catalogue.reading import parse_sheet
from helmwright.catalogue.sheet import ModelSheet
from helmwright.records.models import Sheet


def current_sheets() -> list[Sheet]:
    """Sheets that are offered for new visits, the one of most helmets first."""
    counted = Sheet.objects.filter(is_current=True).annotate(helmets=Count("helmet"))
    return list(counted.order_by("-helmets", "model"))


def chosen_sheet(sheets: Sequence[Sheet], digest: str) -> Sheet | None:
    """The one that was asked for, or else the first; None where there is none."""
    return next((one for one in sheets if one.digest == digest), sheets[0] if sheets else None)


def parsed(sheet: Sheet) -> ModelSheet:
    """What a sheet says."""
    return _parsed(sheet.digest, sheet.text)


@lru_cache(maxsize=32)
def _parsed(_digest: str, text: str) -> ModelSheet:
    return parse_sheet(text, name="the room's sheet")
