"""Forms on where one helmet is and whether it may go out: each makes the entry that says it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError

from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import (
    HelmetHeld,
    HelmetMoved,
    HelmetReleased,
    HelmetRetired,
)
from helmwright.records.kinds.visits import HelmetReturned
from helmwright.records.meanwhile import Meanwhile, MeanwhileError, clashing
from helmwright.records.models import Helmet
from helmwright.web.desk.helmet_act_form import NO_NAMES, ActForm, stores

HOLD = "hold"


class HoldForm(ActForm):
    """It is not to be issued."""

    title, button, kind = "Hold it", "Put it on hold", HelmetHeld
    why = forms.CharField(
        label="Why",
        max_length=200,
        help_text=f"Such as: crack at the left ear, being looked at. {NO_NAMES}",
    )

    def payload(self) -> Payload:
        """The reason stands beside others."""
        return HelmetHeld(helmet=self.of.id, why=self.cleaned["why"].rstrip(". "))


class ReleaseForm(ActForm):
    """The hold is lifted."""

    title, button, kind = "Lift the hold", "Lift the hold", HelmetReleased

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.open_on({HOLD: self.of.hold})

    def said(self) -> Mapping[str, Any]:
        """No reason stands."""
        return {HOLD: ""}

    def refuse_stale(self) -> None:
        """A reason that nobody saw here is not lifted with the others."""
        self.of.refresh_from_db()
        now = {HOLD: self.of.hold}
        if clashing(self.opened, now, self.said()):
            raise MeanwhileError([Meanwhile(HOLD, self.of.hold)])

    def tell(self, each: Meanwhile, *, now: datetime) -> None:  # noqa: ARG002 - nobody is named
        """Say what it is on hold for by now; whoever has read it may lift it all."""
        words = f"Another reason came since you opened this page. It is on hold: {each.now}."
        self.asked = []
        self.add_error(None, f"{words} Lift the hold once every reason is gone.")

    def payload(self) -> Payload:
        """Every reason is gone."""
        return HelmetReleased(helmet=self.of.id)


class MoveForm(ActForm):
    """It lies in another store now."""

    title, button, kind = "Move it to another store", "Move it", HelmetMoved
    store = forms.ChoiceField(label="To which store")

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        super().__init__(*args, helmet=helmet, **kwargs)
        here = str(helmet.store_id) if helmet else ""
        others = [choice for choice in stores() if choice[0] != here]
        self.fields["store"] = forms.ChoiceField(label="To which store", choices=others)

    def payload(self) -> Payload:
        """Where to."""
        return HelmetMoved(helmet=self.of.id, store=UUID(self.cleaned["store"]))


class ReturnForm(ActForm):
    """The player brought it back."""

    title, button, kind = "Take it back", "It is back", HelmetReturned
    store = forms.ChoiceField(label="Where it lies now")
    condition = forms.CharField(
        label="How it came back",
        max_length=200,
        required=False,
        help_text=f"What you see on it. {NO_NAMES}",
    )

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        super().__init__(*args, helmet=helmet, **kwargs)
        here = str(helmet.store_id) if helmet else ""
        self.fields["store"] = forms.ChoiceField(
            label="Where it lies now", choices=stores(), initial=here
        )

    def payload(self) -> Payload:
        """Where it is, and how."""
        store = UUID(self.cleaned["store"])
        return HelmetReturned(
            helmet=self.of.id, store=store, condition=self.cleaned["condition"].rstrip(". ")
        )


class RetireForm(ActForm):
    """It is never issued again; the ID is typed so that it is no slip."""

    title, button, kind = "Retire it for good", "Retire it", HelmetRetired
    why = forms.CharField(label="Why", max_length=200, help_text=NO_NAMES)
    typed = forms.CharField(label="Type its ID to retire it", max_length=20)

    def clean_typed(self) -> str:
        """The ID of this helmet."""
        typed: str = self.cleaned_data["typed"].strip().upper()
        if typed != self.of.code:
            raise ValidationError(f"{typed} is not this helmet; it is {self.of.code}.")
        return typed

    def payload(self) -> Payload:
        """For good."""
        return HelmetRetired(helmet=self.of.id, why=self.cleaned["why"].rstrip(". "))
