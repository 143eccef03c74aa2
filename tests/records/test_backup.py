"""A backup holds the room of one moment, and gives it back whole or not at all."""

import hashlib
import json
import stat
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event
from uuid import UUID, uuid4

import pytest
from django.core.management import call_command
from django.db import connection

from helmwright.records.backup import TakenNameError, back_up
from helmwright.records.contents import contents, first_difference
from helmwright.records.head import Head, head
from helmwright.records.ids import new_id
from helmwright.records.kinds import things
from helmwright.records.kinds.people import PersonErased, PlayerAdded, StaffJoined
from helmwright.records.ledger import Said, append
from helmwright.records.manifest import MANIFEST, DamagedError
from helmwright.records.models import Entry, Movement, Player, Private, Role, Staff
from helmwright.records.replay import empty_tables
from helmwright.records.restore import NotEmptyError, check_file, restore
from helmwright.records.verify import verify
from tests.records.entries import NOW
from tests.records.room import DIGEST, Room


def used_room() -> Room:
    """People, helmets, stock; one erased; a password."""
    room = Room()
    player, gone, staff = uuid4(), uuid4(), uuid4()
    room.taken(StaffJoined(staff=staff, username="desk", name="Tern", role=Role.MANAGER))
    Staff.objects.update(password="secret digest", pin="another")  # noqa: S106 - no password
    for each, name in ((player, "Avocet Brookside"), (gone, "Plover Ridge")):
        room.taken(PlayerAdded(player=each, team=room.team, name=name, weight_kg=91.1))
    helmet = room.helmet()
    room.taken(
        things.PartsMoved(
            sheet=DIGEST, place="crown", size="5/8 in", quantity=4, to_store=room.store,
            why="received",
        )
    )  # fmt: skip
    room.taken(
        things.PartsChanged(helmet=helmet, store=room.store, pads={"crown": "5/8 in"}, why="low")
    )
    room.taken(PersonErased(player=gone))
    return room


def backed_up(folder: Path) -> Path:
    file = folder / "room.zip"
    back_up(file, release="0", now=NOW)
    return file


def emptied() -> None:
    call_command("flush", interactive=False, verbosity=0)
    assert not Entry.objects.exists()


@pytest.mark.django_db(transaction=True)
def test_an_emptied_room_is_as_it_was_after_a_restore_and_goes_on(tmp_path: Path):
    room = used_room()
    before, was = head(), contents()
    kept = list(Entry.objects.values()), list(Private.objects.order_by("pk").values())
    passwords = list(Staff.objects.values("password", "pin"))
    file = backed_up(tmp_path)
    emptied()
    restored = restore(file)
    assert restored.head == head() == before
    assert first_difference(contents(), was) == ""
    assert contents() == was
    assert (list(Entry.objects.values()), list(Private.objects.order_by("pk").values())) == kept
    assert list(Staff.objects.values("password", "pin")) == passwords
    last = Movement.objects.latest("pk").pk
    moved = things.PartsMoved(
        sheet=DIGEST, place="front", size="7/8 in", quantity=1, to_store=room.store, why="received"
    )
    room.taken(moved)
    assert Movement.objects.latest("pk").pk > last
    assert verify().is_whole


@pytest.mark.django_db(transaction=True)
def test_a_backup_of_either_database_is_restored_into_the_other(tmp_path: Path):
    used_room()
    before, was = head(), contents()
    file = backed_up(tmp_path)
    with empty_tables():
        assert connection.vendor == "sqlite"
        restore(file)
        assert (head(), contents()) == (before, was)
        (tmp_path / "again").mkdir()
        again = backed_up(tmp_path / "again")
    emptied()
    restore(again)
    assert (head(), contents()) == (before, was)


@pytest.mark.django_db(transaction=True)
def test_what_was_acknowledged_before_a_backup_began_is_in_it_while_others_write(tmp_path: Path):
    room = used_room()
    acknowledged: list[UUID] = []
    going, stop = Event(), Event()

    def write(station: int) -> None:
        try:
            while not stop.is_set():
                said = Said(
                    new_id(NOW),
                    PlayerAdded(player=uuid4(), team=room.team, name=f"Avocet {station}"),
                    NOW,
                )
                acknowledged.append(append(said, now=NOW).entry.id)
                if len(acknowledged) > 30:
                    going.set()
        finally:
            connection.close()

    with ThreadPoolExecutor(4) as pool:
        writing = [pool.submit(write, station) for station in range(4)]
        assert going.wait(60)
        before = set(acknowledged)
        made = back_up(tmp_path / "room.zip", release="0", now=NOW)
        stop.set()
        for done in writing:
            done.result()
    assert Entry.objects.count() > made.head.seq
    with empty_tables():
        assert restore(tmp_path / "room.zip").head == made.head == head()
        there = set(Entry.objects.values_list("id", flat=True))
        assert before <= there
        assert len(there) == made.head.seq


