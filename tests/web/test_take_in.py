"""Files in at the desk: shown row by row, then done as shown or not at all, and undone."""

import io
import json
import re
import zipfile
from datetime import UTC, datetime
from uuid import uuid4

import pytest
from asgiref.sync import async_to_sync
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from helmwright.records.contents import contents
from helmwright.records.ids import new_id
from helmwright.records.kinds.people import PlayerAdded, PlayerChanged
from helmwright.records.models import Entry, Helmet, Player, Role, Staff, TakeIn
from helmwright.records.saying import say
from helmwright.records.taking_in.upload import MOST_BYTES
from helmwright.roster import read_helmets, read_roster_file, read_stock_rows
from tests.records.entries import a_member
from tests.records.room import DIGEST, SHEET, Room

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"
ROSTER = "No.,Player,Pos,Tape (in)\n7,Wren Siltbank,QB,22 3/8\n22,Alder Riffleton,RB,221/8\n"
HIDDEN = re.compile(r'<input type="hidden" name="(\w+)" value="([^"]*)"')


@pytest.fixture
def room():
    return Room()


@pytest.fixture
def manager():
    return a_member(Role.MANAGER)


def client_of(member: Staff) -> Client:
    client = Client()
    client.force_login(member, BACKEND)
    return client


@pytest.fixture
def client(manager):
    return client_of(manager)


def shown(client, room, text=ROSTER, what="roster", name="kingfishers.csv", **chosen):
    data = text if isinstance(text, bytes) else text.encode()
    fields = {"what": what, "team": room.team, "store": room.store, "sheet": DIGEST, **chosen}
    return client.post(
        reverse("take-in-preview"), fields | {"file": SimpleUploadedFile(name, data)}
    )


def whole(answer):
    """What goes out piece by piece, as an asynchronous server asks for it."""

    async def pieces():
        return [piece async for piece in answer.streaming_content]

    return b"".join(async_to_sync(pieces)())


def carried(answer):
    """What the form of a preview holds, without what guards it."""
    found = dict(HIDDEN.findall(answer.content.decode()))
    found.pop("csrfmiddlewaretoken", None)
    return found


def done(client, answer, **answers):
    return client.post(reverse("take-in-do"), carried(answer) | answers)


def test_a_file_is_shown_row_by_row_and_nothing_is_done(client, room):
    before = Entry.objects.count()
    page = shown(client, room).content.decode()
    assert "1 row would add something" in page
    assert "1 row cannot be taken in" in page
    assert "221/8" in page
    assert "Alder Riffleton" in page
    assert "Take in 1 row" in page
    assert Entry.objects.count() == before
    assert not Player.objects.exists()


def test_what_was_shown_is_what_is_done(client, room):
    answer = done(client, shown(client, room))
    take_in = TakeIn.objects.get()
    assert answer["Location"] == reverse("take-in-result", args=[take_in.id])
    # A roster's own name may be a player's, and stays when the player is erased.
    assert (take_in.file_name, take_in.rows, take_in.what) == ("roster.csv", 2, "roster")
    assert list(Player.objects.values_list("name", flat=True)) == ["Wren Siltbank"]
    page = client.get(answer["Location"]).content.decode()
    assert "1 player added" in page
    assert "1 reading added" in page


def test_the_same_form_twice_does_it_once(client, room):
    form = shown(client, room)
    first, second = done(client, form), done(client, form)
    assert first["Location"] == second["Location"]
    assert Player.objects.count() == 1


def test_the_same_file_again_changes_nothing_and_says_so(client, room):
    done(client, shown(client, room))
    before = Entry.objects.count()
    again = shown(client, room)
    page = again.content.decode()
    assert "This very file was taken in" in page
    assert "1 row is the same as here" in page
    assert '<button class="solid">' not in page
    assert done(client, again).status_code == 409
    assert Entry.objects.count() == before


def test_a_room_that_changed_meanwhile_is_shown_anew(client, room, manager):
    form = shown(client, room)
    now = datetime.now(UTC)
    said = PlayerAdded(player=uuid4(), team=room.team, name="Wren Siltbank", number="9")
    say(said, by=manager, now=now)
    before = Entry.objects.count()
    answer = done(client, form)
    assert answer.status_code == 409
    page = answer.content.decode()
    assert "The room has changed since you looked. Nothing was taken in." in page
    assert "Is it the same player?" in page
    assert Entry.objects.count() == before


def test_an_answer_is_shown_before_it_is_done(client, room, manager):
    player = new_id(room.now)
    say(
        PlayerAdded(player=player, team=room.team, name="Wren Siltbank", number="9"),
        by=manager,
        now=room.now,
    )
    asked = shown(client, room)
    assert "not answered: left out" in asked.content.decode()
    chosen = {"row-2": str(player)}
    assert done(client, asked, **chosen).status_code == 409
    told = client.post(reverse("take-in-preview"), carried(asked) | chosen)
    assert "number: 9 → 7" in told.content.decode()
    assert done(client, told, **chosen).status_code == 302
    assert Player.objects.get().number == "7"


def test_an_undone_file_leaves_the_tables_as_they_were(client, room):
    before = contents()
    done(client, shown(client, room))
    take_in = TakeIn.objects.get()
    answer = client.post(reverse("take-in-undo", args=[take_in.id]), follow=True)
    assert "the room is as it was" in answer.content.decode()
    after = contents()
    assert [name for name in after if after[name] != before[name]] == ["TakeIn"]


