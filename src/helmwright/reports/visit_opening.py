"""What a visit begins with on the screen: who, which helmet, cautions, what can be typed."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import model_words
from helmwright.reports.insides import guess_lines
from helmwright.reports.layout import bullets, wrapped
from helmwright.reports.remarks import body_words
from helmwright.reports.visit_parts import parts_words, shell_words
from helmwright.reports.youth import youth_lines
from helmwright.roster import Player
from helmwright.visit.state import Visit

COMMANDS = (
    ("all good", "what is left of this round is right; or: all good except front loose, brow low"),
    ("list", "the checks of this round, with what is right or what was answered"),
    ("undo", "takes back what you typed last, all good as a whole; again for what was before"),
    ("why", "the reasons, the chances and where the criterion comes from"),
    ("how", "the steps again"),
    ("reading", "gives a reading nobody asked for: reading tape 22 5/8"),
    ("other", "another build is put on than the one proposed; you are asked why"),
    ("pause", "ends for now; the same command goes on from here. Ctrl-C does the same"),
    ("symptom", "headache, dizziness, numbness, neck pain, anything after a hit: ends the visit"),
    ("stop", "ends the visit without a fit; you are asked why"),
    ("help", "this list"),
)
"""What can be typed at any question."""

ON_AGAIN = "If it was taken off, put it on and settle it again before you answer."

KEYS = "Answer by letter or word, then Enter. At any question: help, undo, pause, symptom."


CAUTIONS_AGAIN = (
    "Cautions as before: nothing here is a safety score; the maker's instructions, rules in force"
    " and licensed people win; any symptom ends the visit."
)


def opening_lines(
    player: Player,
    sheet: ModelSheet,
    visit: Visit,
    file: str,
    notices: Sequence[str],
    width: int,
    *,
    is_again: bool = False,
) -> list[str]:
    """The head of a visit.

    Parameters
    ----------
    player
        As on the roster.
    sheet
        The helmet model.
    visit
        Where it stands: as it begins, or as it is gone on with.
    file
        Where it is kept.
    notices
        What is to be looked at first.
    width
        Columns.
    is_again
        Whether it is gone on with, so that the cautions have been read.
    """
    cautions = (*CAUTIONS, ASSUMED, *youth_lines([player]))
    return [
        *wrapped(f"Fit visit: {who_words(player)}", width),
        *wrapped(f"Model: {model_words(sheet)}", width),
        *(line for said in guess_lines(sheet) for line in wrapped(said, width)),
        *wrapped(_in_helmet(visit, sheet), width),
        *wrapped(f"Kept in {file} and nowhere else; delete it and the visit is gone.", width),
        "",
        *(wrapped(CAUTIONS_AGAIN, width) if is_again else bullets(cautions, width)),
        *(["", *wrapped("Look at this first:", width)] if notices else []),
        *bullets(notices, width),
        "",
        *wrapped(KEYS, width),
    ]


def who_words(player: Player) -> str:
    """Name, number, position and body: "Avocet Brookside, no. 12, QB, 6-1, 205 lb"."""
    number = f"no. {player.number}" if player.number and player.name else ""
    parts = (player.label, number, player.position, body_words(player))
    return ", ".join(part for part in parts if part)


def _in_helmet(visit: Visit, sheet: ModelSheet) -> str:
    """What is in the helmet now, as far as somebody said or it was put on."""
    build = visit.in_helmet
    if build is None:
        return "In the helmet now: nobody said, so as delivered."
    said = f"In the helmet now: {shell_words(build.shell, sheet)}, {parts_words(build, sheet)}."
    is_on = visit.now is not None and visit.ended is None
    return f"{said} {ON_AGAIN}" if is_on else said


def going_on_lines(
    who: str,
    answers: int,
    given: Sequence[str],
    cut: int,
    width: int,
    *,
    is_changed: bool = False,
) -> list[str]:
    """What an interrupted visit goes on with.

    Parameters
    ----------
    who
        The player.
    answers
        How many answers stand.
    given
        Those about the build that is on the head, or goes on next, in words: "Front pad: loose".
    cut
        Bytes of a torn last line that were cut off.
    width
        Columns.
    is_changed
        Whether roster, stock or options say something else by now.
    """
    kept = f"{answers} answer{' is' if answers == 1 else 's are'} kept"
    lines = wrapped(f"Going on with the visit of {who}; {kept}.", width)
    if given:
        lines += wrapped(f"Answered about this build: {'; '.join(given)}.", width, hanging="  ")
    if cut:
        lines += wrapped(
            "The last line of the file was cut short as the program ended; it has been taken off,"
            " and what it said is asked again.",
            width,
        )
    if is_changed:
        lines += wrapped(
            "Roster, stock, seed or the build now are not what they were; the visit goes on with"
            " what it began with. To begin anew with what they say now, move the file away.",
            width,
        )
    return lines


def earlier_words(file: str, end: str) -> str:
    """That an earlier visit is over and this is a new one, for whoever missed its end."""
    return f'An earlier visit is over ("{end}") and kept in {file}; this one is new.'


def whose_words(*, is_moved: bool, is_by_number: bool) -> str:
    """How an unfinished visit was found, where that is to be looked at; empty where it is not."""
    if is_moved:
        how = (
            "It was begun under another number or row than this player has now. Name or readings"
            " say whose it is; a jersey number tells nobody apart."
        )
    elif is_by_number:
        how = (
            "Name and readings do not tell whose it is; only number and row do, and they may have"
            " changed."
        )
    else:
        return ""
    return f"{how} If it is somebody else's, pause it and move the file away."


def also_open_words(file: str) -> str:
    """That another visit of the player waits as well."""
    return f"Another unfinished visit of this player is kept in {file}; this one was begun last."


def symptom_words(file: str, on: str) -> str:
    """That an earlier visit ended for a symptom, and who says whether this one may begin."""
    when = f"on {on} " if on else ""
    return (
        f"The visit kept in {file} ended {when}for a symptom, and none was accepted since. Medical"
        " staff decide whether the player is fitted again; nothing here can."
    )


def accepted_words(on: str) -> str:
    """That the build of an earlier visit is taken for what is in the helmet."""
    when = f"on {on}" if on else "before"
    return (
        f"What was accepted {when} is taken for what is in the helmet now; where it is not, say"
        " what is with --now."
    )


def help_lines(width: int, others: Sequence[tuple[str, str]] = ()) -> list[str]:
    """What can be typed at any question."""
    listed = (*others, *COMMANDS)
    room = max(len(word) for word, _ in listed)
    return [
        line
        for word, says in listed
        for line in wrapped(says, width, indent=f"  {word:<{room}}  ", hanging=" " * (room + 4))
    ]
