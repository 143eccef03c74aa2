"""How far this process has checked the chain: every page may ask, so only what is new is read."""

from dataclasses import dataclass
from uuid import UUID

from helmwright.records.chain import COVERED, GENESIS, digest_of
from helmwright.records.models import Entry

AT_ONCE = 2_000
"""Entries that one question reads at most; the rest is for the next."""


@dataclass(frozen=True, slots=True)
class Checked:
    """How far the chain was checked.

    Parameters
    ----------
    seq, digest
        The last entry that holds; 0 before the first.
    last
        The last entry that there is.
    fault
        What is wrong with the next one; empty while all that was read holds.
    """

    seq: int = 0
    digest: str = GENESIS
    last: int = 0
    fault: str = ""

    @property
    def is_whole(self) -> bool:
        """Whether every entry was read and holds."""
        return not self.fault and self.seq == self.last


_KNOWN: dict[UUID, Checked] = {}
"""By the first entry's ID: one process serves one room, and a test many."""


def chain_checked() -> Checked:
    """Read on from where the last question ended.

    Notes
    -----
    The tables are not compared and the private parts not looked at: `ledger verify` does that. An
    entry that was changed after this process read it shows at the next start, or to `verify`.
    """
    first = Entry.objects.order_by("seq").values_list("id", flat=True).first()
    if first is None:
        return Checked()
    known = _KNOWN.get(first, Checked())
    if not known.fault:
        known = _read_on(known)
        _KNOWN[first] = known
    return known


def _read_on(known: Checked) -> Checked:
    last = Entry.objects.order_by("-seq").values_list("seq", flat=True).first() or 0
    if last < known.seq:
        fault = f"entries after {last} are gone, and there were {known.seq}"
        return Checked(known.seq, known.digest, last, fault)
    seq, digest = known.seq, known.digest
    for entry in Entry.objects.filter(seq__gt=seq).order_by("seq")[:AT_ONCE]:
        fault = _fault(entry, seq, digest)
        if fault:
            return Checked(seq, digest, last, fault)
        seq, digest = entry.seq, entry.digest
    return Checked(seq, digest, max(last, seq), "")


def _fault(entry: Entry, before: int, digest: str) -> str:
    if entry.seq != before + 1:
        return f"entry {before + 1} is missing"
    if entry.previous != digest:
        return f"entry {entry.seq} does not follow the one before it"
    if digest_of({name: getattr(entry, name) for name in COVERED}) != entry.digest:
        return f"entry {entry.seq} is not what was written"
    return ""
