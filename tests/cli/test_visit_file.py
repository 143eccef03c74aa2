"""The file of a visit: whole lines or none, one program at a time, nothing overwritten."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import Reading
from helmwright.catalogue import load_packaged
from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_file import Begun, VisitFile, open_visit, refuse_another
from helmwright.cli.visit_whose import Sought, file_stem
from helmwright.fit.outlook import Build
from helmwright.visit.event import (
    Accepted,
    Answered,
    Event,
    Paused,
    Proposed,
    PutOn,
    Started,
    SymptomReported,
    Undone,
)

SHEET = load_packaged("ouzel")
BUILD = Build(3, SHEET.delivered)
BEGUN = Begun("Avocet Brookside", SHEET, "a sheet", "a protocol")
STARTED = Started("Avocet Brookside", (), {}, None, "a sheet", BUILD)
PROPOSED = Proposed(BUILD, 0.5625, 0.5, 4.25, "It is in the helmet — now.", 301.5)
EVENTS: tuple[Event, ...] = (STARTED, PROPOSED, PutOn(BUILD), Answered("brow", "low", 12.7))
NOON = datetime(2026, 8, 3, 12, 0, tzinfo=UTC)


AVOCET = Sought("12-avocet", "Avocet Brookside")


def opened(folder: Path, begun: Begun = BEGUN, sought: Sought = AVOCET) -> VisitFile:
    return open_visit(folder, sought, begun, lambda: NOON)


def kept(folder: Path, *events: Event) -> Path:
    """A closed file with these events."""
    file = opened(folder)
    for event in events:
        file.append(event)
    file.close()
    return file.path


def test_what_was_kept_is_read_again_to_the_last_digit(tmp_path):
    path = kept(tmp_path, *EVENTS)
    file = opened(tmp_path)
    assert (file.path, file.events, file.cut) == (path, EVENTS, 0)
    file.close()


def test_every_line_is_an_object_with_its_number_the_time_and_the_event(tmp_path):
    lines = kept(tmp_path, *EVENTS).read_text("utf-8").splitlines()
    found = [json.loads(line) for line in lines]
    assert [each["line"] for each in found] == [1, 2, 3, 4]
    assert {each["at"] for each in found} == {"2026-08-03T12:00:00+00:00"}
    assert [each["event"] for each in found] == ["started", "proposed", "put on", "answered"]


def test_an_event_is_on_the_disk_before_it_is_in_the_list(tmp_path, monkeypatch):
    file = opened(tmp_path)
    seen = []
    monkeypatch.setattr(os, "fsync", lambda _: seen.append((len(file.events), size(file))))
    file.append(STARTED)
    first = size(file)
    file.append(*EVENTS[1:])
    file.close()
    assert seen == [(0, first), (1, size(file))]


def size(file: VisitFile) -> int:
    return file.path.stat().st_size


def test_cut_at_any_byte_of_the_last_line_only_the_last_event_is_lost(tmp_path):
    content = kept(tmp_path, *EVENTS).read_bytes()
    last = content.rindex(b"\n", 0, -1) + 1
    for end in range(last, len(content) + 1):
        (tmp_path / "12-avocet.jsonl").write_bytes(content[:end])
        file = opened(tmp_path)
        whole = end >= len(content) - 1
        assert file.events == (EVENTS if whole else EVENTS[:-1])
        assert file.cut == (0 if whole else end - last)
        if not whole:
            file.append(EVENTS[-1])
        file.close()
        assert file.path.read_bytes() == content


def test_cut_in_its_first_line_the_visit_begins_anew(tmp_path):
    content = kept(tmp_path, STARTED).read_bytes()
    for end in (0, 1, len(content) // 2, len(content) - 2):
        (tmp_path / "12-avocet.jsonl").write_bytes(content[:end])
        file = opened(tmp_path)
        assert file.events == ()
        file.append(STARTED)
        file.close()
        assert file.path.read_bytes() == content


@pytest.mark.parametrize(
    ("line", "old", "new", "told"),
    [
        (2, '{"line": 2,', '"line": 2,', "line 2, cannot be read: it is no JSON object"),
        (2, '{"line": 2,', '\udcff{"line": 2,', "line 2, cannot be read: it is no JSON object"),
        (3, '"line": 3', '"line": 5', 'line 3, cannot be read: its "line" is not 3'),
        (4, '"answered"', '"danced"', "line 4, cannot be read: "),
        (4, '"word"', '"wort"', "line 4, cannot be read: "),
        (1, '"visit": 1', '"visit": 9', "line 1, cannot be read: it does not begin a visit"),
        (1, '"visit": 1, ', "", "line 1, cannot be read: it does not begin a visit"),
        (3, '"7/8 in"', '"9/8 in"', "line 3, cannot be read: "),
    ],
)
def test_a_line_that_cannot_be_read_is_named_and_the_file_left_alone(
    tmp_path, line, old, new, told
):
    path = kept(tmp_path, *EVENTS)
    lines = path.read_text("utf-8").splitlines(keepends=True)
    assert old in lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new, 1)
    spoiled = "".join(lines).encode("utf-8", errors="surrogateescape")
    path.write_bytes(spoiled)
    with pytest.raises(NothingRan) as wrong:
        opened(tmp_path)
    assert told in str(wrong.value)
    assert "left as it was; put the line right, or move it away" in str(wrong.value)
    assert path.read_bytes() == spoiled
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(
    ("begun", "what"),
    [
        (Begun("Avocet Brookside", SHEET, "other", "a protocol"), "another model sheet"),
        (Begun("Avocet Brookside", SHEET, "a sheet", "other"), "another protocol"),
    ],
)
def test_an_unfinished_visit_is_not_gone_on_with_on_another_sheet_or_protocol(
    tmp_path, begun, what
):
    content = kept(tmp_path, *EVENTS).read_bytes()
    with pytest.raises(NothingRan) as wrong:
        opened(tmp_path, begun)
    assert what in str(wrong.value)
    assert "move the file away to begin anew" in str(wrong.value)
    assert (tmp_path / "12-avocet.jsonl").read_bytes() == content


@pytest.mark.parametrize("end", [Accepted(BUILD), SymptomReported("dizzy")])
def test_a_finished_visit_is_kept_and_the_next_one_is_numbered(tmp_path, end):
    path = kept(tmp_path, *EVENTS, end)
    content = path.read_bytes()
    other_sheet = Begun("Avocet Brookside", SHEET, "other", "a protocol")
    file = opened(tmp_path, other_sheet)
    assert (file.path.name, file.events) == ("12-avocet-visit-2.jsonl", ())
    file.append(STARTED, end)
    file.close()
    third = opened(tmp_path)
    third.close()
    assert third.path.name == "12-avocet-visit-3.jsonl"
    assert path.read_bytes() == content


@pytest.mark.parametrize("after", [(Undone(),), (Paused(),), (Undone(), PutOn(BUILD))])
def test_an_end_that_was_taken_back_is_none(tmp_path, after):
    path = kept(tmp_path, *EVENTS, Accepted(BUILD), *after)
    file = opened(tmp_path)
    assert file.path == path
    assert file.events[-len(after) :] == after
    file.close()


def test_a_second_program_on_the_same_visit_is_refused_until_the_first_lets_go(tmp_path):
    file = opened(tmp_path)
    file.append(STARTED)
    with pytest.raises(NothingRan, match="open in another window"):
        opened(tmp_path)
    another = opened(tmp_path, sought=Sought("7-teal", "Teal Marsh"))
    another.close()
    file.close()
    opened(tmp_path).close()


def test_the_lock_of_a_program_that_was_killed_is_gone(tmp_path):
    code = (
        "import sys, time; from pathlib import Path\n"
        "from tests.cli.test_visit_file import STARTED, opened\n"
        "file = opened(Path(sys.argv[1])); file.append(STARTED); print('open', flush=True)\n"
        "time.sleep(60)\n"
    )
    root = Path(__file__).parents[2]
    with subprocess.Popen(
        [sys.executable, "-c", code, str(tmp_path)],
        stdout=subprocess.PIPE,
        cwd=root,
        env=os.environ | {"PYTHONPATH": f"{root / 'src'}{os.pathsep}{root}"},
    ) as holder:
        assert holder.stdout is not None
        try:
            assert holder.stdout.readline().strip() == b"open"
            with pytest.raises(NothingRan, match="open in another window"):
                opened(tmp_path)
        finally:
            holder.kill()
    file = opened(tmp_path)
    assert file.events == (STARTED,)
    file.close()


def test_a_disk_without_room_leaves_the_file_as_it_was(tmp_path, monkeypatch):
    path = kept(tmp_path, STARTED)
    content = path.read_bytes()
    file = opened(tmp_path)
    real = os.write
    monkeypatch.setattr(
        os, "write", lambda fd, data: real(fd, data[:9]) if len(data) > 99 else no()
    )

    def no():
        raise OSError(28, "No space left on device")

    with pytest.raises(NothingRan, match="no space left on device; make room"):
        file.append(PROPOSED)
    file.close()
    assert file.events == (STARTED,)
    assert path.read_bytes() == content


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "visits").write_text("a file")
    with pytest.raises(NothingRan, match="cannot write"):
        opened(tmp_path / "visits")


@pytest.mark.skipif(os.name != "posix", reason="only POSIX has these modes")
def test_only_its_owner_reads_a_visit(tmp_path):
    path = kept(tmp_path / "visits", STARTED)
    assert path.stat().st_mode & 0o077 == 0
    assert path.parent.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(
    ("name", "number", "row", "stem"),
    [
        ("Avocet Brookside", "12", 0, "12-avocet-brookside"),
        ("Avocet Brookside", "12", 6, "12-avocet-brookside-row-6"),
        ("O'Teal, Étienne", "", 0, "o-teal-étienne"),
        ("", "", 9, "row-9"),
        ("../../etc/passwd", "", 0, "etc-passwd"),
        ("con", "", 0, "con-player"),
        ("...", "", 0, "player"),
    ],
)
def test_a_file_is_called_by_number_and_name(name, number, row, stem):
    assert file_stem(name, number, row) == stem


@given(st.text(), st.text(max_size=5))
def test_no_name_leads_out_of_the_folder(name, number):
    stem = file_stem(name, number)
    assert stem
    assert Path(stem).name == stem
    assert not set(stem) & set('./\\:*?"<>|\0\n')


def test_a_finished_visit_may_still_be_open_where_its_end_is_read(tmp_path):
    reading = opened(tmp_path)
    reading.append(STARTED)
    reading.append(SymptomReported("neck pain"))
    fresh = opened(tmp_path)
    assert fresh.path != reading.path
    (earlier,) = fresh.earlier
    assert (earlier.path, earlier.end) == (reading.path, "symptom reported")
    assert earlier.for_symptom
    reading.append(Undone())
    assert reading.path.read_text("utf-8").count("\n") == 3
    fresh.close()
    reading.close()


def test_a_line_that_nests_too_deep_is_named_like_any_other(tmp_path):
    path = kept(tmp_path, STARTED)
    path.write_bytes(path.read_bytes() + b"[" * 50_000 + b"\n")
    with pytest.raises(NothingRan, match="line 2, cannot be read"):
        opened(tmp_path)


def test_without_a_name_nobody_goes_on_with_a_visit_of_other_readings(tmp_path):
    file = opened(tmp_path)
    file.append(STARTED)
    other = replace(STARTED, readings=(Reading("head_length", 196.0),))
    refuse_another(file, STARTED, is_named=False)
    refuse_another(file, other, is_named=True)
    with pytest.raises(NothingRan, match=r"other readings, .* Give the player a name"):
        refuse_another(file, other, is_named=False)
    file.close()
