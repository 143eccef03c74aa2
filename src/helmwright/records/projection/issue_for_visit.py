"""Where a visit's helmet is issued: the one that was fitted, with what was accepted, and signed."""

from helmwright.records.models import Entry, Helmet, Player, Visit
from helmwright.records.projection.builds import pads_of, refuse_unlisted, set_build
from helmwright.records.readers.acknowledged import acknowledgment_of
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import sheet_of


def refuse_for_visit(visit: Visit, player: Player, helmet: Helmet) -> None:
    """Set aside what is not the helmet of this player's accepted visit.

    Where nobody named the helmet that was on the head, it is one of the build's shell and model.
    """
    if visit.player_id != player.id:
        raise SetAsideError("That visit is another player's; issue it from this player's own.")
    if visit.state != "accepted":
        raise SetAsideError("The fit is not accepted yet; finish the visit, then issue the helmet.")
    if visit.helmet_id is None:
        _refuse_unlike(visit, helmet)
    elif visit.helmet_id != helmet.id:
        raise SetAsideError(f"{helmet.code} is not the helmet of that visit; look at the label.")


def issue_for_visit(entry: Entry, visit: Visit, helmet: Helmet, *, holds_build: bool) -> None:
    """It is the visit's, and what is recorded in it is what was accepted.

    Raises
    ------
    SetAsideError
        Where other pads are recorded in it and nobody said that the accepted ones are in it; and
        where nobody signed since the fit was accepted.
    """
    pads = {zone: pad["pad"] for zone, pad in (visit.build or {}).get("pads", {}).items()}
    refuse_unlisted(sheet_of(helmet.sheet), pads)
    recorded = pads_of(helmet)
    others = [zone for zone, pad in pads.items() if recorded[zone] != pad]
    if others and not holds_build:
        wanted = ", ".join(f"{zone} {pads[zone]}" for zone in others)
        found = ", ".join(f"{zone} {recorded[zone]}" for zone in others)
        raise SetAsideError(
            f"The accepted build has {wanted}; recorded in {helmet.code} is {found}. Look into it,"
            " put in what was accepted, and say that it is in it."
        )
    if acknowledgment_of(visit, helmet) is None:
        raise SetAsideError(
            f"Nobody has signed for {helmet.code} since its fit was accepted. Read the warning"
            " aloud, have both sign again, then issue it."
        )
    visit.helmet = helmet
    visit.save(update_fields=["helmet"])
    set_build(entry, helmet, pads, visit.store)


def _refuse_unlike(visit: Visit, helmet: Helmet) -> None:
    if helmet.sheet.model != visit.sheet.model:
        raise SetAsideError(
            f"{helmet.code} is of the model {helmet.sheet.model}, and the fit was of"
            f" {visit.sheet.model}. Look at the label of the helmet that was on the head."
        )
    shell = (visit.build or {}).get("shell", helmet.shell)
    if helmet.shell != shell:
        raise SetAsideError(
            f"{helmet.code} is of shell {helmet.shell}, and the accepted build of shell {shell}."
            " Look at the label of the helmet that was on the head."
        )
