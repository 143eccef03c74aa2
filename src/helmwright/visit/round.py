"""The round of checks on one build: which are due, how each stands, which come next."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.outlook import Build
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.visit.check import Check, Part, Stage
from helmwright.visit.event import Answered
from helmwright.visit.looks import Looked, grade_of, is_spot_cured
from helmwright.visit.state import TryOn, Visit

PUT_RIGHT_TRIES = Figure(
    2, "1", ASSUMED, note="bad answers after which what is put right on the spot counts as wrong"
)

_PART_OF = {Zone.CROWN: Part.CROWN, Zone.JAW_LEFT: Part.JAW, Zone.JAW_RIGHT: Part.JAW}


@dataclass(frozen=True, slots=True)
class Round:
    """The checks that are due on one build.

    Parameters
    ----------
    build
        What is, or goes, on the head.
    due
        The checks, in the protocol's order, each with its answers.
    """

    build: Build
    due: tuple[Looked, ...]

    def of(self, stage: Stage) -> tuple[Looked, ...]:
        """Those of one stage; none but putting on, where the helmet cannot be put on."""
        mine = [looked for looked in self.due if looked.check.stage is stage]
        failed = [one for one in mine if one.check.sign is Sign.PUT_ON and is_wrong(one)]
        return tuple(failed or mine)


def is_wrong(looked: Looked) -> bool:
    """Whether a check stands as wrong: bad, and not to be put right on the spot any more."""
    if looked.verdict in (None, Grade.RIGHT):
        return False
    return not is_spot_cured(looked.check) or looked.failures >= PUT_RIGHT_TRIES.value


def is_open(looked: Looked) -> bool:
    """Whether a check waits for an answer: not asked yet, or just put right."""
    bad = looked.verdict not in (None, Grade.RIGHT)
    return not looked.answers or (bad and not is_wrong(looked))


def round_of(checks: Sequence[Check], visit: Visit) -> Round:
    """The round on the build that is on the head, or on the proposed one before it goes on.

    Notes
    -----
    Every contact check is due at every try-on. Any other is due unless it was right at an earlier
    one, and no part has been changed since after which it must be repeated. What was answered
    before a part was changed on the spot, such as the strap, is asked again where that disturbs it.
    """
    now = visit.now
    if now is not None:
        earlier, build, answers = visit.try_ons[:-1], now.build, now.answers
    elif visit.proposal is not None:
        earlier, build, answers = visit.try_ons, visit.proposal.build, visit.ahead
    else:
        raise ValueError("no build is on the head, and none is proposed")
    due = [
        standing(check, answers, checks)
        for check in checks
        if check.stage is Stage.CONTACT
        or answers_about(check, answers)
        or not still_right(check, earlier, build)
    ]
    return Round(build, tuple(due))


def standing(check: Check, answers: Sequence[Answered], checks: Sequence[Check]) -> Looked:
    """A check with those of its answers that no change on the spot has disturbed since.

    Notes
    -----
    A part was changed on the spot where a check that names it had a bad answer and was then
    answered again.
    """
    spots = {one.key: one for one in checks if one.changes and one.key != check.key}
    since, disturbed = 0, None
    for place, given in enumerate(answers):
        spot = spots.get(given.check)
        if spot is None or grade_of(spot, given) is Grade.RIGHT:
            continue
        parts = [part for part in spot.changes if part in check.repeat_after]
        if parts and any(later.check == spot.key for later in answers[place + 1 :]):
            since, disturbed = place + 1, parts[0]
    before = Looked(check, answers_about(check, answers[:since]))
    if not before.answers:
        return Looked(check, answers_about(check, answers))
    return Looked(check, answers_about(check, answers[since:]), disturbed, before.failures)


def still_right(check: Check, earlier: Sequence[TryOn], build: Build) -> bool:
    """Whether a check found right on an earlier build holds for this one."""
    since: list[Build] = [build]
    for tried in reversed(earlier):
        since.append(tried.build)
        answers = answers_about(check, tried.answers)
        if answers:
            right = Looked(check, answers).verdict is Grade.RIGHT
            changed = {part for one, two in pairwise(since) for part in changed_parts(one, two)}
            return right and not changed & check.repeat_after
    return False


def changed_parts(one: Build, two: Build) -> frozenset[Part]:
    """The kinds of parts in which two builds differ."""
    kinds = {_PART_OF.get(zone, Part.PAD) for zone in one.changes_from(two)}
    return frozenset(kinds | ({Part.SHELL} if one.shell != two.shell else set()))


def answers_about(check: Check, answers: Iterable[Answered]) -> tuple[Answered, ...]:
    """The answers to one check, in order."""
    return tuple(given for given in answers if given.check == check.key)


def findings_of(looked: Looked, which: slice = slice(None)) -> tuple[Finding, ...]:
    """What some of the looks at a check say of the helmet at rest.

    Notes
    -----
    Of a check that is put right on the spot only the last answer counts: those before were of a
    helmet that was worn another way. A plain check says nothing of head and pads.
    """
    if looked.check.sign is Sign.PLAIN:
        return ()
    given = looked.answers[-1:] if is_spot_cured(looked.check) else looked.answers
    return tuple(finding for each in given[which] for finding in found_by(looked.check, each))


def found_by(check: Check, given: Answered) -> tuple[Finding, ...]:
    """What one answer says of the helmet at rest."""
    return check.findings(check.answer(given.word), given.value_mm)


def standing_finding(looked: Looked) -> tuple[Finding, ...]:
    """What stands of a check, as one finding; that of the look that says so."""
    grades = looked.grades
    if looked.verdict is None or looked.check.sign is Sign.PLAIN:
        return ()
    last = max(place for place, grade in enumerate(grades) if grade is looked.verdict)
    return found_by(looked.check, looked.answers[last])
