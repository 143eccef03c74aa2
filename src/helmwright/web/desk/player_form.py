"""Forms on a player: what is written is read, or refused with what would be right."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import Any, TypeVar

from django import forms
from django.core.exceptions import ValidationError

from helmwright.anatomy import AgeError, Over
from helmwright.anatomy.age import checked_age
from helmwright.records.kept_fields import kept_of_player
from helmwright.records.kinds.people import PlayerFields
from helmwright.records.models import Player
from helmwright.records.readers.heads import class_faults
from helmwright.roster import CellError, read_heading
from helmwright.roster.cell import read_stature, read_weight
from helmwright.web.desk.opened import OpenedForm
from helmwright.web.desk.words import stature_words, weight_words
from helmwright.web.opened_mark import opened_with, sent_with

T = TypeVar("T")

HAIR = tuple(kind for kind in Over if not kind.is_headwear and kind is not Over.UNSTATED)
HEADWEAR = tuple(kind for kind in Over if kind.is_headwear)
NOBODY_SAID = ("", "nobody said")
YOUNGER = 20
"""Under so many years a height or weight may be a child's [years]."""


class PlayerForm(OpenedForm):
    """What is kept of a player: what the head estimate and the fitting use, and no more."""

    name = forms.CharField(label="Name", max_length=120)
    number = forms.CharField(
        label="Number", max_length=8, required=False, help_text="Two players may wear the same."
    )
    position = forms.CharField(label="Position", max_length=40, required=False)
    sex = forms.ChoiceField(
        label="Sex",
        choices=[NOBODY_SAID, ("male", "male"), ("female", "female")],
        required=False,
        help_text="Which survey of heads is meant. Left open, the readings decide.",
    )
    birth_year = forms.IntegerField(
        label="Year of birth",
        min_value=1940,
        max_value=2100,
        required=False,
        help_text="Only for those who may be minors or still grow. No day of birth is kept.",
    )
    school_class = forms.CharField(
        label="Class",
        max_length=20,
        required=False,
        help_text="Such as 11, HS junior or college junior, where the year of birth is not known.",
    )
    stature = forms.CharField(
        label="Height", required=False, help_text="As 6-2, 6 ft 2 in, 74 or 188 cm."
    )
    weight = forms.CharField(label="Weight", required=False, help_text="As 205 or 93 kg.")
    glasses = forms.ChoiceField(
        label="Glasses under the helmet",
        choices=[NOBODY_SAID, ("yes", "yes"), ("no", "no")],
        required=False,
    )
    hair = forms.ChoiceField(
        label="Hair under the helmet",
        choices=[NOBODY_SAID, *((kind.value, kind.value) for kind in HAIR)],
        required=False,
    )
    headwear = forms.ChoiceField(
        label="Worn over it",
        choices=[("", "nothing, or nobody said"), *((one.value, one.value) for one in HEADWEAR)],
        required=False,
        help_text="A fit holds only for what was worn at the fitting.",
    )

    def __init__(
        self, *args: Any, today: date, player: Player | None = None, **kwargs: Any
    ) -> None:
        self.today, self.player = today, player
        stands = None if player is None else kept_of_player(player)
        if stands is not None:
            sent = sent_with(kwargs.get("data", args[0] if args else None))
            was = PlayerFields.model_validate(opened_with(stands, sent))
            kwargs.setdefault("initial", written(was))
        super().__init__(*args, **kwargs)
        if stands is not None:
            self.open_on(stands)
        unremembered(self)

    def clean_birth_year(self) -> int | None:
        """A year in which somebody was born who is 8 to 90 years old."""
        year: int | None = self.cleaned_data["birth_year"]
        if year is None:
            return None
        if year > self.today.year:
            raise ValidationError("This year has not come yet. Write the year of birth.")
        try:
            checked_age(float(self.today.year - year))
        except AgeError as error:
            raise ValidationError(f"{str(error).capitalize()}.") from error
        return year

    def clean_school_class(self) -> str:
        """A class that tells an age; what may be high school or college is asked about."""
        said = str(self.cleaned_data["school_class"]).strip()
        for wrong, right in class_faults(said, self.today) if said else ():
            raise ValidationError(f"{wrong[:1].upper()}{wrong[1:]}; {right}.")
        return said

    def clean_stature(self) -> float | None:
        """The height in mm."""
        return self._body("stature", "Height", read_stature)

    def clean_weight(self) -> float | None:
        """The weight in kg."""
        return self._body("weight", "Weight", read_weight)

    def fields_said(self) -> PlayerFields:
        """All that is kept of the player, as the form has it."""
        said = self.cleaned_data
        return PlayerFields(
            number=said["number"],
            name=said["name"],
            position=said["position"],
            sex=said["sex"],
            birth_year=said["birth_year"],
            school_class=said["school_class"],
            stature_mm=said["stature"],
            weight_kg=said["weight"],
            glasses={"yes": True, "no": False}.get(said["glasses"]),
            worn=self._worn(),
        )

    def said(self) -> Mapping[str, Any]:
        """The same as JSON holds it."""
        return self.fields_said().model_dump(mode="json")

    def field_of(self, name: str) -> str:
        """Where a field of the player is written."""
        return WRITTEN_IN.get(name, name)

    def shown(self, name: str, value: Any) -> str:
        """A value as it is typed."""
        if name == WORN:
            return _worn_words(*_hair_and_headwear(value))
        fields = PlayerFields.model_validate({**self.stands, name: value})
        return str(written(fields)[self.field_of(name)] or "nothing")

    def as_written(self, name: str) -> str:
        """Hair and headwear are kept as one, and written in two fields."""
        if name == WORN:
            return _worn_words(self.data.get("hair", ""), self.data.get("headwear", ""))
        return super().as_written(name)

    def label_of(self, name: str) -> str:
        """Both of them, where it is about what is worn."""
        return "Hair and what is worn over it" if name == WORN else super().label_of(name)

    def _worn(self) -> tuple[Over, ...]:
        """Hair and headwear; where neither was touched, whatever stood there."""
        names = ("hair", "headwear")
        if self.player is not None and not set(names) & set(self.changed_data):
            return tuple(Over(kind) for kind in self.opened["worn"])
        return tuple(Over(self.cleaned_data[name]) for name in names if self.cleaned_data[name])

    def _body(self, name: str, heading: str, read: Callable[..., float]) -> float | None:
        """What was not touched stays to the last digit; what is written is read."""
        text = self.cleaned_data[name].strip()
        if not text:
            return None
        if self.player is not None and text == self.get_initial_for_field(self.fields[name], name):
            kept: float | None = self.opened[KEPT[name]]
            return kept
        born = self.cleaned_data.get("birth_year")
        young = bool(self.data.get("school_class")) or (
            born is not None and self.today.year - born < YOUNGER
        )
        return read_or_refuse(read, text, read_heading(heading), young=young)


