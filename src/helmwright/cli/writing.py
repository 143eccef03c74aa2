"""Output to the terminal or to a file that is either whole or not there."""

import os
import sys
import tempfile
from pathlib import Path


def deliver(text: str, out: str | None) -> None:
    """Prints the text, or puts it in a file at one stroke."""
    if out is None:
        sys.stdout.write(text)
        sys.stdout.flush()
    else:
        write_whole(Path(out), text)


def write_whole(path: Path, text: str) -> None:
    """Writes beside the file and then takes its place, so that no half file is ever seen."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    beside = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as stream:
            stream.write(text)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
