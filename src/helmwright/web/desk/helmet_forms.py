"""Forms on one helmet: each makes the entry that says it."""

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
    FaceChanged,
    HelmetAdded,
    HelmetChanged,
    HelmetFields,
    HelmetHeld,
    HelmetMoved,
    HelmetReleased,
    HelmetRetired,
    PartsChanged,
)
from helmwright.records.kinds.visits import HelmetReturned
from helmwright.records.meanwhile import Meanwhile, MeanwhileError, clashing
from helmwright.records.models import Helmet, Sheet, Store
from helmwright.records.part_place import GUARD, STRAP, sizes_by_place, swapped_zones
from helmwright.records.readers.last_said import helmet_meanwhile, pads_meanwhile
from helmwright.records.sheets import sheet_of
from helmwright.units import inches
from helmwright.web.desk.opened import OpenedForm

NO_NAMES = "No names of players: it is of the helmet, and stays when a player is erased."
"""Beside free text that no erasure reaches."""

AHEAD = timedelta(days=366)
"""A day farther ahead is a year mistyped."""

HOLD = "hold"

DATES = ("made_on", "bought_on", "first_certified_on", "recertified_on")


def _day(label: str, says: str = "") -> forms.DateField:
    widget = forms.DateInput(attrs={"type": "date"})
    return forms.DateField(label=label, required=False, widget=widget, help_text=says)


def _stores() -> list[tuple[str, str]]:
    rows = Store.objects.filter(is_closed=False).order_by("name")
    return [(str(store.id), store.name) for store in rows]


class ActForm(OpenedForm):
    """A form whose errors are said beside the field and read with it."""

    title = ""
    button = ""
    kind: type[Payload]

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", f"{type(self).__name__.lower()}-%s")
        super().__init__(*args, **kwargs)
        self.helmet = helmet

    def payload(self) -> Payload:
        """What the form says, once it is valid."""
        raise NotImplementedError

    @property
    def says_nothing(self) -> bool:
        """Whether nothing is left to be said, because others' word holds."""
        return bool(self.asked) and not self.changed

    def refuse_stale(self) -> None:
        """Refuse what was changed otherwise since the page was opened.

        Raises
        ------
        MeanwhileError
            Which fields.
        """

    @property
    def cleaned(self) -> Mapping[str, Any]:
        """What was understood."""
        return self.cleaned_data

    @property
    def of(self) -> Helmet:
        """The helmet that it is about."""
        assert self.helmet is not None  # noqa: S101 - forms on one helmet are given it
        return self.helmet


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
        self.fields["store"] = forms.ChoiceField(label="Store", choices=_stores())
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

    def tell(self, each: Meanwhile, _who: str) -> None:
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
        others = [choice for choice in _stores() if choice[0] != here]
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
            label="Where it lies now", choices=_stores(), initial=here
        )

    def payload(self) -> Payload:
        """Where it is, and how."""
        store = UUID(self.cleaned["store"])
        return HelmetReturned(
            helmet=self.of.id, store=store, condition=self.cleaned["condition"].rstrip(". ")
        )


