"""One noisy linear observation of a vector of named quantities."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite


@dataclass(frozen=True)
class Observation:
    """A value seen of a weighted sum of named quantities.

    Parameters
    ----------
    weights
        Weight of each quantity in the sum, by name; quantities left out weigh nothing.
    value
        What was seen, in the unit of the sum.
    variance
        Variance of its error; zero for a value taken as exact.
    label
        A word by which the observation is known.
    doubt
        Variance of what the value stands for, beyond its error. It takes away nothing from what
        the value says, and what depends on the value stays as much more uncertain.
    """

    weights: Mapping[str, float]
    value: float
    variance: float
    label: str = ""
    doubt: float = 0.0

    def __post_init__(self) -> None:
        """Refuse an observation that says nothing."""
        if not isfinite(self.value):
            raise ValueError(f"observation {self.label or self.value}: the value must be finite")
        if not (isfinite(self.variance) and self.variance >= 0.0):
            raise ValueError(
                f"observation {self.label}: error variance {self.variance} must be 0 or more"
            )
        if not (isfinite(self.doubt) and self.doubt >= 0.0):
            raise ValueError(f"observation {self.label}: doubt {self.doubt} must be 0 or more")
        if not any(self.weights.values()):
            raise ValueError(f"observation {self.label}: at least one weight must differ from 0")


def exactly(name: str, value: float, variance: float = 0.0) -> Observation:
    """Observation of one quantity by itself, with the variance of its error."""
    return Observation({name: 1.0}, value, variance, name)
