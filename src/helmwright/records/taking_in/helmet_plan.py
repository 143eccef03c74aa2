"""A list of helmets against those that are here: what each row would do."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NoReturn
from uuid import UUID, uuid5

from helmwright.catalogue import ZONES, ModelSheet
from helmwright.records.kinds.things import (
    HelmetAdded,
    HelmetChanged,
    HelmetFields,
    HelmetMoved,
)
from helmwright.records.meanwhile import changed_fields
from helmwright.records.taking_in.helmets_here import HelmetHere, RoomHere
from helmwright.records.taking_in.names import same_key
from helmwright.records.taking_in.plan import Line, Plan, Verdict, refused
from helmwright.records.words import us_date
from helmwright.roster import (
    CellError,
    HelmetField,
    HelmetList,
    HelmetRow,
    Remark,
    read_shell,
    stated_pads,
)

_WORDS: Mapping[str, str] = {
    "serial": "serial",
    "color": "color",
    "made_on": "made",
    "bought_on": "bought",
    "first_certified_on": "first certified",
    "recertified_on": "recertified",
    "interval_months": "recertify every, months",
    "life_years": "life, years",
    "guard": "face guard",
    "strap": "chin strap",
}
_LONGEST: Mapping[HelmetField, tuple[str, int]] = {
    HelmetField.SERIAL: ("serial", 60),
    HelmetField.COLOR: ("color", 40),
    HelmetField.GUARD: ("guard", 60),
    HelmetField.STRAP: ("strap", 60),
}


class _RowError(Exception):
    """A row that cannot be taken in."""

    def __init__(self, remark: Remark) -> None:
        super().__init__(str(remark))
        self.remark = remark


@dataclass(frozen=True, slots=True)
class HelmetTaking:
    """Everything that decides what a list of helmets does.

    Parameters
    ----------
    take_in
        Of the file; IDs of new helmets follow from it.
    room
        What is here.
    store
        Where a helmet lies whose row names no store; None where it has to.
    """

    take_in: UUID
    room: RoomHere
    store: UUID | None = None


def plan_helmets(found: HelmetList, taking: HelmetTaking) -> Plan:
    """What each row would do; pure, and the same for the same file and room."""
    return Plan(tuple(_Planning(found, taking).lines()), tuple(map(str, found.notices)))


class _Planning:
    """The rows, and what earlier ones of them have taken."""

    def __init__(self, found: HelmetList, taking: HelmetTaking) -> None:
        self.rows, self.taking = found.rows, taking
        room = taking.room
        self.here = {helmet.code: helmet for helmet in room.helmets}
        self.models = {same_key(sheet.model): digest for digest, sheet in room.sheets.items()}
        self.stores = {same_key(name): store for store, name in room.stores.items()}
        self.serials = {(each.digest, each.fields.serial): each.code for each in room.helmets}
        self.seen: dict[str, int] = {}

    def lines(self) -> Iterator[Line]:
        for row in self.rows:
            try:
                yield self._line(row)
            except _RowError as error:
                yield refused(row.row, row.code, [error.remark])

    def _line(self, row: HelmetRow) -> Line:
        if row.problems:
            return refused(row.row, row.code, row.problems)
        if row.code in self.seen:
            wrong = f"this ID stands in row {self.seen[row.code]} too"
            self._refuse(row, HelmetField.CODE, wrong, "give each helmet an ID of its own")
        self.seen[row.code] = row.row
        here = self.here.get(row.code)
        return self._added(row) if here is None else self._changed(row, here)

    def _added(self, row: HelmetRow) -> Line:
        digest = self._model(row, None)
        sheet = self.taking.room.sheets[digest]
        shell, pads = self._build(row, sheet)
        if shell is None:
            self._refuse(row, HelmetField.SHELL, "no shell", "write its number, or its name")
        store = self._store(row) or self.taking.store
        if store is None:
            known = ", ".join(self.taking.room.stores.values())
            self._refuse(row, HelmetField.STORE, "no store", f"name one of: {known}")
        fields = HelmetFields(**self._fields(row, digest))
        self._refuse_order(row, fields)
        added = HelmetAdded(
            helmet=uuid5(self.taking.take_in, row.code),
            code=row.code,
            sheet=digest,
            shell=shell,
            store=store,
            pads=pads,
            take_in=self.taking.take_in,
            **fields.model_dump(),
        )
        told = ", ".join((sheet.model, f"shell {shell}", *_told(fields), *_pads_told(pads)))
        words = f"a new helmet: {told}; in {self.taking.room.stores[store]}"
        return Line(row.row, row.code, Verdict.ADD, (words,), (added,))

    def _changed(self, row: HelmetRow, here: HelmetHere) -> Line:
        self._model(row, here)
        sheet = self.taking.room.sheets[here.digest]
        shell, _ = self._build(row, sheet)
        if shell not in (None, here.shell):
            wrong = f"{row.code} has shell {here.shell} here; a shell does not change"
            self._refuse(row, HelmetField.SHELL, wrong, "look at the helmet, and at its label")
        self._refuse_other_pads(row, here, sheet)
        store = self._store(row)
        after = here.fields.model_copy(update=self._fields(row, here.digest))
        self._refuse_order(row, after)
        said: list[HelmetChanged | HelmetMoved] = []
        words = _changes(here.fields, after)
        if after != here.fields:
            other = changed_fields(here.fields.model_dump(), after.model_dump())
            said.append(HelmetChanged(helmet=here.id, take_in=self.taking.take_in, **other))
        if store not in (None, here.store):
            stores = self.taking.room.stores
            words.append(f"store: {stores[here.store]} → {stores[store]}")
            said.append(HelmetMoved(helmet=here.id, store=store, take_in=self.taking.take_in))
        if not said:
            return Line(row.row, row.code, Verdict.SAME)
        if here.is_retired:
            self._refuse(
                row, HelmetField.CODE, "this helmet is retired", "take the row out of the file"
            )
        return Line(row.row, row.code, Verdict.CHANGE, tuple(words), tuple(said))

    def _model(self, row: HelmetRow, here: HelmetHere | None) -> str:
        """Digest of the model that a row names, or of the only one."""
        said = row.said.get(HelmetField.MODEL, "")
        found = self.models.get(same_key(said)) if said else None
        names = ", ".join(sheet.model for sheet in self.taking.room.sheets.values())
        if said and found is None:
            wrong = "no model sheet of that name is in the room"
            self._refuse(row, HelmetField.MODEL, wrong, f"there are: {names or 'none'}")
        if here is not None:
            if found not in (None, here.digest):
                model = self.taking.room.sheets[here.digest].model
                wrong = f"{row.code} is of the model {model} here"
                self._refuse(row, HelmetField.MODEL, wrong, "look at the helmet, and at its label")
            return here.digest
        if found is None and len(self.models) == 1:
            found = next(iter(self.models.values()))
        if found is None:
            self._refuse(row, HelmetField.MODEL, "no model", f"write one of: {names or 'none'}")
        return found

    def _build(self, row: HelmetRow, sheet: ModelSheet) -> tuple[int | None, dict[str, str]]:
        """Shell and pads; the shell may stand with the pads, and must then be the same."""
        column = HelmetField.SHELL
        try:
            cell = row.said.get(column, "")
            shell = int(read_shell(cell, sheet)) if cell else None
            column = HelmetField.BUILD_NOW
            beside, pads = stated_pads(row.said.get(column, ""), sheet)
        except CellError as error:
            raise _RowError(row.remark(column, error.wrong, error.right)) from error
        if None not in (shell, beside) and shell != beside:
            wrong = f"this names shell {beside}, and the column of shells {shell}"
            self._refuse(row, column, wrong, "look at the helmet")
        return shell or beside, pads

    def _refuse_other_pads(self, row: HelmetRow, here: HelmetHere, sheet: ModelSheet) -> None:
        """Pads of a helmet change with the shelf: not by a list."""
        if HelmetField.BUILD_NOW not in row.said:
            return
        delivered = {
            str(zone): pad.labels[index]
            for zone, pad, index in zip(ZONES, sheet.pads, sheet.delivered, strict=True)
        }
        if delivered | self._build(row, sheet)[1] != here.pads:
            wrong = f"other pads are in {row.code} here"
            right = "change the pads on the helmet's page, so that the shelf goes with it"
            self._refuse(row, HelmetField.BUILD_NOW, wrong, right)

    def _store(self, row: HelmetRow) -> UUID | None:
        said = row.said.get(HelmetField.STORE, "")
        found = self.stores.get(same_key(said)) if said else None
        if said and found is None:
            known = ", ".join(self.taking.room.stores.values())
            right = f"open it first, or write one of: {known}"
            self._refuse(row, HelmetField.STORE, "there is no such store", right)
        return found

    def _fields(self, row: HelmetRow, digest: str) -> dict[str, Any]:
        """What a row states; a cell that is empty states nothing."""
        fields: dict[str, Any] = dict(row.days)
        for column, (name, most) in _LONGEST.items():
            if column in row.said:
                if len(row.said[column]) > most:
                    self._refuse(row, column, f"longer than {most} letters", "shorten it")
                fields[name] = row.said[column]
        numbers = {"interval_months": row.interval_months, "life_years": row.life_years}
        fields |= {name: number for name, number in numbers.items() if number is not None}
        serial = fields.get("serial", "")
        if serial:
            other = self.serials.setdefault((digest, serial), row.code)
            if other != row.code:
                wrong = f"{other} has this serial number already"
                self._refuse(row, HelmetField.SERIAL, wrong, "look at both helmets")
        return fields

    def _refuse_order(self, row: HelmetRow, fields: HelmetFields) -> None:
        made = fields.made_on
        for name, column in (
            ("bought_on", HelmetField.BOUGHT),
            ("first_certified_on", HelmetField.FIRST_CERTIFIED),
            ("recertified_on", HelmetField.RECERTIFIED),
        ):
            day = getattr(fields, name)
            if made is not None and day is not None and day < made:
                wrong = f"this is before it was made, on {us_date(made)}"
                self._refuse(row, column, wrong, "look at the two dates")

    def _refuse(self, row: HelmetRow, column: HelmetField, wrong: str, right: str) -> NoReturn:
        raise _RowError(row.remark(column, wrong, right))


def _changes(before: HelmetFields, after: HelmetFields) -> list[str]:
    return [
        f"{word}: {_shown(getattr(before, name))} → {_shown(getattr(after, name))}"
        for name, word in _WORDS.items()
        if getattr(before, name) != getattr(after, name)
    ]


def _told(fields: HelmetFields) -> Iterator[str]:
    for name, word in _WORDS.items():
        value = getattr(fields, name)
        if value not in (None, ""):
            yield f"{word} {_shown(value)}"


def _pads_told(pads: Mapping[str, str]) -> Iterator[str]:
    yield from (f"{zone} {label}" for zone, label in pads.items())


def _shown(value: Any) -> str:
    if value in (None, ""):
        return "not known"
    return us_date(value) if hasattr(value, "year") else str(value)
