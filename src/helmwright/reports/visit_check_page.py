"""One check on the screen: what to do, what is right, what to type."""

import re
from collections.abc import Iterable
from functools import cache

from helmwright.fit.finding import Grade
from helmwright.reports.layout import bullets, wrapped
from helmwright.reports.lengths import inches
from helmwright.reports.visit_keys import keys
from helmwright.reports.visit_parts import numbered
from helmwright.sources import Source, Standing, fit_checks, records
from helmwright.units import MM_PER_INCH
from helmwright.visit.check import Check, Length, Stage
from helmwright.visit.looks import CURED_BY_A_BUILD, Looked, is_spot_cured
from helmwright.visit.protocol import MAKER_FIRST
from helmwright.visit.round import PUT_RIGHT_TRIES
from helmwright.visit.starts import Expectation
from helmwright.visit.step import AskCheck

STAGES = {
    Stage.BEFORE: "Before the helmet goes on",
    Stage.CONTACT: "On the head: where it touches",
    Stage.HELD: "Strap, movement and face",
    Stage.WORN: "After some minutes of wearing",
    Stage.HANDED_OVER: "Told and shown",
}
"""What each stage is called above its first check."""

SYMPTOM_LINE = (
    "Headache, dizziness, numbness, neck pain, anything after a hit is no matter of fit: type"
    " symptom."
)


_SENTENCE_END = re.compile(r"[.;] ")


def stage_lines(
    stage: Stage, count: int, first: Iterable[Expectation], minutes: float, width: int
) -> list[str]:
    """What stands above the first check of a round.

    Parameters
    ----------
    stage
        Of the round.
    count
        How many checks it has.
    first
        What is to be set before them, such as the strap.
    minutes
        How long the helmet is worn before the checks after wearing [min].
    width
        Columns.
    """
    lines = wrapped(STAGES[stage], width)
    lines.append("-" * min(max(len(line) for line in lines), width))
    if count > 1:
        at_once = '"all good" answers what is left of them at once; "list" names them.'
        lines += wrapped(f"{count} checks. {at_once}", width)
    lines += set_first_lines(first, width)
    if stage is Stage.WORN:
        worn = f"Worn for {minutes:g} minutes first, the strap fastened."
        lines += wrapped(f"{worn} {SYMPTOM_LINE}", width)
    return lines


def set_first_lines(first: Iterable[Expectation], width: int) -> list[str]:
    """What is to be set before a round, such as the strap."""
    return [line for each in first for line in wrapped(f"Set first: {expected_words(each)}", width)]


def round_lines(looked: Iterable[Looked], width: int) -> list[str]:
    """The checks of a round, each in a short line: what is right, or what was answered."""
    return bullets([f"{one.check.title}: {_stands(one)}" for one in looked], width)


def _stands(looked: Looked) -> str:
    """What was answered; before that the first sentence of what is right."""
    if looked.answers:
        return f"answered {', then '.join(given.word for given in looked.answers)}."
    return _stopped(_SENTENCE_END.split(looked.check.accept, maxsplit=1)[0])


def last_try_lines(looked: Looked, width: int) -> list[str]:
    """That one more bad answer ends the visit, where that is so."""
    check = looked.check
    hopeless = is_spot_cured(check) and check.sign not in CURED_BY_A_BUILD
    bad = looked.verdict not in (None, Grade.RIGHT)
    if not (hopeless and bad and looked.failures == PUT_RIGHT_TRIES.value - 1):
        return []
    words = " or ".join(f'"{each.word}"' for each in check.answers if each.grade is not Grade.RIGHT)
    return wrapped(
        f"One more {words} ends this visit: no build puts it right. Try what stands above first,"
        " with other parts if need be; undo takes an answer back.",
        width,
        indent="  ",
        hanging="  ",
    )


def expected_words(expected: Expectation) -> str:
    """What is expected, and what that leans on."""
    return f"{expected.says} ({expected.assumed})"


