"""Forms on the parts of one helmet: what was changed in it with the hands."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError

from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import (
    FaceChanged,
    PartsChanged,
)
from helmwright.records.meanwhile import MeanwhileError
from helmwright.records.models import Helmet
from helmwright.records.part_place import GUARD, STRAP, sizes_by_place, swapped_zones
from helmwright.records.readers.last_said import helmet_meanwhile, pads_meanwhile
from helmwright.records.sheets import sheet_of
from helmwright.web.desk.helmet_act_form import NO_NAMES, ActForm, stores


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
            label="Out of which store", choices=stores(), initial=str(helmet.store_id)
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
            label="Out of which store", choices=stores(), initial=str(helmet.store_id)
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
