"""How far the checks of one try-on have come, and how many are still to come."""

from helmwright.visit import Protocol, Visit
from helmwright.visit.round import is_open, round_of
from helmwright.web.guiding.asked import Json


def progress(protocol: Protocol, visit: Visit) -> Json | None:
    """Checks answered and to come, all stages up to acceptance; None where none are due.

    Both together grow by one with each look that is asked again, and never shrink within a try-on.
    """
    if visit.ended is not None or (visit.now is None and visit.proposal is None):
        return None
    given = visit.ahead if visit.now is None else visit.now.answers
    due = round_of(protocol.checks, visit).due
    look = visit.look.check if visit.look else ""
    to_come = sum(is_open(one) or one.check.key == look for one in due)
    number = len(visit.try_ons) + (visit.now is None)
    return {"try_on": number, "answered": len(given), "to_come": to_come}
