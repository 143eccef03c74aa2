"""A form on something that others may change while it is open.

The page carries what stood in the fields when it was opened. What the person did not touch is not
said; where somebody else changed the same field meanwhile, the form comes back with who did, keeps
what was written, and asks which of the two holds.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime
from types import MappingProxyType
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils import timezone
from django.utils.safestring import SafeString

from helmwright.records.meanwhile import Meanwhile, MeanwhileError, changed_fields
from helmwright.web.meanwhile_words import changed_words
from helmwright.web.opened_mark import ASKED, opened_mark, opened_with, sent_with

HOLDS = "holds-"
MINE, THEIRS = "mine", "theirs"
NOTHING: Mapping[str, Any] = MappingProxyType({})


class OpenedForm(forms.Form):
    """A form that says only what was changed in it.

    Whoever derives from it calls `open_on` once its fields are there.
    """

    opened: Mapping[str, Any] = NOTHING
    stands: Mapping[str, Any] = NOTHING
    asked: Sequence[str] = ()

    def open_on(self, stands: Mapping[str, Any]) -> None:
        """Take up what stands there by now, and what the page was opened with."""
        sent = sent_with(self.data) if self.is_bound else {}
        self.stands = stands
        self.opened = opened_with(stands, sent)
        self.asked = [name for name in sent.get(ASKED, ()) if name in stands]
        for name in self.asked:
            self._ask(name, stands[name])

    def said(self) -> Mapping[str, Any]:
        """All fields as they are written, as JSON holds them."""
        raise NotImplementedError

    def field_of(self, name: str) -> str:
        """The field of the form in which it is written."""
        return name

    def shown(self, _name: str, value: Any) -> str:
        """A value as it is read in the question."""
        return str(value) if value not in (None, "", []) else "nothing"

    def as_written(self, name: str) -> str:
        """What is written of it, as it is read in the question."""
        return str(self.data.get(self.add_prefix(self.field_of(name)), "")) or "nothing"

    def label_of(self, name: str) -> str:
        """What the question is about."""
        return str(self.fields[self.field_of(name)].label)

    @property
    def changed(self) -> dict[str, Any]:
        """What is another than when the page was opened, without what is left to others."""
        found = changed_fields(self.opened, self.said())
        return {
            name: value
            for name, value in found.items()
            if self.cleaned_data.get(f"{HOLDS}{name}") != THEIRS
        }

    def ask(self, error: MeanwhileError) -> None:
        """Come back with the question which word holds."""
        now, data = timezone.now(), QueryDict(mutable=True)
        data.update({name: self.data[name] for name in self.data})
        self.data = data
        self.stands = {**self.stands, **{each.name: each.now for each in error.found}}
        self.opened = {**self.opened, **{each.name: each.now for each in error.found}}
        self.asked = list(dict.fromkeys([*self.asked, *(each.name for each in error.found)]))
        for each in error.found:
            data.pop(f"{HOLDS}{each.name}", None)
            self.tell(each, now=now)

    def tell(self, each: Meanwhile, *, now: datetime) -> None:
        """Say beside its field that it was changed, and ask which holds."""
        stands = f"{self.shown(each.name, each.now)} stands there"
        self._ask(each.name, each.now)
        self.add_error(self.field_of(each.name), changed_words(each, stands, now=now))

    def _ask(self, name: str, now: Any) -> None:
        """A choice beside the field: what is written, or what stands there by now."""
        self.fields[f"{HOLDS}{name}"] = forms.ChoiceField(
            label=f"{self.label_of(name)}: which holds?",
            choices=[
                ("", "choose one"),
                (MINE, f"what I wrote: {self.as_written(name)}"),
                (THEIRS, f"what stands there now: {self.shown(name, now)}"),
            ],
            error_messages={"required": "Say which of the two holds."},
        )
        self.order_fields(self._beside(name))

    def _beside(self, name: str) -> list[str]:
        """The order of the fields with the question after its own."""
        order = [each for each in self.fields if each != f"{HOLDS}{name}"]
        order.insert(order.index(self.field_of(name)) + 1, f"{HOLDS}{name}")
        return order

    @property
    def opened_mark(self) -> SafeString:
        """Stands hidden in the form; nothing in a form on something new."""
        return opened_mark(self.opened, self.asked)
