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
from django.core import signing
from django.http import QueryDict
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from helmwright.records.meanwhile import Meanwhile, MeanwhileError, changed_fields
from helmwright.records.words import since

OPENED, WAS, ASKED = "opened", "was", "asked"
HOLDS = "holds-"
SALT = "helmwright.opened"
MINE, THEIRS = "mine", "theirs"
NOTHING: Mapping[str, Any] = MappingProxyType({})


def sent_with(data: Mapping[str, Any] | None) -> dict[str, Any]:
    """What a page carried; nothing where it carried nothing that the room gave out."""
    try:
        found: dict[str, Any] = signing.loads((data or {}).get(OPENED, ""), salt=SALT)
    except signing.BadSignature:
        return {}
    return found


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
            self.tell(each, who_words(each, now=now))

    def tell(self, each: Meanwhile, who: str) -> None:
        """Say beside its field that it was changed, and ask which holds."""
        value = self.shown(each.name, each.now)
        self._ask(each.name, each.now)
        words = f"Changed by {who}, after you opened this page: {value} stands there now."
        self.add_error(self.field_of(each.name), words)

    def _ask(self, name: str, now: Any) -> None:
        """A choice beside the field: what is written, or what stands there by now."""
        field = self.fields[self.field_of(name)]
        written = self.data.get(self.add_prefix(self.field_of(name)), "")
        self.fields[f"{HOLDS}{name}"] = forms.ChoiceField(
            label=f"{field.label}: which holds?",
            choices=[
                ("", "choose one"),
                (MINE, f"what I wrote: {written or 'nothing'}"),
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
        if not self.opened:
            return SafeString("")
        carried = signing.dumps({WAS: self.opened, ASKED: self.asked}, salt=SALT)
        return format_html('<input type="hidden" name="{}" value="{}">', OPENED, carried)


def who_words(each: Meanwhile, *, now: datetime) -> str:
    """Who changed it, and when, as far as the ledger tells."""
    when = f" {since(each.at, now=now)}" if each.at else ""
    return f"{each.by or 'somebody'}{when}"


def opened_with(stands: Mapping[str, Any], sent: Mapping[str, Any]) -> dict[str, Any]:
    """What stood there when the page was opened; what it does not tell stands there still."""
    was = sent.get(WAS, {})
    return {name: was.get(name, value) for name, value in stands.items()}
