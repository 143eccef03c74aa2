"""`ledger`, `backup`, `restore` and `export`, each as a process of its own."""

import csv
import json
import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

ENVIRONMENT = {
    **{name: value for name, value in os.environ.items() if not name.startswith("HELMWRIGHT_")},
    "PYTHONPATH": os.pathsep.join([str(ROOT / "src"), str(ROOT)]),
    "PYTHONWARNINGS": "error",
}
ENVIRONMENT.pop("DJANGO_SETTINGS_MODULE", None)


def run(*words: object, room: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *map(str, words)],
        env={**ENVIRONMENT, "HELMWRIGHT_ROOM": str(room)},
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )


def helmwright(*words: object, room: Path) -> subprocess.CompletedProcess[str]:
    return run("-m", "helmwright", *words, room=room)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A room of five entries; nobody changes it."""
    room = tmp_path_factory.mktemp("made") / "room"
    done = run(ROOT / "tests" / "cli" / "room_in_a_folder.py", room=room)
    assert done.returncode == 0, done.stderr
    return room


@pytest.fixture
def room(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "room"))


def edited(room: Path, *statements: str) -> None:
    database = sqlite3.connect(room / "room.sqlite3")
    for statement in statements:
        database.execute(statement)
    database.commit()
    database.close()


def test_a_whole_ledger_says_its_head_and_what_was_compared(made: Path):
    told = helmwright("ledger", "verify", room=made)
    assert told.returncode == 0
    assert told.stderr.startswith("helmwright: reading 5 entries, ")
    first, private, rows, full = told.stdout.splitlines()
    assert first.startswith("The ledger is whole: 5 entries. Head: ")
    assert private == "Private parts that match their digests: 2; erased: 0."
    assert rows.endswith(": 4.")
    short = first.rpartition(": ")[2]
    assert full == f"Full head: {full[-64:]}"
    assert full[-64:].startswith(short.replace(" ", ""))
    again = helmwright("ledger", "verify", "--head", short, room=made)
    assert f"The head {short} is in the chain" in again.stdout


@pytest.mark.parametrize(
    ("statements", "fault"),
    [
        (["UPDATE records_player SET number = '21'"], "number is '21', and '12' by the ledger"),
        (
            [
                "DROP TRIGGER entry_never_changed",
                "UPDATE records_entry SET payload = replace(payload, '574.675', '600.0')",
            ],
            "entry 4 (reading taken) is not what was written",
        ),
    ],
)
def test_an_edited_room_ends_with_status_1_and_says_where(room, statements, fault):
    edited(room, *statements)
    told = helmwright("ledger", "verify", room=room)
    assert told.returncode == 1
    assert told.stdout == ""
    assert "the ledger is not whole" in told.stderr
    assert fault in told.stderr
    assert "restore the newest backup" in told.stderr


def test_a_head_that_is_not_in_the_chain_ends_with_status_1(made: Path):
    told = helmwright("ledger", "verify", "--head", "0000 0000", room=made)
    assert told.returncode == 1
    assert "the head 00000000 is not in the chain" in told.stderr


def test_what_is_no_head_is_told(made: Path):
    told = helmwright("ledger", "verify", "--head", "entry 5", room=made)
    assert told.returncode == 2
    assert '--head: "entry 5" is no head of a ledger' in told.stderr


def test_the_list_shows_who_said_what_and_no_private_part(made: Path):
    told = helmwright("ledger", "show", "--since", "3", room=made)
    assert told.returncode == 0
    lines = told.stdout.splitlines()
    assert [line[:6].strip() for line in lines[::2]][:2] == ["3", "4"]
    assert "player added, by desk" in lines[0]
    assert lines[-1].strip() == "set aside: This team was opened before under another name."
    assert "Avocet" not in told.stdout


def test_a_backup_is_restored_into_a_new_folder_with_the_same_head(room: Path, tmp_path: Path):
    file, new = tmp_path / "room.zip", tmp_path / "new"
    (room / "time-zone").write_text("Pacific/Auckland\n", encoding="ascii")
    kept = helmwright("backup", file, room=room)
    assert kept.returncode == 0, kept.stderr
    assert "Head: entry 5, " in kept.stdout
    head = kept.stdout.strip().rpartition(", ")[2]
    restored = helmwright("restore", file, "--into", new, room=tmp_path / "another")
    assert restored.returncode == 0, restored.stderr
    assert restored.stdout.strip().endswith(f"Head: entry 5, {head}")
    assert {each.name for each in new.iterdir()} == {"room.sqlite3", "secret-key", "time-zone"}
    assert (new / "time-zone").read_text(encoding="ascii") == "Pacific/Auckland\n"
    assert not (tmp_path / "another").exists()
    verified = helmwright("ledger", "verify", "--head", head, room=new)
    assert verified.returncode == 0, verified.stderr
    again = helmwright("restore", file, "--into", new, room=room)
    assert again.returncode == 2
    assert "is not empty" in again.stderr
    assert helmwright("backup", file, room=room).returncode == 2


def test_a_damaged_backup_leaves_no_folder(room: Path, tmp_path: Path):
    file, new = tmp_path / "room.zip", tmp_path / "new"
    helmwright("backup", file, room=room)
    whole = bytearray(file.read_bytes())
    whole[len(whole) // 3] ^= 0xFF
    file.write_bytes(whole)
    told = helmwright("restore", file, "--into", new, room=room)
    assert told.returncode == 2
    assert "Nothing was restored" in told.stderr
    assert {each.name for each in tmp_path.iterdir()} == {"room", "room.zip"}


def test_an_export_is_plain_tables_the_ledger_and_the_head(made: Path, tmp_path: Path):
    told = helmwright("export", tmp_path / "out", room=made)
    assert told.returncode == 0, told.stderr
    out = tmp_path / "out"
    with (out / "reading.csv").open(encoding="utf-8", newline="") as file:
        (reading,) = csv.DictReader(file)
    assert (reading["player"], reading["value_in"], reading["value_mm"]) == (
        "Avocet Brookside", "22.625", "574.675",
    )  # fmt: skip
    assert (out / "team.csv").read_text(encoding="utf-8").endswith(",'=Kingfishers\n")
    assert "password" not in (out / "staff.csv").read_text(encoding="utf-8")
    lines = (out / "ledger.jsonl").read_text(encoding="utf-8").splitlines()
    entries = [json.loads(line) for line in lines]
    assert [entry["seq"] for entry in entries] == [1, 2, 3, 4, 5]
    assert json.loads(entries[2]["private"]["body"])["name"] == "Avocet Brookside"
    assert (out / "head.txt").read_text(encoding="utf-8").splitlines()[:2] == [
        "entry 5", entries[-1]["digest"],
    ]  # fmt: skip
    assert helmwright("export", out, room=made).returncode == 2


@pytest.mark.parametrize("words", [["ledger", "verify"], ["backup", "a.zip"], ["export", "out"]])
def test_where_there_is_no_room_nothing_is_made(tmp_path: Path, words: list[str]):
    told = helmwright(*words, "--room", tmp_path / "nowhere", room=tmp_path / "nowhere")
    assert told.returncode == 2
    assert "no room in" in told.stderr
    assert list(tmp_path.iterdir()) == []
