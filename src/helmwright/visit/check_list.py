"""The checks of a fit visit in working order, with the symptoms that end it."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from helmwright.catalogue.instruction import Instruction
from helmwright.visit.check import Check, Part, Stage


@dataclass(frozen=True, slots=True)
class Symptom:
    """What a player may say that ends the visit.

    Parameters
    ----------
    word
        What it is called.
    says
        What it means.
    heard_as
        How words begin, or phrases go, by which it may be meant where something else was asked.
    """

    word: str
    says: str
    heard_as: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Protocol:
    """All checks, in the order in which they are asked.

    Parameters
    ----------
    name
        What to call it.
    checks
        Stage by stage.
    minutes_worn
        How long the helmet is worn before the checks of stage WORN [min].
    symptoms
        What ends the visit.
    symptom_stop
        What to do then.
    air_put_right
        How a loose or tight zone with an air cell is put right on the spot.
    more_by_maker
        The maker's instructions that belong to no one check: the order of checks, between sizes.
    """

    name: str
    checks: tuple[Check, ...]
    minutes_worn: float
    symptoms: tuple[Symptom, ...]
    symptom_stop: str
    air_put_right: str = ""
    more_by_maker: tuple[Instruction, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a list that is empty, shares a key, or is not stage by stage."""
        if not self.checks:
            raise ValueError("a protocol needs at least one check")
        shared = [
            key for key, count in Counter(each.key for each in self.checks).items() if count > 1
        ]
        if shared:
            raise ValueError(f"two checks are called {shared[0]!r}; each needs its own key")
        stages = [list(Stage).index(each.stage) for each in self.checks]
        if stages != sorted(stages):
            raise ValueError("checks must stand stage by stage: " + ", ".join(Stage))

    def check(self, key: str) -> Check:
        """The check of that key; KeyError where there is none."""
        for each in self.checks:
            if each.key == key:
                return each
        raise KeyError(f"the protocol {self.name} has no check {key!r}")

    def stage(self, stage: Stage) -> tuple[Check, ...]:
        """The checks of one stage, in their order."""
        return tuple(each for each in self.checks if each.stage is stage)

    def repeated_after(self, changed: Iterable[Part]) -> tuple[Check, ...]:
        """The checks that must be asked again after changes of these parts, in their order."""
        parts = frozenset(changed)
        return tuple(each for each in self.checks if each.repeat_after & parts)
