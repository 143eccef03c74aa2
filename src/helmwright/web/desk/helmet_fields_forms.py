"""Forms on what is known of a helmet beside its build: a new one, and one that is known better."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone

from helmwright.catalogue import ModelSheet
from helmwright.records.kept_fields import kept_of_helmet
from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import (
    HelmetAdded,
    HelmetChanged,
    HelmetFields,
)
from helmwright.records.meanwhile import MeanwhileError
from helmwright.records.models import Helmet, Sheet
from helmwright.records.part_place import GUARD, STRAP
from helmwright.records.readers.last_said import helmet_meanwhile
from helmwright.records.sheets import sheet_of
from helmwright.units import inches
from helmwright.web.desk.helmet_act_form import ActForm, stores

AHEAD = timedelta(days=366)
"""A day farther ahead is a year mistyped."""

DATES = ("made_on", "bought_on", "first_certified_on", "recertified_on")


def _day(label: str, says: str = "") -> forms.DateField:
    widget = forms.DateInput(attrs={"type": "date"})
    return forms.DateField(label=label, required=False, widget=widget, help_text=says)


class FieldsForm(ActForm):
    """What is known of a helmet beside its build."""

    serial = forms.CharField(label="Maker's serial number", max_length=60, required=False)
    color = forms.CharField(label="Color of the shell", max_length=40, required=False)
    made_on = _day("Made on")
    bought_on = _day("Bought on")
    first_certified_on = _day("First certified on", "As on the label inside.")
    recertified_on = _day("Last recertified on", "By a licensed firm, as on its label.")
    interval_months = forms.IntegerField(
        label="Recertified every so many months",
        required=False,
        min_value=1,
        max_value=240,
        help_text="By the model sheet where this is left out.",
    )
    life_years = forms.IntegerField(
        label="Used for so many years at most",
        required=False,
        min_value=1,
        max_value=40,
        help_text="By the model sheet where this is left out.",
    )

    def clean(self) -> dict[str, Any]:
        """Dates stand in their order."""
        cleaned: dict[str, Any] = super().clean() or {}
        for name in DATES:
            self._look_at(name, cleaned.get(name), cleaned.get("made_on"))
        return cleaned

    def _look_at(self, name: str, day: date | None, made: date | None) -> None:
        label = self.fields[name].label
        if day is not None and day > timezone.localdate() + AHEAD:
            self.add_error(name, f"{label} {day:%Y-%m-%d} lies far ahead; look at the year.")
        elif day is not None and made is not None and day < made:
            said = f"{label} is before it was made, {made:%Y-%m-%d}; one of the two is wrong."
            self.add_error(name, said)

    def known(self) -> dict[str, Any]:
        """The fields of the entry."""
        names = set(HelmetFields.model_fields) - {"guard", "strap"}
        return {name: self.cleaned[name] for name in names}


class HelmetForm(FieldsForm):
    """A helmet that is new here."""

    code = forms.CharField(
        label="ID on its label", max_length=20, help_text="Capitals, digits and dashes: TV-0147."
    )
    model = forms.ChoiceField(label="Model and shell")
    store = forms.ChoiceField(label="Store")
    field_order = ("code", "model", "store", "serial", "color", *DATES)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["model"] = forms.ChoiceField(label="Model and shell", choices=_shells())
        self.fields["store"] = forms.ChoiceField(label="Store", choices=stores())
        self.order_fields(self.field_order)

    def clean_code(self) -> str:
        """Capitals, and no other helmet's."""
        code: str = self.cleaned_data["code"].strip().upper()
        if not code[:1].isalnum() or not code.replace("-", "").isalnum() or not code.isascii():
            raise ValidationError("An ID has letters, digits and dashes alone: TV-0147.")
        if Helmet.objects.filter(code=code).exists():
            raise ValidationError(f"There is a helmet {code} already; give this one another ID.")
        return code

    def clean(self) -> dict[str, Any]:
        """Nor another helmet's serial number."""
        cleaned = super().clean()
        serial = cleaned.get("serial")
        other = Helmet.objects.filter(serial=serial).first() if serial else None
        if other is not None:
            self.add_error("serial", f"{other.code} has this serial number; look at both.")
        return cleaned

    def added(self, helmet: UUID) -> HelmetAdded:
        """The entry."""
        digest, shell = self.cleaned["model"].split("|")
        return HelmetAdded(
            helmet=helmet,
            code=self.cleaned["code"],
            sheet=digest,
            shell=int(shell),
            store=UUID(self.cleaned["store"]),
            **self.known(),
        )


class ChangeForm(FieldsForm):
    """Dates and descriptions, as they are from now on."""

    title, button, kind = "Change dates and descriptions", "Change them", HelmetChanged

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        if helmet is not None:
            known = set(HelmetFields.model_fields) - {"guard", "strap"}
            kwargs.setdefault("initial", {name: _written(getattr(helmet, name)) for name in known})
        super().__init__(*args, helmet=helmet, **kwargs)
        self.open_on(self._stands())

    def _stands(self) -> dict[str, Any]:
        fields = kept_of_helmet(self.of)
        return {name: value for name, value in fields.items() if name not in {GUARD, STRAP}}

    def said(self) -> Mapping[str, Any]:
        """Every field of the page, as JSON holds it."""
        return HelmetFields(**self.known()).model_dump(mode="json", exclude={GUARD, STRAP})

    def refuse_stale(self) -> None:
        """Field by field."""
        self.of.refresh_from_db()
        found = helmet_meanwhile(self.of.id, self.opened, self._stands(), self.changed)
        if found:
            raise MeanwhileError(found)

    @property
    def says_nothing(self) -> bool:
        """Where everything is as it was."""
        return not self.changed

    def clean(self) -> dict[str, Any]:
        """No other helmet of the model has the serial number."""
        cleaned = super().clean()
        serial = cleaned.get("serial")
        others = Helmet.objects.filter(serial=serial, sheet=self.of.sheet_id).exclude(pk=self.of.pk)
        other = others.first() if serial else None
        if other is not None:
            self.add_error("serial", f"{other.code} has this serial number; look at both.")
        return cleaned

    def payload(self) -> Payload:
        """What was changed; everything else stays as it is."""
        return HelmetChanged.model_validate({"helmet": self.of.id, **self.changed})


def _shells() -> list[tuple[str, list[tuple[str, str]]]]:
    rows = Sheet.objects.filter(is_current=True).order_by("model")
    return [(row.model, _shells_of(row.digest, sheet_of(row))) for row in rows]


def _shells_of(digest: str, sheet: ModelSheet) -> list[tuple[str, str]]:
    return [
        (
            f"{digest}|{shell.number}",
            (
                f"shell {shell.number}, for {inches(shell.chart_low_mm)}"
                f" to {inches(shell.chart_high_mm)} in"
            ),
        )
        for shell in sheet.shells
    ]


def _written(value: object) -> object:
    return value.isoformat() if isinstance(value, date) else value
