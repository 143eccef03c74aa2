"""The program fails at one entry: the others of the batch are kept, and it may come again."""

import logging

import pytest

from helmwright.records.ledger import append
from helmwright.records.models import Entry, Role
from helmwright.web.station import entries
from tests.records.entries import a_member, a_player
from tests.records.fitting import room_team
from tests.records.room import DIGEST, Room
from tests.web.at_a_station import Station

pytestmark = pytest.mark.django_db


def test_one_entry_that_fails_holds_up_its_own_player_and_nobody_else(monkeypatch, caplog):
    room = Room()
    team = room_team(room)
    avocet, ibis = (
        a_player(team, name=n, number=m).id for n, m in (("Avocet", "1"), ("Ibis", "2"))
    )
    station = Station(a_member(Role.FITTER, "ibis", "Ibis Fen"), avocet, room.store, DIGEST)
    batch = [
        station.entry("player wears", {"player": str(who), "worn": worn, "glasses": False})
        for who, worn in ((avocet, []), (ibis, []), (avocet, ["skull cap"]), (ibis, []))
    ]

    def broken(said, *, now):
        if str(said.id) == batch[0]["id"]:
            raise RuntimeError("a broken projector")
        return append(said, now=now)

    with monkeypatch.context() as patch, caplog.at_level(logging.ERROR):
        patch.setattr(entries, "append", broken)
        told = station.send(*batch)
    assert [each["id"] for each in told["kept"]] == [batch[1]["id"], batch[3]["id"]]
    assert [each["id"] for each in told["stuck"]] == [batch[0]["id"], batch[2]["id"]]
    assert all(each["what"] and "Tell the manager" in each["right"] for each in told["stuck"])
    assert told["refused"] == []
    assert "a broken projector" in caplog.text
    assert "Traceback" in caplog.text
    again = station.send(batch[0], batch[2])
    assert [each["outcome"] for each in again["kept"]] == ["taken", "taken"]
    assert Entry.objects.filter(id__in=[each["id"] for each in batch]).count() == 4
