"""Model sheets of the room, and how many helmets of each shell there are."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

from django.db.models import Count

from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import HelmetStanding, good_to_issue
from helmwright.records.models import Helmet, Sheet
from helmwright.records.sheets import sheet_of


def current_sheets() -> list[Sheet]:
    """Sheets that are offered for new visits, the one of most helmets first."""
    counted = Sheet.objects.filter(is_current=True).annotate(helmets=Count("helmet"))
    return list(counted.order_by("-helmets", "model"))


def chosen_sheet(sheets: Sequence[Sheet], digest: str) -> Sheet | None:
    """The one that was asked for, or else the first; None where there is none."""
    return next((one for one in sheets if one.digest == digest), sheets[0] if sheets else None)


def good_by_shell(sheet: Sheet, day: date) -> dict[int, int]:
    """Helmets of the model against which the records show nothing, issued ones too, by shell."""
    helmets = Helmet.objects.filter(sheet__model=sheet.model, retired_on=None)
    return Counter(
        helmet.shell
        for helmet in helmets
        if good_to_issue(facts_of(helmet, sheet_of(sheet)), day).standing is HelmetStanding.GOOD
    )
