"""Which builds of a shell are worth counting, by the rule of thumb and by a climb."""

from helmwright.fit.begin import begins
from helmwright.fit.climb import ascend, climb
from helmwright.fit.neighborhood import Pads, singles
from helmwright.fit.next_build_question import Question
from helmwright.fit.next_build_rule import by_rule
from helmwright.fit.next_build_tally import Drawn
from helmwright.fit.outlook import Build
from helmwright.fit.search import has_in

GUESSED_ON = 128
"""Draws on which the quick guess is made."""

ENTRANTS = 32
"""Builds of the present shell that are counted; half as many of each other."""

PLAIN = 6
"""So many of them leave every snug pad alone."""


def entrants(drawn: Drawn, asked: Question, shell: int) -> list[Build]:
    """Builds of one shell that are worth counting, those by rule first.

    Parameters
    ----------
    drawn
        What is believed.
    asked
        What is asked for.
    shell
        In which shell.

    Returns
    -------
    At most ENTRANTS builds, none of them rejected or not at hand; none where the shell is not.

    Notes
    -----
    The likeliest of those that leave every snug pad alone are sought for themselves, so that what
    touches one is compared with the best that does not.
    """
    has = has_in(shell, asked.allowed)
    found = begins(asked.sheet, asked.lying(shell).pads, asked.lies, shell, has)
    if not found:
        return []
    start, *more = found

    def charge(pads: Pads) -> float:
        return asked.charged(Build(shell, pads))

    def is_plain(pads: Pads) -> bool:
        return has(pads) and asked.is_plain(Build(shell, pads))

    on_head = shell == asked.current.shell
    ruled = by_rule(asked.found, asked.sheet, start) if on_head else []
    ruled = [pads for pads in ruled if has(pads)]
    trial, wide = drawn.trial(shell), not asked.was_on(shell)
    heads = min(GUESSED_ON, len(drawn) // 2)
    seen = climb(trial, start, heads, has=has, charge=charge, others=[*ruled[:1], *more], wide=wide)
    seen.score([*ruled, *singles(asked.sheet, start, has)])
    for begin in (start, *ruled[:1]):
        ascend(seen, trial, begin, is_plain)
    best = [Build(shell, pads) for pads in seen.top(len(seen.scores))]
    is_open = [build for build in best if asked.is_open(build)]
    plain = [build for build in is_open if asked.is_plain(build)]
    by_the_rule = [build for pads in ruled[:2] if asked.is_open(build := Build(shell, pads))]
    return list(dict.fromkeys([*by_the_rule, *plain[:PLAIN], *is_open]))[:ENTRANTS]
