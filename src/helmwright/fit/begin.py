"""Where a search begins in a shell: near what is in the helmet now, and at what lies in others."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.neighborhood import Has, Pads, nearest
from helmwright.fit.outlook import Build

MORE = 3
"""Further helmets of the shell from which a climb begins as well."""


def begins(
    sheet: ModelSheet, near: Pads, lies: Sequence[Build], shell: int, has: Has
) -> list[Pads]:
    """The builds of a shell at which a search begins, all at hand; none where the shell is not.

    Parameters
    ----------
    sheet
        The model.
    near
        What is in the helmet now.
    lies
        What lies in helmets that may be taken, of any shell.
    shell
        In which shell.
    has
        Which builds of it are at hand.

    Notes
    -----
    Of several helmets each makes up builds around what lies in it, and a climb by single changes
    does not come from one to the other.
    """
    inside = [build.pads for build in lies if build.shell == shell]
    found = (nearest(sheet, pads, has) for pads in (near, *inside, sheet.delivered))
    first = next((pads for pads in found if pads is not None), None)
    if first is None:
        return []
    more = [pads for pads in dict.fromkeys(inside) if pads != first and has(pads)]
    return [first, *more[:MORE]]
