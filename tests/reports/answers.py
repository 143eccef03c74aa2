"""Answers to print: the demonstration, and made-up rosters, with the stand-in for proposals."""

from functools import partial

from helmwright.fit.outlook import Proposal
from helmwright.roster import (
    RosterAnswer,
    answer_roster,
    decode_roster,
    demo_roster_bytes,
    read_roster,
)
from tests.roster.stand_in import SHEET, stand_in


def demo_answer() -> RosterAnswer:
    return answered(decode_roster(demo_roster_bytes()))


def answered(text: str, *, suits: bool = True) -> RosterAnswer:
    return answer_roster(read_roster(text), SHEET, seed=1, propose=partial(stand_in, suits=suits))


def proposed(text: str, *, suits: bool = True) -> Proposal:
    """The proposal for the one player of a roster."""
    (each,) = answered(text, suits=suits).answers
    assert each.proposal is not None
    return each.proposal