@pytest.mark.django_db
def test_a_backup_is_its_owners_alone_and_takes_no_other_files_place(tmp_path: Path):
    used_room()
    file = backed_up(tmp_path)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    was = file.read_bytes()
    with pytest.raises(TakenNameError, match="left as it is"):
        back_up(file, release="0", now=NOW)
    assert file.read_bytes() == was
    assert [each.name for each in tmp_path.iterdir()] == ["room.zip"]


@pytest.mark.django_db
def test_a_backup_that_was_broken_off_leaves_nothing(tmp_path: Path, monkeypatch):
    used_room()

    def breaks(_row: object) -> str:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("helmwright.records.backup.line_of", breaks)
    with pytest.raises(OSError, match="No space"):
        backed_up(tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.django_db
def test_a_room_in_use_is_not_restored_over(tmp_path: Path):
    used_room()
    before = contents()
    with pytest.raises(NotEmptyError):
        restore(backed_up(tmp_path))
    assert contents() == before


def changed(file: Path, name: str, old: bytes, new: bytes, *, right_digest: bool) -> None:
    """The backup with one of its files edited; with its digest made right, or not."""
    with zipfile.ZipFile(file) as archive:
        parts = {each: archive.read(each) for each in archive.namelist()}
    assert old in parts[name]
    parts[name] = parts[name].replace(old, new, 1)
    if right_digest:
        manifest = json.loads(parts[MANIFEST])
        manifest["files"][name]["sha256"] = hashlib.sha256(parts[name]).hexdigest()
        parts[MANIFEST] = json.dumps(manifest).encode()
    with zipfile.ZipFile(file, "w") as archive:
        for each, content in parts.items():
            archive.writestr(each, content)


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("name", "old", "new", "right_digest", "told"),
    [
        ("tables/Entry.jsonl", b'"kind": "team', b'"kind": "tear', False, "is not what was"),
        ("tables/Entry.jsonl", b"Kingfishers", b"Kingflowers", True, "entry 1 (team opened)"),
        ("tables/Player.jsonl", b"Avocet", b"Osprey", True, "table Player"),
        ("tables/Private.jsonl", b"Avocet", b"Osprey", True, "the private part of entry"),
        ("tables/Helmet.jsonl", b'"color"', b'"paint"', True, "has no column paint"),
        ("tables/Helmet.jsonl", b"{", b"[", True, "Expecting"),
        ("tables/Helmet.jsonl", b'"shell": 3', b'"shell": "x"', True, "cannot be read"),
        (MANIFEST, b'"seq": 11', b'"seq": 10', False, "the chain ends at entry 11"),
        (MANIFEST, b"backup 1", b"backup 9", False, "no backup of this release's kind"),
        (MANIFEST, b"{", b"(", False, "holds no manifest"),
    ],
)
def test_a_backup_that_was_edited_is_refused(tmp_path, name, old, new, right_digest, told):
    used_room()
    file = backed_up(tmp_path)
    changed(file, name, old, new, right_digest=right_digest)
    with empty_tables():
        with pytest.raises(DamagedError) as refusal:
            restore(file)
        assert told in str(refusal.value)
        assert not Entry.objects.exists()
        assert not Player.objects.exists()


@pytest.mark.django_db
@pytest.mark.parametrize("part", [0.1, 0.5, 0.999])
def test_a_file_that_was_cut_short_is_refused(tmp_path: Path, part: float):
    used_room()
    file = backed_up(tmp_path)
    whole = file.read_bytes()
    file.write_bytes(whole[: int(len(whole) * part)])
    with pytest.raises(DamagedError, match="no backup that can be read"):
        check_file(file)


@pytest.mark.django_db
def test_any_byte_that_is_turned_over_is_noticed_or_means_nothing(tmp_path: Path):
    used_room()
    file = backed_up(tmp_path)
    whole, told = file.read_bytes(), check_file(file)
    assert told == head()
    noticed = 0
    for place in range(0, len(whole), 97):
        damaged = bytearray(whole)
        damaged[place] ^= 0x55
        file.write_bytes(damaged)
        try:
            assert check_file(file) == told
        except DamagedError:
            noticed += 1
    # What goes unnoticed stands in the archive's own directory: dates, and whose system it was.
    assert noticed > 0.8 * len(range(0, len(whole), 97))


def test_a_head_is_told_short():
    assert str(Head(412, "017f22e2" + "0" * 56)) == "entry 412, 017f 22e2"
