"""Where compiled kernels are kept: in a folder named after their own source text.

Numba keeps a function compiled until its own file changes, not the files of the functions that it
calls, so an edited inner function would go on living in its callers. A folder per content cannot
go stale. The few that were last used are left beside it; a program still running may need its own.
"""

import atexit
import hashlib
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import numba

_SETTINGS: Any = numba.config

_OURS = re.compile(r"[0-9a-f]{16}")
OTHERS_KEPT = 2
"""How many folders of other texts stay."""


@contextmanager
def kept_by_content(sources: Path) -> Iterator[None]:
    """Within this, functions decorated for caching keep their code by the text of a folder.

    Parameters
    ----------
    sources
        The folder of kernel modules.

    Notes
    -----
    The code lies beside the sources, or else in the user's own cache, or else in a temporary
    folder that goes when the program ends.
    """
    before = _SETTINGS.CACHE_DIR
    _SETTINGS.CACHE_DIR = before or str(_folder(sources))
    try:
        yield
    finally:
        _SETTINGS.CACHE_DIR = before


def _folder(sources: Path) -> Path:
    text = b"".join(path.read_bytes() for path in sorted(sources.glob("*.py")))
    name = hashlib.sha256(numba.__version__.encode() + text).hexdigest()[:16]
    for parent in _parents(sources):
        folder = parent / name
        if _can_write(folder):
            _remove_older(folder)
            return folder
    return _for_this_run()


def _parents(sources: Path) -> Iterator[Path]:
    yield sources / "__pycache__"
    with suppress(RuntimeError):  # Somebody without a home.
        yield Path.home() / ".cache" / "helmwright" / sources.parent.name


def _can_write(folder: Path) -> bool:
    """Whether a file can be made there: permissions are not the same thing on every system."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
        os.utime(folder)
    except OSError:
        return False
    return True


def _remove_older(folder: Path) -> None:
    """Remove the folders of other texts, but for those used last; what cannot go may stay."""
    with suppress(OSError):
        ours = (each for each in folder.parent.iterdir() if _OURS.fullmatch(each.name))
        others = [each for each in ours if each != folder and each.is_dir()]
        others.sort(key=lambda each: each.stat().st_mtime_ns, reverse=True)
        for each in others[OTHERS_KEPT:]:
            shutil.rmtree(each, ignore_errors=True)


def _for_this_run() -> Path:
    # Not a name that others could foresee: what lies there is run.
    folder = tempfile.mkdtemp(prefix="helmwright-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return Path(folder)
