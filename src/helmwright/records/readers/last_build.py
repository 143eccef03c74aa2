"""The last build that a visit proposed or accepted for a player, and why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from helmwright.records.models import Visit, VisitStep


@dataclass(frozen=True, slots=True)
class LastBuild:
    """What was proposed last, and what became of it.

    Parameters
    ----------
    visit
        In which.
    build
        On the head in the end, or proposed: shell, and pads by zone, as a visit writes it.
    proposed
        The last proposal as a visit writes it: build, chances, minutes, why.
    """

    visit: Visit
    build: Mapping[str, Any]
    proposed: Mapping[str, Any]

    @property
    def is_the_proposed_one(self) -> bool:
        """Whether nothing else was put on instead."""
        return bool(self.build == self.proposed["build"])


def last_build(visits: Sequence[Visit]) -> LastBuild | None:
    """Of the newest visit in which anything was proposed; None where there is none.

    Parameters
    ----------
    visits
        Of one player, newest first.
    """
    visit = next((one for one in visits if one.found_right is not None), None)
    if visit is None:
        return None
    events = (
        VisitStep.objects.filter(visit=visit).order_by("-place").values_list("event", flat=True)
    )
    proposed = next((event for event in events if event.get("event") == "proposed"), None)
    if proposed is None:
        return None
    return LastBuild(visit, visit.build or proposed["build"], proposed)
