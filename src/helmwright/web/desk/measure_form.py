"""The form that takes readings at the desk: inches with fractions, as people write them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django import forms

from helmwright.anatomy import (
    FIVE_MEASURES,
    MEASURE_KEYS,
    MEASURES,
    Over,
    check_readings,
    measure_of,
)
from helmwright.records.actions.players import NewReading
from helmwright.records.models import Player, Reading
from helmwright.records.readers.heads import core_reading, readings_of, stated_of
from helmwright.reports.lengths import measure_words
from helmwright.roster import CellError, read_heading
from helmwright.roster.cell import read_length
from helmwright.web.desk.player_form import (
    HAIR,
    HEADWEAR,
    NOBODY_SAID,
    refusal,
    unremembered,
    written,
)

TIMES = (1, 2, 3)
"""First, second and third reading of a measure."""

READ_BY_HAND = tuple(key for key in MEASURE_KEYS if key != "head_circumference")
"""What a roster's columns hold; the surveys' own plane is nobody's tape."""


@dataclass(frozen=True, slots=True)
class MeasureFields:
    """The fields of one measure, side by side."""

    key: str
    name: str
    how: str
    is_usual: bool
    fields: tuple[forms.BoundField, ...]


class MeasureForm(forms.Form):
    """Two readings of each measure, or a third; what is left blank was not taken."""

    hair = forms.ChoiceField(
        label="Taken over which hair",
        choices=[NOBODY_SAID, *((kind.value, kind.value) for kind in HAIR)],
        required=False,
    )
    headwear = forms.ChoiceField(
        label="And over what is worn on it",
        choices=[("", "nothing"), *((kind.value, kind.value) for kind in HEADWEAR)],
        required=False,
    )

    def __init__(
        self, *args: Any, player: Player, rows: Sequence[Reading], today: date, **kwargs: Any
    ) -> None:
        self.player, self.rows, self.today = player, rows, today
        worn = written(player)
        kwargs.setdefault("initial", {name: worn[name] for name in ("hair", "headwear")})
        super().__init__(*args, **kwargs)
        for key in READ_BY_HAND:
            for time in TIMES:
                self.fields[f"{key}_{time}"] = forms.CharField(
                    label=f"{measure_words(key)}, reading {time}",
                    required=False,
                    max_length=30,
                    widget=forms.TextInput(attrs={"inputmode": "text", "class": "reading"}),
                )
        unremembered(self)

    def measures(self) -> list[MeasureFields]:
        """Every measure with its fields; the usual five first."""
        order = sorted(READ_BY_HAND, key=lambda key: key not in FIVE_MEASURES)
        return [
            MeasureFields(
                key,
                measure_words(key),
                measure_of(key).how,
                key in FIVE_MEASURES,
                tuple(self[f"{key}_{time}"] for time in TIMES),
            )
            for key in order
        ]

    def clean(self) -> dict[str, Any]:
        """Every number read; together they must be somebody's head."""
        said = super().clean() or {}
        self.readings = list(self._read(said))
        if not self.errors:
            self._refuse_nobody()
        return said

    def _read(self, said: dict[str, Any]) -> Iterator[NewReading]:
        over = [Over(said[name]) for name in ("hair", "headwear") if said.get(name)]
        for key in READ_BY_HAND:
            for time in TIMES:
                text = (said.get(f"{key}_{time}") or "").strip()
                if not text:
                    continue
                try:
                    value = read_length(text, read_heading(HEADINGS[key]), "in")
                except CellError as error:
                    self.add_error(f"{key}_{time}", refusal(error))
                else:
                    yield _new(key, value, over)

    def _refuse_nobody(self) -> None:
        if not self.readings:
            self.add_error(None, "Nothing was written. Write at least one reading, as 22 5/8.")
            return
        known = readings_of(self.player, self.rows, self.today)
        new = tuple(
            core_reading(one.measure, one.value_mm, one.over, one.beneath) for one in self.readings
        )
        for finding in check_readings((*known, *new), **stated_of(self.player, self.today)):
            if finding.blocks:
                self.add_error(None, f"{finding.message} {finding.suggestion or ''}".strip())


def _new(key: str, value_mm: float, over: Sequence[Over]) -> NewReading:
    layered = bool(over) and measure_of(key).layer > 0
    return NewReading(
        key,
        value_mm,
        over[-1] if layered else Over.UNSTATED,
        over[0] if layered and len(over) > 1 else None,
    )


HEADINGS = {measure.key: measure.key.replace("_", " ") for measure in MEASURES} | {
    "tape_circumference": "head circumference",
}
"""What a roster's column of the measure is headed."""
