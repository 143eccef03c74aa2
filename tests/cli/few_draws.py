"""The guide with fewer draws, for speed; run as a program, the command with that guide."""

import pytest

from helmwright.cli import main
from helmwright.cli.visit_choices import Chosen
from helmwright.visit.guide import Guide

DRAWS = 250

FIVE_MEASURES = (
    "No,Player,Tape (in),Length (in),Breadth (in),Brow to top (in),Jaw width (in)\n"
    "12,Avocet Brookside,22 5/8,7 7/8,6 1/8,4,5 3/8\n"
)
"""A roster of one, of whom nothing more is asked before a build is proposed."""


def with_few_draws(patch: pytest.MonkeyPatch) -> None:
    """Lets the guide count on few draws."""
    patch.setattr(
        Chosen,
        "guide",
        lambda chosen: Guide(chosen.sheet, chosen.protocol, minutes=chosen.minutes, draws=DRAWS),
    )


if __name__ == "__main__":
    with_few_draws(pytest.MonkeyPatch())
    main(prog_name="helmwright")
