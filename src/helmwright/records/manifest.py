"""What a backup says of itself; read before there is a room to restore it into."""

import json
import zipfile
import zlib
from pathlib import Path
from typing import Any

FORMAT = "Helmwright backup 1"
MANIFEST = "manifest.json"

UNREADABLE = (
    OSError,
    KeyError,
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    NotImplementedError,
    RuntimeError,
)
"""What an archive answers of which some bits were turned over."""


class DamagedError(ValueError):
    """The file is no backup, or not any more what was written."""


def opened(file: Path) -> zipfile.ZipFile:
    """The archive, to read.

    Raises
    ------
    DamagedError
        Where it is none.
    """
    try:
        return zipfile.ZipFile(file)
    except (ValueError, *UNREADABLE) as error:
        raise DamagedError(f"{file} is no backup that can be read: {error}") from error


def manifest_of(archive: zipfile.ZipFile) -> dict[str, Any]:
    """The manifest of a backup of this kind.

    Raises
    ------
    DamagedError
        Where it is missing, or of another kind.
    """
    try:
        manifest: dict[str, Any] = json.loads(archive.read(MANIFEST))
        kind = manifest["format"]
        _ = manifest["files"], manifest["time_zone"], manifest["head"]["seq"]
    except (TypeError, ValueError, *UNREADABLE) as error:
        raise DamagedError(f"{archive.filename} holds no manifest that can be read") from error
    if kind != FORMAT:
        raise DamagedError(f"{archive.filename} is no backup of this release's kind ({FORMAT})")
    return manifest


def zone_of(file: Path) -> str:
    """The time zone of the room that was backed up: its days decide what could be issued.

    Raises
    ------
    DamagedError
        Where the file is no backup.
    """
    with opened(file) as archive:
        return str(manifest_of(archive)["time_zone"])
