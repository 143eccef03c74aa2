"""Forms on those who answer for a player, on consent and on how long a record is kept."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError

from helmwright.records.meanwhile import Meanwhile
from helmwright.records.models import Guardian
from helmwright.records.words import us_date
from helmwright.web.desk.opened import OpenedForm
from helmwright.web.desk.player_form import unremembered
from helmwright.web.meanwhile_words import changed_words

THEMSELVES = "player"
SAID, PAPER = "said", "paper"
MOST_YEARS = 60
"""A hold ends within so many years: a year mistyped would keep a record for good."""


class GuardianForm(forms.Form):
    """Somebody who answers for a minor."""

    name = forms.CharField(label="Name", max_length=120)
    relation = forms.CharField(
        label="Who that is to the player", max_length=40, required=False, help_text="As mother."
    )
    contact = forms.CharField(
        label="How to reach them",
        max_length=120,
        required=False,
        help_text="One number or address, and only if the room needs it.",
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        unremembered(self)


class ConsentForm(forms.Form):
    """An agreement that was given."""

    about = forms.ChoiceField(
        label="To what",
        choices=[("fitting", "being measured and fitted"), ("scan", "a scan of the head"),
                 ("warning", "the warning, read and explained")],
    )  # fmt: skip
    by_whom = forms.ChoiceField(label="Who agreed")
    how = forms.ChoiceField(
        label="How",
        choices=[
            (SAID, "in person, to the room's own words"),
            (PAPER, "on paper, which is kept"),
        ],
    )

    def __init__(
        self, *args: Any, guardians: Sequence[Guardian], surely_minor: bool, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.surely_minor = surely_minor
        known = [(str(one.pk), str(one)) for one in guardians]
        self.fields["by_whom"] = forms.ChoiceField(
            label="Who agreed",
            choices=[("", "choose one"), *known, (THEMSELVES, "the player, who is of age")],
        )
        unremembered(self)

    def clean_by_whom(self) -> str:
        """Nobody agrees alone who is under age by the year that is kept."""
        whom = str(self.cleaned_data["by_whom"])
        if whom == THEMSELVES and self.surely_minor:
            raise ValidationError(
                "By the year of birth that is kept the player is under 18: a parent or guardian"
                " agrees. Add them to the player first, or put the year right."
            )
        return whom

    @property
    def on_paper(self) -> bool:
        """Whether a paper holds the words that were agreed to."""
        return bool(self.cleaned_data["how"] == PAPER)

    @property
    def guardian(self) -> UUID | None:
        """Which guardian; None for the player."""
        whom = self.cleaned_data["by_whom"]
        return None if whom == THEMSELVES else UUID(whom)


class HoldForm(OpenedForm):
    """Until when nothing is erased; said whole, so that a day set meanwhile is not set back."""

    until = forms.DateField(
        label="Until the end of", required=False, widget=forms.DateInput(attrs={"type": "date"})
    )
    why = forms.CharField(label="Why", max_length=200, required=False)

    def __init__(self, *args: Any, today: date, until: date | None, **kwargs: Any) -> None:
        self.today = today
        kwargs.setdefault("initial", {"until": until.isoformat() if until else ""})
        super().__init__(*args, **kwargs)
        self.open_on({"until": until.isoformat() if until else None})
        unremembered(self)

    def said(self) -> Mapping[str, Any]:
        """The day, as JSON holds it."""
        until = self.cleaned_data["until"]
        return {"until": until.isoformat() if until else None}

    def tell(self, each: Meanwhile, *, now: datetime) -> None:
        """The day is written whole, so that sending it again is the answer."""
        self.asked = []
        stands = us_date(date.fromisoformat(each.now)) if each.now else "no hold"
        words = changed_words(each, f"{stands} stands there", now=now)
        self.add_error("until", f"{words} Send it again where what you wrote holds.")

    def clean_until(self) -> date | None:
        """A day to come, within a lifetime of records."""
        until: date | None = self.cleaned_data["until"]
        if until is not None and until < self.today:
            raise ValidationError("This day is past. Write a day to come, or leave it blank.")
        if until is not None and until.year > self.today.year + MOST_YEARS:
            raise ValidationError(f"This is more than {MOST_YEARS} years away. Check the year.")
        return until


class EraseForm(forms.Form):
    """The name typed out, so that nobody is erased by a slip of the hand."""

    typed = forms.CharField(label="Type it here", max_length=130)

    def __init__(self, *args: Any, wanted: str, **kwargs: Any) -> None:
        self.wanted = wanted
        super().__init__(*args, **kwargs)
        unremembered(self)

    def clean_typed(self) -> str:
        """Exactly what was asked for."""
        typed: str = self.cleaned_data["typed"]
        if typed.strip() != self.wanted:
            raise ValidationError(f"This is not the same. Type {self.wanted}, letter by letter.")
        return typed
