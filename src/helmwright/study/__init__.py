"""Study: what the method is worth, against heads, helmets, hands and fitters not its model's."""

from helmwright.study.dials import AS_ASSUMED, TURNED, Dials
from helmwright.study.figures import Told, told
from helmwright.study.plan import Part, Plan
from helmwright.study.players import Met, Player, meet
from helmwright.study.policies import POLICIES, Policy
from helmwright.study.results import Results, ResultsOfAnotherRunError
from helmwright.study.run import run
from helmwright.study.tables import tables

__all__ = [
    "AS_ASSUMED",
    "POLICIES",
    "TURNED",
    "Dials",
    "Met",
    "Part",
    "Plan",
    "Player",
    "Policy",
    "Results",
    "ResultsOfAnotherRunError",
    "Told",
    "meet",
    "run",
    "tables",
    "told",
]
