"""Output to the terminal or to a file that is either whole or not there."""

import os
import sys
from collections.abc import Iterable
from pathlib import Path

from helmwright.cli.stop import NothingRan, tell


def check_out(
    out: str | None, sources: Iterable[str | None] = (), *, option: str = "--out"
) -> None:
    """Refuses a file that cannot be written or that is read, before anybody has waited.

    Raises
    ------
    NothingRan
        Where the answer could not be put there, or would take the place of one of the sources.

    """
    if out is None:
        return
    path = Path(out)
    for source in sources:
        if source not in (None, "-") and is_same_file(path, Path(str(source))):
            raise NothingRan(f"{option} {out} is a file that is read; give the answer another name")
    folder = path.absolute().parent
    if not folder.is_dir():
        raise _cannot_write(out, f"there is no folder {folder}", option)
    if path.is_dir():
        raise _cannot_write(out, "it is a folder", option)
    if not os.access(path if path.exists() and not path.is_file() else folder, os.W_OK):
        raise _cannot_write(out, "permission denied", option)


def check_new(out: str | None, *, replace: bool, option: str = "--out") -> None:
    """Refuses to write over a file unless that was asked for.

    Raises
    ------
    NothingRan
        Where the file is there already.

    """
    if out is not None and not replace and Path(out).is_file():
        raise NothingRan(
            f"{out} is there already and was left as it is; give another {option} FILE, or"
            " --replace to write over it"
        )


def is_same_file(path: Path, source: Path) -> bool:
    """Whether both are one file, by whatever name."""
    try:
        return path.samefile(source)
    except OSError:
        return path.resolve() == source.resolve()


def _cannot_write(out: str, reason: str, option: str = "--out") -> NothingRan:
    return NothingRan(f"cannot write {out}: {reason}; give another {option} FILE")


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()


def deliver(content: str | bytes, out: str | None) -> None:
    """Prints a text, or puts it or a workbook in a file at one stroke and says what it replaced.

    Raises
    ------
    NothingRan
        Where it cannot be written.

    """
    if out is None:
        assert isinstance(content, str)  # noqa: S101 - a workbook has been refused without a file
        print_text(content)
        return
    _put(content.encode() if isinstance(content, str) else content, out, "--out")


def deliver_beside(content: bytes, file: str, *, option: str, what: str) -> None:
    """Puts something into a file of its own, at one stroke, and says where it is.

    Parameters
    ----------
    content
        The whole file.
    file, option
        Its name, and the option that gave it.
    what
        What it holds, for the sentence that is told.

    Raises
    ------
    NothingRan
        Where it cannot be written.

    """
    _put(content, file, option)
    tell(f"{what}: {file}")


def _put(content: bytes, file: str, option: str) -> None:
    path = Path(file)
    replaced = path.is_file()
    try:
        write_whole(path, content)
    except OSError as error:
        raise _cannot_write(file, _reason(error), option) from error
    if replaced:
        tell(f"{file} was there and has been replaced")


def print_text(text: str) -> None:
    """Prints the text.

    Raises
    ------
    NothingRan
        Where what the output goes to does not take it, such as a disk that is full.

    """
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        raise  # whoever reads has seen enough
    except OSError as error:
        let_go()
        raise cannot_print(error) from error


def cannot_print(error: OSError) -> NothingRan:
    """What to say where the output goes nowhere."""
    return NothingRan(f"cannot write the output: {_reason(error)}")


def let_go() -> None:
    """Sends what is still held back to nowhere; Python would try once more when it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def write_whole(path: Path, content: bytes) -> None:
    """Writes beside the file and then takes its place, so that no half file is ever seen.

    A device or a pipe is written straight: taking its place would remove it.
    """
    if path.exists() and not path.is_file():
        path.write_bytes(content)
        return
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_bytes(content)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
