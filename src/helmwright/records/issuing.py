"""Whether a helmet may be reserved for a visit or given to a player, and why not."""

from dataclasses import dataclass

from helmwright.records.good_to_issue import HelmetStanding, Verdict

_WHAT_TO_DO = {
    HelmetStanding.RETIRED: "Take another helmet.",
    HelmetStanding.ON_HOLD: "Take another helmet, or have the hold lifted by the manager.",
    HelmetStanding.NOT_GOOD: "Take another helmet.",
}


@dataclass(frozen=True, slots=True)
class HelmetAsked:
    """A helmet that somebody wants.

    Parameters
    ----------
    code
        On its label.
    verdict
        What the records show against it today.
    holder
        Who holds it since when, in words that name nobody, such as "another player on Aug 3, 2026";
        empty where nobody does.
    spoken_for
        Who was first, as a sentence such as "Station 3 took TV-0147 at 10:41 AM."; empty where
        nobody was.
    """

    code: str
    verdict: Verdict
    holder: str = ""
    spoken_for: str = ""


def refusal(asked: HelmetAsked) -> str:
    """Why it cannot be had, and what to do; empty where it can.

    What is not known of a helmet refuses nothing: a person looks at it.
    """
    if asked.holder:
        return f"{asked.code} was issued to {asked.holder}. Take it back first, or another helmet."
    if not asked.verdict.may_be_issued:
        what_to_do = _WHAT_TO_DO[asked.verdict.standing]
        return f"{asked.code} cannot be issued. {asked.verdict.why} {what_to_do}"
    if asked.spoken_for:
        return f"{asked.spoken_for} Take another helmet."
    return ""
