"""IDs of entries against the published layout of UUIDs that begin with their time."""

from datetime import UTC, datetime, timedelta, timezone
from uuid import UUID

import pytest

from helmwright.records.ids import NotByTimeError, new_id, time_of

EXAMPLE = UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")
ITS_TIME = datetime(2022, 2, 22, 14, 22, 22, tzinfo=timezone(timedelta(hours=-5)))


@pytest.mark.outside("rfc_9562")
def test_the_published_example_tells_its_time():
    assert time_of(EXAMPLE) == ITS_TIME
    assert time_of(EXAMPLE).timestamp() * 1000 == 0x17F22E279B0


@pytest.mark.outside("rfc_9562")
def test_a_new_id_of_that_time_has_the_published_layout():
    made = new_id(ITS_TIME)
    assert made.int >> 80 == EXAMPLE.int >> 80 == 0x17F22E279B0
    assert made.int >> 76 & 0xF == 7
    assert made.int >> 62 & 0b11 == 0b10
    assert made != EXAMPLE


@pytest.mark.outside("rfc_9562")
def test_what_is_no_time_is_random():
    bits = [new_id(ITS_TIME).int for _ in range(400)]
    ones = [sum(value >> place & 1 for value in bits) for place in range(80)]
    fixed = {*range(76, 80), 62, 63}
    assert all(ones[place] in (0, 400) for place in fixed)
    # Half of 400 draws, give or take six times the spread of ten; a counter may fill the top bits.
    assert all(140 <= ones[place] <= 260 for place in range(62))


def _as_written(version: str) -> UUID:
    return UUID(f"017f22e2-79b0-{version}cc3-98c4-dc0c0c07398f")


@pytest.mark.outside("rfc_9562")
@pytest.mark.parametrize("version", ["1", "4", "6", "8"])
def test_another_version_tells_no_time(version: str):
    with pytest.raises(NotByTimeError):
        time_of(_as_written(version))


@pytest.mark.outside("rfc_9562")
def test_ids_of_later_milliseconds_sort_after_earlier_ones():
    start = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
    made = [new_id(start + timedelta(milliseconds=step)) for step in range(50)]
    assert made == sorted(made)
