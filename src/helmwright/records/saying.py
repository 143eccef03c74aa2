"""How an act that a person does at the desk comes into the ledger."""

from datetime import datetime
from uuid import UUID

from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Staff


class MayNotSayError(PermissionError):
    """Somebody's role does not allow to say this."""


def say(
    payload: Payload,
    *,
    by: Staff | None,
    now: datetime,
    device: UUID | None = None,
    corrects: UUID | None = None,
    entry: UUID | None = None,
) -> Kept:
    """Keep what somebody says now; None is the program itself.

    Parameters
    ----------
    entry
        The ID, where it was made before: the same again is kept once.

    Raises
    ------
    MayNotSayError
        Where the role may not, or the person has left.
    SameIdError
        Where the ID stands in the ledger with other content.
    """
    if by is not None:
        _check(payload, by)
    return append(
        Said(
            id=entry or new_id(now),
            payload=payload,
            device_time=now,
            actor=by.id if by else None,
            device=device,
            corrects=corrects,
        ),
        now=now,
    )


def _check(payload: Payload, by: Staff) -> None:
    if not by.is_active:
        raise MayNotSayError(f'somebody who has left may not say "{payload.KIND}"')
    if by.role not in payload.ROLES:
        raise MayNotSayError(
            f'the role "{by.role}" may not say "{payload.KIND}"; one of'
            f" {', '.join(sorted(payload.ROLES))} may"
        )
