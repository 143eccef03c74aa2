"""How long each act of a fit visit takes: what a change is charged at."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from math import isfinite

from helmwright.anatomy import measure_of
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import Build
from helmwright.fit.search import origin
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

MOST_MINUTES = 60.0
"""No single act of a visit takes longer [min]."""


def _usual(minutes: float, note: str) -> Figure:
    return Figure(minutes, "min", ASSUMED, note=f"{note}; a guess of ours, no times were taken")


PUT_ON = _usual(0.5, "taking a helmet off and putting it on")
CHECKS = _usual(3.5, "one round of checks with the helmet on")
CROWN_PAD = _usual(0.5, "changing the crown pad")
RING_PAD = _usual(0.4, "changing a pad in front, at the rear or at a side")
NAPE_PAD = _usual(0.4, "changing the pad at the nape")
JAW_PAD = _usual(0.3, "changing one jaw pad")
AIR_FILL = _usual(0.5, "filling one bladder by feel")
OTHER_SHELL = _usual(6.0, "fetching another shell, moving face guard and strap to it")
LOOK = _usual(0.3, "looking at one check once more")


class UnreadableMinutesError(ValueError):
    """A table of minutes says something that cannot be read or meant."""


@dataclass(frozen=True, slots=True)
class Minutes:
    """What each act takes; every default is assumed, and a program puts its own times in.

    Parameters
    ----------
    put_on, checks
        Putting the helmet on, once; one round of checks [min].
    crown_pad, ring_pad, nape_pad, jaw_pad
        Changing one pad there; front, rear, left and right are the ring [min].
    air_fill
        Filling one bladder by feel, at every try-on of a helmet that has one [min].
    other_shell
        Fetching another shell and moving face guard and strap [min].
    look
        One check once more [min].
    measures
        Taking a measure twice, by its key, where it differs from the usual [min].
    """

    put_on: float = PUT_ON.value
    checks: float = CHECKS.value
    crown_pad: float = CROWN_PAD.value
    ring_pad: float = RING_PAD.value
    nape_pad: float = NAPE_PAD.value
    jaw_pad: float = JAW_PAD.value
    air_fill: float = AIR_FILL.value
    other_shell: float = OTHER_SHELL.value
    look: float = LOOK.value
    measures: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse times that nothing takes, and a try-on that costs nothing."""
        for key, minutes in {**self._acts(), **self.measures}.items():
            if not (isfinite(minutes) and 0.0 <= minutes <= MOST_MINUTES):
                raise ValueError(
                    f"{key}: {minutes:g} minutes; from 0 to {MOST_MINUTES:g} would be right"
                )
        if self.put_on + self.checks <= 0.0:
            raise ValueError("put_on and checks: a try-on must take more than 0 minutes")
        for key in self.measures:
            if key not in MEASURE_KEYS:
                raise ValueError(f"measures: no measure is called {key}; {_listed(MEASURE_KEYS)}")

    def _acts(self) -> dict[str, float]:
        return {name: getattr(self, name) for name in ACTS}

    @classmethod
    def read(cls, text: str) -> "Minutes":
        """The table in a TOML text; what it leaves out is as usual.

        Parameters
        ----------
        text
            Lines such as `checks = 3`, and a table `[measures]` with lines such as
            `jaw_pad_width = 1`, all in minutes.

        Raises
        ------
        UnreadableMinutesError
            Where a line is not understood; it says which, and what would be right.
        """
        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise UnreadableMinutesError(f"the table of minutes is no TOML: {error}") from error
        measures = data.pop("measures", {})
        if not isinstance(measures, dict):
            raise UnreadableMinutesError("measures: write a table, [measures], one measure a line")
        for key in data:
            if key not in ACTS:
                raise UnreadableMinutesError(f"no act is called {key}; {_listed(ACTS)}")
        try:
            return cls(
                **{key: _number(key, value) for key, value in data.items()},
                measures={key: _number(key, value) for key, value in measures.items()},
            )
        except ValueError as error:
            raise UnreadableMinutesError(str(error)) from error

    def trying(self, sheet: ModelSheet) -> float:
        """Putting a helmet of a model on and checking it once, its air filled [min]."""
        bladders = {pad.cell.bladder for pad in sheet.pads if pad.cell}
        return self.put_on + self.checks + self.air_fill * len(bladders)

    def changing(self, before: Build, after: Build, sheet: ModelSheet) -> float:
        """Making one build of another [min].

        Notes
        -----
        Another shell is fetched as delivered, and its pads are changed from there.
        """
        shell = 0.0 if after.shell == before.shell else self.other_shell
        changed = after.changes_from(origin(after, before, sheet))
        return shell + sum(self.pad(zone) for zone in changed)

    def pad(self, zone: Zone) -> float:
        """Changing the pad of one zone [min]."""
        of_zone = {
            Zone.CROWN: self.crown_pad,
            Zone.NAPE: self.nape_pad,
            Zone.JAW_LEFT: self.jaw_pad,
            Zone.JAW_RIGHT: self.jaw_pad,
        }
        return of_zone.get(zone, self.ring_pad)

    def measuring(self, measure: str) -> float:
        """Taking a measure twice [min]."""
        return self.measures.get(measure, measure_of(measure).minutes.value)


ACTS = tuple(each.name for each in fields(Minutes) if each.name != "measures")
"""What a table of minutes names, beside the measures."""


def _number(key: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise UnreadableMinutesError(f"{key}: {value!r} is no number of minutes, such as 0.5")
    return float(value)


def _listed(keys: tuple[str, ...]) -> str:
    return f"there are {', '.join(keys)}"
