"""Where compiled kernels are kept: in a folder named after their own source text.

Numba keeps a function compiled until its own file changes, not the files of the functions that it
calls, so an edited inner function would go on living in its callers. A folder per content cannot
go stale.
"""

import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numba

_SETTINGS: Any = numba.config


@contextmanager
def kept_by_content(sources: Path) -> Iterator[None]:
    """Within this, functions decorated for caching keep their code by the text of a folder.

    Parameters
    ----------
    sources
        The folder of kernel modules.
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
    beside = sources / "__pycache__"
    if os.access(beside if beside.exists() else sources, os.W_OK):
        return beside / name
    return Path.home() / ".cache" / "helmwright" / name