def check_lines(
    ask: AskCheck, expected: Expectation | None, width: int, *, is_short: bool
) -> list[str]:
    """The check, with its answers.

    Parameters
    ----------
    ask
        The check and which look it is.
    expected
        What to expect of this player; None where nothing is known.
    width
        Columns.
    is_short
        Leaves out how it is done, for who has just done it.
    """
    check = ask.check
    lines = _heading(ask, width)
    lines += [] if is_short else _how(check, width)
    lines += wrapped(f"Right: {_accept(check)}", width, indent="  ", hanging="    ")
    if expected is not None:
        lines += wrapped(expected_words(expected), width, indent="  ", hanging="    ")
    return [*lines, *_answers(check, width)]


def _how(check: Check, width: int) -> list[str]:
    """How it is done; that the maker's words come first is no step."""
    steps, lines = check.how, []
    if steps and steps[0] == MAKER_FIRST:
        steps, lines = steps[1:], wrapped(MAKER_FIRST, width, indent="  ", hanging="  ")
    return [*lines, *(numbered(steps, width) if steps else [])]


def _heading(ask: AskCheck, width: int) -> list[str]:
    if ask.look == 1:
        return wrapped(ask.check.title, width)
    lines = wrapped(f"{ask.check.title}, once more", width)
    return lines + (wrapped(ask.why, width, indent="  ", hanging="  ") if ask.why else [])


def _accept(check: Check) -> str:
    """The criterion, and the mark of the maker where it is his."""
    said = _stopped(check.accept)
    return f"{said} This is the maker's own instruction." if check.by_maker else said


def _answers(check: Check, width: int) -> list[str]:
    """Letter, word and meaning of every answer; a length, where one is read."""
    room = max((len(answer.word) for answer in check.answers), default=0)
    letters = {answer.word: letter for letter, answer in keys(check).items()}
    lines: list[str] = []
    for answer in check.answers:
        lead = f"  {letters.get(answer.word, ' ')}  {answer.word:<{room}}  "
        lines += wrapped(answer.says, width, indent=lead, hanging=" " * len(lead))
    if check.length is not None:
        fingers = ", or finger widths" if check.length.fingers else ""
        read = f"Better: the inches, such as {_example(check.length)}{fingers}"
        lines += wrapped(read, width, indent="  ")
    return lines


def _example(length: Length) -> str:
    """A length that is accepted: "1 1/8"."""
    return inches(length.accept_mm[1] - MM_PER_INCH / 8.0, denominator=8).removesuffix(" in")


def ask_words(check: Check) -> str:
    """What stands before the cursor: the check and its letters, "Front pad (l, s, t)"."""
    letters = ", ".join(keys(check))
    read = "inches, " if check.length is not None else ""
    return f"{check.title} ({read}{letters})"


def how_lines(check: Check, width: int) -> list[str]:
    """How the check is done, again."""
    return [*wrapped(check.title, width), *_how(check, width)]


def why_check_lines(ask: AskCheck, width: int) -> list[str]:
    """Everything behind a check: why now, what answers point to, whose criterion it is."""
    check = ask.check
    said = [ask.why] if ask.why else []
    said += [f"If {each.word}: {each.points_to}" for each in check.answers if each.points_to]
    said.append(f"It counts towards {check.sub_score}; five such scores are kept apart.")
    said.append(f"Criterion: {source_words(check)}")
    said += [f"Sources differ: {check.differs}"] if check.differs else []
    return [*wrapped(check.title, width), *numbered(said, width)]


def source_words(check: Check) -> str:
    """Where the criterion comes from; what is not published says how far it carries."""
    source = _records().get(check.source)
    if source is None:
        return _stopped(check.source)
    standing = "" if source.standing is Standing.PUBLISHED else f" ({source.standing})"
    return _stopped(f"{source.citation.rstrip('.')}{standing}")


@cache
def _records() -> dict[str, Source]:
    """Every source record by its key."""
    held = (*vars(records).values(), *vars(fit_checks).values())
    return {each.key: each for each in held if isinstance(each, Source)}


def _stopped(words: str) -> str:
    return words if words.endswith(".") else f"{words}."
