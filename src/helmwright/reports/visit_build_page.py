"""A proposed build on the screen: what to make up, how likely it fits, why."""

from collections.abc import Collection, Sequence

from helmwright.catalogue.changing import PartKind
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.reports.chances import hundredths, of_hundred
from helmwright.reports.layout import heading, wrapped
from helmwright.reports.visit_parts import make_up_lines, numbered, parts_words, shell_words
from helmwright.visit.changing import PartChange
from helmwright.visit.event import Proposed


def take_lines(proposed: Proposed, number: int, sheet: ModelSheet, width: int) -> list[str]:
    """Which helmet to take in hand, before anything in it is changed."""
    shell = shell_words(proposed.build.shell, sheet)
    return [*heading(f"Try-on {number}", width), *wrapped(f"Take {shell}.", width)]


def proposal_lines(
    proposed: Proposed, before: Build, sheet: ModelSheet, width: int, *, number: int | None
) -> list[str]:
    """The build to put on next.

    Parameters
    ----------
    proposed
        What the program says.
    before
        What is in the helmet now.
    sheet
        The model.
    width
        Columns.
    number
        Which try-on it is, from 1; None where that stands above already.
    """
    return [
        *([""] if number is None else heading(f"Try-on {number}", width)),
        *make_up_lines(proposed.build, before, sheet, width),
        *wrapped(f"Why: {proposed.why}", width),
        *wrapped(chance_words(proposed), width),
    ]


def change_lines(
    changes: Sequence[PartChange], told: Collection[PartKind], width: int
) -> list[str]:
    """How the parts are changed, step by step; of kinds that were told before only that.

    Parameters
    ----------
    changes
        What is to be changed, kind by kind.
    told
        The kinds whose steps have been shown in this visit.
    width
        Columns.
    """
    lines: list[str] = []
    for change in changes:
        if change.kind in told:
            continue
        lines += ["", *wrapped(f"How to change the {change.kind} ({change.whose})", width)]
        lines += numbered([step.says for step in change.steps], width)
    again = [str(change.kind) for change in changes if change.kind in told]
    if again:
        lines += wrapped(f"Steps for {', '.join(again)}: as before, or type how.", width)
    return lines


def disturbed_lines(change: PartChange, done: Collection[str], width: int) -> list[str]:
    """What was looked at (`done`, by keys) and is to be again, after a change on the spot."""
    titles = ", ".join(check.title.lower() for check in change.again if check.key in done)
    if not titles:
        return []
    return wrapped(
        f"If the {change.kind} was changed, look again before going on: {titles}.", width
    )


def put_on_lines(build: Build, sheet: ModelSheet, width: int) -> list[str]:
    """The build once more, as it goes on the head."""
    parts = parts_words(build, sheet)
    return wrapped(f"Put it on: {shell_words(build.shell, sheet)}, {parts}.", width, hanging="  ")


def chance_words(proposed: Proposed) -> str:
    """The two chances in a sentence."""
    return (
        f"It fits {of_hundred(proposed.fits)} heads that readings and answers allow; on"
        f" {hundredths(proposed.found_right)} a fitter finds everything right."
    )


def why_build_lines(proposed: Proposed, width: int) -> list[str]:
    """Everything behind a proposal."""
    minutes = max(round(proposed.minutes), 1)
    about = f"about {minutes} minute{'' if minutes == 1 else 's'} (assumed times)"
    return [
        *wrapped(f"Why this build: {proposed.why}", width),
        *wrapped(chance_words(proposed), width),
        *wrapped(
            f"Changing to it and trying it on should take {about}. The chances are counted on some"
            f" {proposed.effective:.0f} possible heads; the limits of right, a head's bumps and"
            " what a fitter feels are assumed.",
            width,
        ),
    ]