def test_what_stays_is_told_before_and_after(client, room, manager):
    done(client, shown(client, room))
    take_in, player = TakeIn.objects.get(), Player.objects.get()
    said = PlayerChanged(player=player.id, name=player.name, number="70")
    say(said, by=manager, now=datetime.now(UTC))
    result = reverse("take-in-result", args=[take_in.id])
    told = client.get(result).content.decode()
    assert "These would stay" in told
    assert "changed since" in told
    client.post(reverse("take-in-undo", args=[take_in.id]))
    page = client.get(result).content.decode()
    assert "What stayed" in page
    assert reverse("player", args=[player.id]) in page
    assert (
        "undone before"
        in client.post(reverse("take-in-undo", args=[take_in.id]), follow=True).content.decode()
    )


def test_helmets_and_stock_come_in_by_the_same_way(client, room):
    form = shown(client, room, "ID,Shell,Made\nTV-0001,3,3/1/2024\n", "helmets", "helmets.csv")
    done(client, form)
    assert Helmet.objects.get().code == "TV-0001"
    form = shown(
        client, room, "Place,Size,Count\nfront,1 in,4\n", "stock", "stock.csv", how="received"
    )
    assert "4 came: 0 here → 4" in form.content.decode()
    done(client, form)
    assert room.on_hand("front", "1 in") == 4
    for take_in in TakeIn.objects.all():
        assert client.get(reverse("take-in-result", args=[take_in.id])).status_code == 200
        client.post(reverse("take-in-undo", args=[take_in.id]))
    assert not Helmet.objects.exists()
    assert room.on_hand("front", "1 in") == 0


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("", "header"),
        ("a,b\n1,2\n", "header row was found"),
        (b"PK\x03\x04 nothing", "damaged"),
        ("Number,Name\n" * 1, "no row below the header"),
        (b"x" * (MOST_BYTES + 1), "larger than 1.5 MB"),
    ],
)
def test_a_file_that_cannot_be_read_says_why_and_what_would_be_right(client, room, text, wrong):
    answer = shown(client, room, text)
    assert answer.status_code == 422
    assert wrong in answer.content.decode()


def test_no_file_and_a_spoiled_form_are_told(client, room):
    assert (
        "no file was chosen"
        in client.post(reverse("take-in-preview"), {"what": "roster"}).content.decode().lower()
    )
    spoiled = carried(shown(client, room)) | {"kept": "abc"}
    assert client.post(reverse("take-in-do"), spoiled).status_code == 422
    assert client.post(reverse("take-in-do"), {"what": "lunch"}).status_code == 422


def test_a_fitter_takes_in_rosters_alone_and_undoes_nothing(room):
    client = client_of(a_member(Role.FITTER, "fitter"))
    assert done(client, shown(client, room)).status_code == 302
    assert shown(client, room, "ID,Shell\nTV-1,3\n", "helmets").status_code == 403
    take_in = TakeIn.objects.get()
    page = client.get(reverse("take-in-result", args=[take_in.id])).content.decode()
    assert "A manager can undo" in page
    assert client.post(reverse("take-in-undo", args=[take_in.id])).status_code == 403
    assert "what=helmets" not in client.get(reverse("take-in")).content.decode()


@pytest.mark.parametrize("page", ["roster", "helmets", "stores"])
def test_pages_lead_to_it_only_for_those_who_may(room, manager, page):
    assert room
    assert reverse("take-in") in client_of(manager).get(reverse(page)).content.decode()
    viewer = client_of(a_member(Role.VIEWER, "viewer"))
    assert reverse("take-in") not in viewer.get(reverse(page)).content.decode()


@pytest.mark.parametrize("form", ["xlsx", "csv"])
def test_an_empty_list_can_be_read_back(client, room, form):
    assert room

    def empty(what):
        answer = client.get(reverse("take-in-template", args=[f"{what}.{form}"]))
        assert answer.status_code == 200
        return answer.content

    parts = read_stock_rows(empty("stock"), SHEET)
    assert parts.problems == ()
    assert len(parts.rows) > 10
    for what, read in (("roster", read_roster_file), ("helmets", _helmets)):
        with pytest.raises(ValueError, match="no row below the header"):
            read(empty(what))


def _helmets(data):
    return read_helmets(data, today=datetime.now(UTC).date())


def test_another_empty_list_is_not_found(client, room):
    assert room
    for name in ("roster.exe", "lunch.csv", "roster"):
        assert client.get(reverse("take-in-template", args=[name])).status_code == 404
    address = reverse("take-in-template", args=["stock.csv"])
    assert client.get(address, {"sheet": "0"}).status_code == 404


def test_everything_comes_as_one_zip_in_which_no_cell_is_a_formula(client, room, manager):
    said = PlayerAdded(player=uuid4(), team=room.team, name="=HYPERLINK(1)", number="9")
    say(said, by=manager, now=room.now)
    answer = client.get(reverse("take-in-everything"))
    content = whole(answer)
    assert answer["Content-Length"] == str(len(content))
    with zipfile.ZipFile(io.BytesIO(content)) as folder:
        names = folder.namelist()
        players = folder.read("player.csv").decode()
        ledger = folder.read("ledger.jsonl").decode().splitlines()
        head = folder.read("head.txt").decode()
    assert {"player.csv", "helmet.csv", "ledger.jsonl", "head.txt"} <= set(names)
    assert ",'=HYPERLINK(1)," in players
    assert len(ledger) == Entry.objects.count()
    assert json.loads(ledger[-1])["digest"] in head
    assert manager.password not in players