class PadsForm(ActForm):
    """Pads were changed with the hands."""

    title, button, kind = "Change pads", "They are changed", PartsChanged

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        super().__init__(*args, helmet=helmet, **kwargs)
        assert helmet is not None  # noqa: S101 - as of `of`
        sheet, now = sheet_of(helmet.sheet), _pads(helmet)
        for zone in swapped_zones(sheet):
            labels = next(kind.labels for kind in sheet.pads if str(kind.zone) == zone)
            self.fields[_field(zone)] = forms.ChoiceField(
                label=zone.capitalize(), choices=_pairs(labels), initial=now.get(zone)
            )
        self.fields["store"] = forms.ChoiceField(
            label="Out of which store", choices=_stores(), initial=str(helmet.store_id)
        )
        self.fields["why"] = forms.CharField(
            label="Why", max_length=200, required=False, help_text=NO_NAMES
        )
        self.open_on(self._stands())

    def _stands(self) -> dict[str, str]:
        pads = _pads(self.of)
        return {zone: pad for zone, pad in pads.items() if _field(zone) in self.fields}

    def said(self) -> Mapping[str, Any]:
        """What is in every zone that has a choice."""
        return {zone: self.cleaned_data[_field(zone)] for zone in self.stands}

    def field_of(self, name: str) -> str:
        """Of a zone."""
        return _field(name)

    def refuse_stale(self) -> None:
        """Zone by zone."""
        found = pads_meanwhile(self.of.id, self.opened, self._stands(), self.changed)
        if found:
            raise MeanwhileError(found)

    def clean(self) -> dict[str, Any]:
        """Something must be another."""
        cleaned: dict[str, Any] = super().clean() or {}
        if not self.errors and not self.asked and not self.changed:
            raise ValidationError("No pad is another than before. Choose what is in it now.")
        return cleaned

    def payload(self) -> Payload:
        """The zones that are another; the shelf moves with them."""
        return PartsChanged(
            helmet=self.of.id,
            store=UUID(self.cleaned["store"]),
            pads=self.changed,
            why=self.cleaned["why"].rstrip(". "),
        )


class FaceForm(ActForm):
    """Another guard or strap is on it."""

    title, button, kind = "Change face guard or chin strap", "It is changed", FaceChanged

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        super().__init__(*args, helmet=helmet, **kwargs)
        assert helmet is not None  # noqa: S101 - as of `of`
        sizes = sizes_by_place(sheet_of(helmet.sheet))
        for name, label, place in (("guard", "Face guard", GUARD), ("strap", "Chin strap", STRAP)):
            self.fields[name] = _face_field(label, sizes.get(place, ()), getattr(helmet, name))
        self.fields["store"] = forms.ChoiceField(
            label="Out of which store", choices=_stores(), initial=str(helmet.store_id)
        )

        self.open_on(self._stands())

    def _stands(self) -> dict[str, str]:
        return {name: getattr(self.of, name) for name in (GUARD, STRAP)}

    def said(self) -> Mapping[str, Any]:
        """What is on it now."""
        return {name: self.cleaned_data[name] for name in (GUARD, STRAP)}

    def refuse_stale(self) -> None:
        """Each by itself."""
        self.of.refresh_from_db()
        found = helmet_meanwhile(self.of.id, self.opened, self._stands(), self.changed)
        if found:
            raise MeanwhileError(found)

    def payload(self) -> Payload:
        """What is another; the other one stays."""
        return FaceChanged(helmet=self.of.id, store=UUID(self.cleaned["store"]), **self.changed)

    def clean(self) -> dict[str, Any]:
        """Something must be another."""
        cleaned: dict[str, Any] = super().clean() or {}
        if not self.errors and not self.asked and not self.changed:
            raise ValidationError("Both are as before. Choose what is on it now.")
        return cleaned


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


def _pads(helmet: Helmet) -> dict[str, str]:
    build = helmet.builds.filter(until__isnull=True).first()
    return dict(build.pads) if build else {}


def _pairs(labels: tuple[str, ...]) -> list[tuple[str, str]]:
    return [(label, label) for label in labels]


def _face_field(label: str, sizes: tuple[str, ...], now: str) -> forms.Field:
    """A choice where the sheet lists what there is; any name where it does not."""
    if not sizes:
        return forms.CharField(label=label, max_length=60, required=False, initial=now)
    others = [now] if now and now not in sizes else []
    choices = [("", "none"), *_pairs((*others, *sizes))]
    return forms.ChoiceField(label=label, choices=choices, required=False, initial=now)


def _field(zone: str) -> str:
    return f"pad-{zone.replace(' ', '-')}"


def _written(value: object) -> object:
    return value.isoformat() if isinstance(value, date) else value