KEPT = {"stature": "stature_mm", "weight": "weight_kg"}
WORN = "worn"
WRITTEN_IN = {"stature_mm": "stature", "weight_kg": "weight", WORN: "headwear"}
"""Fields of the form for those of the player that are written otherwise."""


def written(player: Player | PlayerFields) -> dict[str, Any]:
    """A player's fields as they are typed."""
    hair, headwear = _hair_and_headwear(player.worn)
    return {
        "name": player.name,
        "number": player.number,
        "position": player.position,
        "sex": player.sex,
        "birth_year": player.birth_year,
        "school_class": player.school_class,
        "stature": stature_words(player.stature_mm),
        "weight": weight_words(player.weight_kg),
        "glasses": {True: "yes", False: "no", None: ""}[player.glasses],
        "hair": hair,
        "headwear": headwear,
    }


def _hair_and_headwear(worn: Iterable[str]) -> tuple[str, str]:
    kinds = [Over(kind) for kind in worn]
    return _first(kinds, HAIR), _first(kinds, HEADWEAR)


def _worn_words(hair: str, headwear: str) -> str:
    return f"hair: {hair or 'nobody said'}; over it: {headwear or 'nothing'}"


def _first(worn: Sequence[Over], of: Sequence[Over]) -> str:
    return next((kind.value for kind in worn if kind in of), "")


def read_or_refuse(read: Callable[..., T], *given: Any, **how: Any) -> T:
    """What a reader of cells makes of a text; what it cannot read is refused in its words."""
    try:
        return read(*given, **how)
    except CellError as error:
        raise ValidationError(refusal(error)) from error


def refusal(error: CellError) -> str:
    """A cell's fault as a sentence: what is wrong, and what would be right."""
    said = f"{error.wrong}; {error.right}" if error.right else error.wrong
    return f"{said[:1].upper()}{said[1:].rstrip('.')}."


def unremembered(form: forms.Form) -> None:
    """What is typed of a player is not offered to the next person at this browser."""
    for field in form.fields.values():
        field.widget.attrs["autocomplete"] = "off"
