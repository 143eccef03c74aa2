"""The checks of a fit visit as they will be asked, in a page to be read through."""

from helmwright.reports.layout import bullets, heading, title, wrapped
from helmwright.reports.visit_check_page import source_words
from helmwright.visit.check import Check, Stage, SubScore
from helmwright.visit.check_list import Protocol
from helmwright.visit.sub_scores import MAPPING_ASSUMED, unchecked_words

STAGES = {
    Stage.BEFORE: "Before the helmet goes on, once a visit",
    Stage.CONTACT: "Contact, at every try-on",
    Stage.HELD: "Strap, face and movement, once every contact is right",
    Stage.WORN: "After wearing it",
    Stage.HANDED_OVER: "Handing it over",
}
"""How each stage is headed."""


def protocol_page(protocol: Protocol, width: int) -> str:
    """Every check, stage by stage: how, what is accepted, the answers, the source.

    Parameters
    ----------
    protocol
        The checks.
    width
        Columns of the page.
    """
    count = len(protocol.checks)
    lines = wrapped(f"{protocol.name}: {count} checks; the protocol can be used.", width)
    fed = {check.sub_score for check in protocol.checks}
    missed = unchecked_words(score for score in SubScore if score not in fed)
    lines += wrapped(missed, width) if missed else []
    for said in protocol.more_by_maker:
        lines += wrapped(f"The maker says of {said.topic}: {said.says}", width)
    for stage in Stage:
        checks = protocol.stage(stage)
        if checks:
            lines += heading(STAGES[stage], width)
            lines += [line for check in checks for line in _check(check, width)]
    words = ", ".join(symptom.word for symptom in protocol.symptoms)
    lines += [*heading("These end the visit", width), *wrapped(f"{words}.", width)]
    lines += wrapped(protocol.symptom_stop, width)
    lines += ["", *wrapped(f"{MAPPING_ASSUMED} They have no total.", width)]
    return "\n".join(lines) + "\n"


def _check(check: Check, width: int) -> list[str]:
    whose = "The maker says" if check.by_maker else "Right"
    said = [*check.how, f"{whose}: {check.accept}", _answers(check), _facts(check)]
    if check.put_right:
        said.append(f"If not: {check.put_right}")
    if check.differs:
        said.append(f"Sources differ: {check.differs}")
    return [*title(check.title, width), *bullets(said, width)]


def _answers(check: Check) -> str:
    return "Answers: " + "; ".join(each.word for each in check.answers) + "."


def _facts(check: Check) -> str:
    return f"Score: {check.sub_score}. Source: {source_words(check)}"
