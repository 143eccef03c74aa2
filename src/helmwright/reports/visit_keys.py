"""A letter for every answer of a check, so that one key and Enter will do."""

from string import ascii_lowercase

from helmwright.fit.finding import Grade
from helmwright.visit.check import Answer, Check


def keys(check: Check) -> dict[str, Answer]:
    """The answers by their letters, in the order of the check.

    Notes
    -----
    Each takes the first letter of its word that no earlier one took, else the first one free; a
    check of more answers than letters leaves the last without.
    """
    found: dict[str, Answer] = {}
    for answer in check.answers:
        letters = [each for each in answer.word.lower() if each in ascii_lowercase]
        free = (each for each in (*letters, *ascii_lowercase) if each not in found)
        letter = next(free, "")
        if letter:
            found[letter] = answer
    return found


def right_answer(check: Check) -> Answer:
    """The answer that is accepted; the first of them, where there are several."""
    return next(answer for answer in check.answers if answer.grade is Grade.RIGHT)
