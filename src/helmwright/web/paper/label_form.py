"""On which sheet labels are printed, where they begin, and how the printer shifts them."""

from typing import Any

from django import forms

from helmwright.reports.paper import LABEL_SHEETS, USUAL_SHEET, LabelSheet
from helmwright.units import MM_PER_INCH, UnitsError, parse_length

MOST_NUDGE_IN = 0.25


class LabelForm(forms.Form):
    """What is asked before labels are printed; everything has a usual answer."""

    sheet = forms.ChoiceField(
        label="Label sheet",
        choices=[(each.key, each.name) for each in LABEL_SHEETS.values()],
        initial=USUAL_SHEET,
    )
    skip = forms.IntegerField(
        label="Labels of the first page that are used up", min_value=0, initial=0, required=False
    )
    right = forms.CharField(
        label="Print further right, inches", required=False, max_length=12,
        help_text="1/16, or -1/16 for further left.",
    )  # fmt: skip
    down = forms.CharField(label="Print further down, inches", required=False, max_length=12)

    def clean_right(self) -> float:
        """Inches to the right."""
        return nudge(self.cleaned_data["right"])

    def clean_down(self) -> float:
        """Inches down."""
        return nudge(self.cleaned_data["down"])

    def clean(self) -> dict[str, Any]:
        """The sheet with the nudge, and no more skipped than it has."""
        said = super().clean() or {}
        if self.errors:
            return said
        sheet = LABEL_SHEETS[said["sheet"]]
        if (said["skip"] or 0) >= sheet.count:
            self.add_error("skip", f"The sheet has {sheet.count} labels; skip fewer.")
            return said
        try:
            said["sheet"] = sheet.nudged(said["right"], said["down"])
        except ValueError:
            self.add_error("right", "The labels would leave the page; nudge by less.")
        return said

    @property
    def label_sheet(self) -> LabelSheet:
        """What is printed on, once the form is valid."""
        sheet: LabelSheet = self.cleaned_data["sheet"]
        return sheet

    @property
    def skipped(self) -> int:
        """Labels left out at the beginning."""
        return int(self.cleaned_data["skip"] or 0)


def nudge(text: str) -> float:
    """Inches, with a fraction and a sign as people write them.

    Raises
    ------
    ValidationError
        For what is no length, or more than a quarter of an inch.
    """
    written = text.strip().replace("−", "-")
    if not written:
        return 0.0
    sign = -1.0 if written.startswith("-") else 1.0
    try:
        inches = parse_length(written.lstrip("+-").strip(), unit="in") / MM_PER_INCH
    except UnitsError as error:
        raise forms.ValidationError("Write inches, such as 1/16 or -1/16.") from error
    if inches > MOST_NUDGE_IN:
        raise forms.ValidationError("A printer shifts by 1/4 in at most; write less.")
    return sign * inches
