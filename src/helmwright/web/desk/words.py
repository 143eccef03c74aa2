"""Bodies and coverings in the words of the desk's pages."""

from collections.abc import Sequence

from helmwright.anatomy import Over
from helmwright.units import feet_and_inches, pounds


def over_words(kinds: Sequence[Over]) -> str:
    """What is worn or taped over: "braids or locs and skull cap"; empty where nobody said."""
    return " and ".join(kind.value for kind in kinds if kind is not Over.UNSTATED)


def stature_words(stature_mm: float | None) -> str:
    """A height as it is typed: "6 ft 2 in"; empty where it is not known."""
    return "" if stature_mm is None else feet_and_inches(stature_mm)


def weight_words(weight_kg: float | None) -> str:
    """A weight as it is typed: "205 lb"; empty where it is not known."""
    return "" if weight_kg is None else pounds(weight_kg)
