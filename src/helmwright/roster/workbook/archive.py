"""What a workbook's bytes are, and whether they are safe to unpack."""

import io
import zipfile
import zlib
from collections.abc import Mapping

from helmwright.roster.remark import RosterError

ZIPPED = b"PK\x03\x04"
COMPOUND = b"\xd0\xcf\x11\xe0"
MOST_BYTES = 20_000_000
"""Largest file that is opened; a roster of 500 players takes some 50 thousand."""

MOST_UNPACKED = 64_000_000
"""Most that its parts may unpack to."""

MOST_PARTS = 2_000
_CHUNK = 1 << 16
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
_SAVE_AGAIN = "open it in a spreadsheet and save it again as .xlsx, or save the sheet as CSV"


def is_workbook(data: bytes) -> bool:
    """Whether the bytes are those of a workbook, not of a text."""
    return data.startswith((ZIPPED, COMPOUND))


def unpacked(data: bytes) -> Mapping[str, bytes]:
    """The parts of a workbook by name.

    Sizes that the archive states are not believed: what is unpacked is counted. The older kind is
    no archive and is refused: where it is damaged, the library that reads it can ask for more
    memory than there is, and the program with it ends at once.

    Raises
    ------
    RosterError
        For a file that is broken, locked or of the older kind, or that unpacks to more than any
        roster.

    """
    if len(data) > MOST_BYTES:
        raise _too_large(f"{len(data) / 1e6:.0f} MB, over {MOST_BYTES / 1e6:.0f}")
    if data.startswith(COMPOUND):
        raise locked() if _ENCRYPTED in data else _older()
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _parts(archive)
    except RosterError:
        raise
    except NotImplementedError as error:
        raise broken() from error
    except RuntimeError as error:
        raise locked() from error
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError) as error:
        raise broken() from error


def _parts(archive: zipfile.ZipFile) -> Mapping[str, bytes]:
    names = archive.infolist()
    if len(names) > MOST_PARTS:
        raise _too_large(f"{len(names)} parts, over {MOST_PARTS}")
    left = MOST_UNPACKED
    parts: dict[str, bytes] = {}
    for name in names:
        parts[name.filename] = part = _part(archive, name, left)
        left -= len(part)
    return parts


def _part(archive: zipfile.ZipFile, name: zipfile.ZipInfo, left: int) -> bytes:
    """One part, unless it is larger than what is left to unpack."""
    part = bytearray()
    with archive.open(name) as packed:
        while chunk := packed.read(_CHUNK):
            part += chunk
            if len(part) > left:
                raise _too_large(f"it unpacks to more than {MOST_UNPACKED / 1e6:.0f} MB")
    return bytes(part)


def _too_large(how: str) -> RosterError:
    return RosterError(
        f"this workbook is larger than a roster can be ({how}); save the sheet alone"
    )


def _older() -> RosterError:
    return RosterError("this workbook is of the older kind (.xls); save it as .xlsx")


def locked() -> RosterError:
    """What to say of a workbook that asks for a password."""
    return RosterError(
        "this workbook is locked with a password; save a copy without one, or save the sheet as CSV"
    )


def broken() -> RosterError:
    """What to say of a workbook that cannot be opened."""
    return RosterError(f"this workbook cannot be opened, it may be damaged; {_SAVE_AGAIN}")
