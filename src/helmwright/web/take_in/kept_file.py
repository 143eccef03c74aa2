"""The file between its preview and its taking in: it stays in the form, and nowhere else."""

import binascii
from base64 import urlsafe_b64decode, urlsafe_b64encode
from uuid import UUID

from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest
from django.utils import timezone

from helmwright.records.ids import new_id
from helmwright.records.taking_in.upload import MOST_BYTES, ROLES, Upload
from helmwright.roster import RosterError

ROW = "row-"


def upload_of(request: HttpRequest) -> Upload:
    """The file that was chosen, or the one that the form carries, with every choice.

    Raises
    ------
    RosterError
        Where there is no file, or a choice that no form offers.
    """
    said = request.POST
    what = said.get("what", "roster")
    if what not in ROLES:
        raise RosterError("choose a roster, helmets or a stock list")
    name, data = _file(request)
    how = said.get("how", "counted")
    return Upload(
        take_in=_uuid(said.get("take_in", "")) or new_id(timezone.now()),
        what=what,
        file_name=name,
        data=data,
        team=_uuid(said.get("team", "")),
        store=_uuid(said.get("store", "")),
        sheet=said.get("sheet", ""),
        how=how if how in ("counted", "received") else "counted",
        answers={
            int(name.removeprefix(ROW)): str(answer)
            for name, answer in said.items()
            if name.startswith(ROW) and name.removeprefix(ROW).isdecimal() and answer
        },
    )


def carried(data: bytes) -> str:
    """The file as the form carries it."""
    return urlsafe_b64encode(data).decode()


def _file(request: HttpRequest) -> tuple[str, bytes]:
    chosen = request.FILES.get("file")
    if isinstance(chosen, UploadedFile):
        if (chosen.size or 0) > MOST_BYTES:
            raise RosterError(
                f"this file is larger than {MOST_BYTES / 1e6:g} MB; save the one sheet alone"
            )
        return chosen.name or "", chosen.read()
    kept = request.POST.get("kept", "")
    if not kept:
        raise RosterError("no file was chosen; choose one and read it")
    try:
        return request.POST.get("file_name", "")[:120], urlsafe_b64decode(kept)
    except (binascii.Error, ValueError) as error:
        raise RosterError("the file did not come through whole; choose it again") from error


def _uuid(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None
