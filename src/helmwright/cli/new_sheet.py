"""Carries on the interview for a new sheet: prompts, one step back, the draft that is kept."""

# ruff: noqa: PLC0415 - what takes long to load is loaded at the end, so that questions come at once

import json
import sys
import textwrap
from pathlib import Path

import click

from helmwright.catalogue import SheetError, parse_sheet
from helmwright.catalogue.drafting import SheetDraft, draft_text
from helmwright.catalogue.insides import INSIDE_WORDS
from helmwright.cli.interview import BACK, Question, asked
from helmwright.cli.stop import NothingRan, stopped
from helmwright.cli.terminal import page_width
from helmwright.cli.writing import check_out, write_whole
from helmwright.cli.written_answers import AnswerError, yes

OPENING = (
    "A sheet for a helmet of yours. You need its size chart and the pad bags; what you do not"
    " know is taken as usual. Bare numbers are inches; 57 cm or 22 mm will do as well."
)
KEYS = f"Type {BACK} to go one question back. Ctrl-C stops; what you answered is kept."


def new_sheet(file: str) -> None:
    """Ask for what a sheet needs, write it to the file, and check it.

    Raises
    ------
    NothingRan
        Where the file is not to be written over, or cannot be.
    """
    check_out(file)
    path = Path(file)
    if path.exists() and not _agreed(f"{file} is there already. Write over it? (y or n)", file):
        raise NothingRan(f"{file} was left as it is; give the new sheet another name")
    beside = path.with_name(f"{path.name}.draft")
    for text in (OPENING, KEYS):
        _say(text)
    answers = _kept(beside, file)
    while True:
        draft = _asked_to_the_end(answers, beside, file)
        if _is_written(draft, path):
            beside.unlink(missing_ok=True)
            return
        answers.pop()


def _asked_to_the_end(answers: list[str], beside: Path, file: str) -> SheetDraft:
    """Question after question; every answer is kept at once."""
    part = ""
    while not isinstance(question := asked(answers), SheetDraft):
        if question.part != part:
            part = question.part
            click.echo(f"\n{part}")
        typed = _typed(_words(question), file, beside)
        if typed.strip().lower() == BACK:
            _step_back(answers)
        elif _taken(question, typed):
            answers.append(typed.strip())
        kept = json.dumps({"helmwright draft": 1, "answers": answers}, ensure_ascii=False)
        write_whole(beside, f"{kept}\n".encode())
    return question


def _words(question: Question) -> str:
    return question.asks + (f" [Enter: {question.enter}]" if question.enter else "")


def _step_back(answers: list[str]) -> None:
    if answers:
        answers.pop()
    else:
        click.echo("  This is the first question.")


def _taken(question: Question, typed: str) -> bool:
    """Whether the answer can be taken; what would be right is said where it cannot."""
    try:
        question.read(typed)
    except AnswerError as error:
        _say(str(error), indent="  ")
        return False
    return True


def _typed(words: str, file: str, beside: Path) -> str:
    """What a person types; stopping here loses nothing."""
    try:
        typed = str(click.prompt(words, default="", show_default=False, prompt_suffix=": "))
    except click.Abort:
        kept = f"; what you answered is kept in {beside.name}" if beside.exists() else ""
        raise stopped(f"stopped{kept}. Go on with: helmwright sheet new {file}") from None
    if not sys.stdin.isatty():
        click.echo(typed)  # what comes from a pipe nobody has seen
    return typed


def _agreed(words: str, file: str, *, unless: bool = False) -> bool:
    """A yes or no, asked until it is one."""
    while True:
        typed = _typed(words, file, Path(f"{file}.draft"))
        try:
            return yes(typed, unless=unless)
        except AnswerError as error:
            click.echo(f"  {error}")


def _kept(beside: Path, file: str) -> list[str]:
    """The answers of a draft that is to be gone on with; those that can still be taken."""
    if not beside.is_file():
        return []
    try:
        answers = [str(each) for each in json.loads(beside.read_text("utf-8"))["answers"]]
    except (ValueError, KeyError, TypeError) as error:
        raise NothingRan(
            f"{beside} is no draft that can be read; move it away, then start again"
        ) from error
    count = f"{len(answers)} answer{'' if len(answers) == 1 else 's'}"
    if not answers or not _agreed(
        f"Go on with the draft of {count}? (y or n) [Enter: yes]", file, unless=True
    ):
        return []
    return _still_taken(answers)


def _still_taken(answers: list[str]) -> list[str]:
    taken: list[str] = []
    for answer in answers:
        question = asked(taken)
        if isinstance(question, SheetDraft) or not _taken(question, answer):
            break
        taken.append(answer)
    return taken


def _is_written(draft: SheetDraft, path: Path) -> bool:
    """Check the sheet and write it, and say what to do next; what is wrong with it otherwise."""
    from helmwright.reports.sheet_page import sheet_page

    text = draft_text(draft)
    try:
        page = sheet_page(parse_sheet(text, name="the sheet"), page_width(), is_new=True)
    except SheetError as error:
        click.echo()
        for fault in error.faults:
            _say(_in_words(fault.told))
        _say(f"Type {BACK} until the question comes that this is about.")
        return False
    write_whole(path, text.encode())
    click.echo(f"\n{page}")
    for line in _next_steps(path):
        _say(line, hanging="  ")
    return True


def _in_words(told: str) -> str:
    """A fault with the names of inside numbers that the questions use, not those of the file."""
    for key, words in INSIDE_WORDS.items():
        told = told.replace(key, words)
    return told


def _next_steps(path: Path) -> tuple[str, ...]:
    """What can be done with the sheet, and what would make it better."""
    one = f'helmwright build --sheet {path} --tape "22 5/8"'
    measured = "the bare shells: inside length, inside breadth and width at the jaw first"
    return (
        f"{path} is written. Next:",
        f"- {one} for one player, or helmwright roster ROSTER.csv --sheet {path} for all.",
        f"- helmwright sheet check {path} says how many heads each shell can be made to fit.",
        f"- What is not on the sheet is assumed. To sharpen every chance, measure {measured}.",
    )


def _say(text: str, *, indent: str = "", hanging: str | None = None) -> None:
    """Print a paragraph within the terminal's width."""
    click.echo(
        textwrap.fill(
            text,
            page_width(),
            initial_indent=indent,
            subsequent_indent=indent if hanging is None else hanging,
            break_long_words=False,
            break_on_hyphens=False,
        )
    )
