"""What the terminal can show: its width, its characters, progress on long work."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import contextlib
import os
import shutil
import sys
from collections.abc import Callable, Iterator

NARROWEST, WIDEST = 40, 100
FILE_WIDTH = 80


def page_width() -> int:
    """Columns to fill: the terminal's own, within what reads well; 80 where there is none."""
    return min(max(shutil.get_terminal_size((80, 24)).columns, NARROWEST), WIDEST)


def accept_any_name() -> None:
    """Lets a name that the terminal cannot show come out with marks instead of an error.

    What goes to a file or a pipe is UTF-8, whatever the console writes, so that no name is lost
    there; PYTHONIOENCODING has its way.
    """
    told = os.environ.get("PYTHONIOENCODING")
    if not (told or sys.stdout.isatty()) and hasattr(sys.stdout, "reconfigure"):
        sys.stdout.reconfigure(encoding="utf-8")
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


@contextlib.contextmanager
def progress(total: int, doing: str) -> Iterator[Callable[[], None]]:
    """Gives what is to be called for each part done; draws on a terminal's stderr only."""
    if not sys.stderr.isatty():
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

    parts = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    console = Console(stderr=True)
    with Progress(*parts, TimeElapsedColumn(), console=console, transient=True) as bar:
        task = bar.add_task(doing, total=total)
        yield lambda: bar.advance(task)
