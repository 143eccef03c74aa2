"""What is believed of the insides of shells that nobody has measured."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from helmwright.belief import Normal, Observation

Floats = npt.NDArray[np.float64]

INSIDE_NUMBERS = (
    "inside_length",
    "inside_breadth",
    "inside_depth",
    "jaw_width",
    "front_edge",
)
"""The five numbers of a bare shell, in the order that arrays use; keys of a sheet."""

INSIDE_WORDS = {
    "inside_length": "inside length",
    "inside_breadth": "inside breadth",
    "inside_depth": "inside depth",
    "jaw_width": "width at the jaw",
    "front_edge": "front edge",
}
"""What the numbers are called where people read of them."""


def quantity(shell: int, number: str) -> str:
    """Name of one number of one shell in the belief: "shell 3 inside_length"."""
    return f"shell {shell} {number}"


@dataclass(frozen=True, eq=False)
class InsideBelief:
    """Belief over the inside numbers of every shell of a model [mm].

    The errors of the sizes hang together: who guesses the length of one shell too large has
    probably done so for all. A caliper on one shell therefore tells something of the others.

    Parameters
    ----------
    shells
        Shell numbers, as on the sheet.
    belief
        Over `quantity(shell, number)` for every shell and each of `INSIDE_NUMBERS`.
    measured
        Names of the quantities that somebody measured; they are taken as exact.
    """

    shells: tuple[int, ...]
    belief: Normal
    measured: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        """Refuse a belief that does not hold every number of every shell."""
        wanted = [quantity(s, number) for s in self.shells for number in INSIDE_NUMBERS]
        if list(self.belief.names) != wanted:
            raise ValueError("an inside belief holds five numbers of every shell, in their order")
        if not self.measured <= set(wanted):
            raise ValueError("only numbers that the belief holds can be measured")

    def of(self, shell: int) -> Normal:
        """Belief over the five numbers of one shell [mm], in the order of INSIDE_NUMBERS."""
        return self.belief.marginal([quantity(shell, number) for number in INSIDE_NUMBERS])

    def unmeasured(self, shell: int) -> tuple[str, ...]:
        """The numbers of one shell that nobody measured."""
        return tuple(n for n in INSIDE_NUMBERS if quantity(shell, n) not in self.measured)

    @property
    def guessed(self) -> tuple[str, ...]:
        """The numbers that at least one shell lacks."""
        lacking = {number for shell in self.shells for number in self.unmeasured(shell)}
        return tuple(number for number in INSIDE_NUMBERS if number in lacking)

    def given(self, observations: Sequence[Observation]) -> "InsideBelief":
        """The belief after observations: calipers, or what accepted fits say of a shell.

        Parameters
        ----------
        observations
            Linear in the quantities. One without error makes its quantity a measured one.
        """
        exact = {
            name for each in observations if each.variance == 0.0 and len(each.weights) == 1
            for name in each.weights
        }  # fmt: skip
        return replace(self, belief=self.belief.given(observations), measured=self.measured | exact)

    def errors(self, count: int, rng: np.random.Generator) -> dict[int, Floats]:
        """Draws of how far each shell's numbers are from their means, by shell, (count, 5) [mm]."""
        return self.placed(rng.standard_normal((count, len(self.belief.names))))

    def placed(self, standard: Floats) -> dict[int, Floats]:
        """The same made of standard normal numbers, shape (n, five for every shell)."""
        drawn = self.belief.placed(standard) - self.belief.mean
        parts = drawn.reshape(len(drawn), len(self.shells), len(INSIDE_NUMBERS))
        return {shell: parts[:, place] for place, shell in enumerate(self.shells)}
