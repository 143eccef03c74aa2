"""Forms on the parts of one store: each makes the entry that says it."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django import forms

from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import PartsMoved
from helmwright.records.models import Sheet, Store
from helmwright.records.part_place import sizes_by_place
from helmwright.records.sheets import sheet_of
from helmwright.web.desk.part_words import place_words

MOST = 100_000


class ActForm(forms.Form):
    """So many of a part."""

    title = ""
    button = ""
    kind: type[Payload] = PartsMoved
    part = forms.ChoiceField(label="Which part")
    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST)

    def __init__(self, *args: Any, store: Store, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", f"{type(self).__name__.lower()}-%s")
        super().__init__(*args, **kwargs)
        self.store = store
        self.fields["part"] = forms.ChoiceField(label="Which part", choices=parts())

    def payload(self) -> Payload:
        """What the form says, once it is valid."""
        raise NotImplementedError

    def moved(self, why: str, **stores: UUID) -> PartsMoved:
        """The entry."""
        sheet, place, size = self.cleaned_data["part"].split("|", 2)
        return PartsMoved.model_validate(
            {
                "sheet": sheet,
                "place": place,
                "size": size,
                "quantity": self.cleaned_data["quantity"],
                "why": why,
                "lot": self.cleaned_data.get("lot", ""),
                **stores,
            }
        )


class ReceiveForm(ActForm):
    """Parts came from outside."""

    title, button = "Receive parts", "They are here"
    lot = forms.CharField(label="Lot, where the bag has one", max_length=60, required=False)

    def payload(self) -> Payload:
        """They come to this store."""
        return self.moved("received", to_store=self.store.id)


class MoveForm(ActForm):
    """Parts went to another store."""

    title, button = "Move parts to another store", "They are moved"
    to_store = forms.ChoiceField(label="To which store")

    def __init__(self, *args: Any, store: Store, **kwargs: Any) -> None:
        super().__init__(*args, store=store, **kwargs)
        others = Store.objects.filter(is_closed=False).exclude(pk=store.pk).order_by("name")
        choices = [(str(other.id), other.name) for other in others]
        self.fields["to_store"] = forms.ChoiceField(label="To which store", choices=choices)

    def payload(self) -> Payload:
        """From here to there."""
        there = UUID(self.cleaned_data["to_store"])
        return self.moved("moved", from_store=self.store.id, to_store=there)


class ScrapForm(ActForm):
    """Parts are worn out, torn or lost."""

    title, button = "Scrap parts", "They are gone"

    def payload(self) -> Payload:
        """They leave this store for good."""
        return self.moved("scrapped", from_store=self.store.id)


ACTS: Mapping[str, tuple[type[ActForm], str]] = {
    "receive": (ReceiveForm, "They are on the shelf."),
    "move": (MoveForm, "They are moved."),
    "scrap": (ScrapForm, "They are taken off the shelf."),
}
"""What can be done: the form, and what is said when it is done."""


def parts() -> list[tuple[str, list[tuple[str, str]]]]:
    """Every part that the current sheets list, by model."""
    rows = Sheet.objects.filter(is_current=True).order_by("model")
    return [
        (
            row.model,
            [
                (f"{row.digest}|{place}|{size}", f"{place_words(place)}, {size}")
                for place, sizes in sizes_by_place(sheet_of(row)).items()
                for size in sizes
            ],
        )
        for row in rows
    ]
