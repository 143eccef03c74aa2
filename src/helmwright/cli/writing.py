"""Output to the terminal or to a file that is either whole or not there."""

import os
import sys
from pathlib import Path

from helmwright.cli.stop import NothingRan


def deliver(text: str, out: str | None) -> None:
    """Prints the text, or puts it in a file at one stroke.

    Raises
    ------
    NothingRan
        Where the file cannot be written.

    """
    if out is None:
        sys.stdout.write(text)
        sys.stdout.flush()
        return
    try:
        write_whole(Path(out), text)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise NothingRan(f"cannot write {out}: {reason}; give another --out FILE") from error


def write_whole(path: Path, text: str) -> None:
    """Writes beside the file and then takes its place, so that no half file is ever seen.

    A device or a pipe is written straight: taking its place would remove it.
    """
    if path.exists() and not path.is_file():
        path.write_text(text, encoding="utf-8", newline="")
        return
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_text(text, encoding="utf-8", newline="")
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
