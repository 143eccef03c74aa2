"""What counts as a signature: one rule, that the station is told and the ledger holds."""

from collections.abc import Sequence
from itertools import pairwise
from math import dist

LEAST_LETTERS = 2
"""A typed name has so many letters at least, of any script (assumed)."""

LEAST_DRAWN = 30.0
"""A drawn one is so long at least, all strokes together [hundredths of the field's height].

A dot and a slip of the finger are shorter, the initial of a name is longer (assumed)."""

Strokes = Sequence[Sequence[Sequence[float]]]


def is_signature(said: Strokes | str) -> bool:
    """Whether somebody signed, by hand or with a name."""
    if isinstance(said, str):
        return sum(map(str.isalpha, said)) >= LEAST_LETTERS
    return drawn_length(said) >= LEAST_DRAWN


def drawn_length(strokes: Strokes) -> float:
    """How far the finger went on the field [hundredths of its height]."""
    return sum(dist(one, other) for stroke in strokes for one, other in pairwise(stroke))
