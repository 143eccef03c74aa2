"""A form that was opened before somebody else changed the same."""

import html
import json
import re

import pytest
from django.core import signing
from django.test import Client

from helmwright.records.models import (
    Device,
    Entry,
    Helmet,
    HelmetBuild,
    Player,
    Private,
    Role,
    Staff,
    Store,
)
from helmwright.web.opened_mark import ASKED, OPENED, SALT, WAS, sent_with
from tests.records.room import Room
from tests.web.players import a_team, staff_of

pytestmark = pytest.mark.django_db
TYPED = {"name": "Avocet Brookside", "number": "24", "position": "LB", "stature": "6-2"}


def signed_in(role):
    client = Client()
    client.force_login(staff_of(role), "django.contrib.auth.backends.ModelBackend")
    return client


@pytest.fixture
def desk():
    a_team()
    return signed_in(Role.MANAGER)


@pytest.fixture
def other():
    person = staff_of(Role.FITTER)
    person.name = "Dunlin Fen"
    person.save()
    return signed_in(Role.FITTER)


@pytest.fixture
def player(desk):
    desk.post("/roster/add/", TYPED)
    return Player.objects.get()


def shown(answer):
    return html.unescape(answer.content.decode())


def form_of(answer):
    """The fields of a page with one form as a browser would send them back."""
    return fields_of(answer.content.decode())


def fields_of(page):
    sent = {}
    for tag in re.findall(r"<input[^>]*>", page):
        found = {name: html.unescape(value) for name, value in re.findall(r'(\w+)="([^"]*)"', tag)}
        if found.get("name") and found["name"] != "csrfmiddlewaretoken":
            sent[found["name"]] = found.get("value", "")
    for name, inside in re.findall(r'<select name="([^"]+)".*?>(.*?)</select>', page, re.DOTALL):
        chosen = re.findall(r'value="([^"]*)" selected', inside)
        sent[name] = html.unescape(chosen[0]) if chosen else ""
    return sent


def change(client, player, sent, **typed):
    return client.post(f"/roster/{player.pk}/change/", sent | typed)


def opened(client, player):
    return form_of(client.get(f"/roster/{player.pk}/change/"))


def test_a_form_says_only_what_was_changed_in_it(desk, other, player):
    early = opened(desk, player)
    assert (
        change(other, player, opened(other, player), position="WR", weight="210").status_code == 302
    )
    assert change(desk, player, early, number="42").status_code == 302
    player.refresh_from_db()
    assert (player.number, player.position, round(player.weight_kg)) == ("42", "WR", 95)
    last = Entry.objects.latest("seq")
    assert json.loads(Private.objects.get(entry=last).body) == {"number": "42"}


def test_what_was_emptied_is_emptied(desk, player):
    assert change(desk, player, opened(desk, player), position="", stature="").status_code == 302
    player.refresh_from_db()
    assert (player.position, player.stature_mm) == ("", None)


def test_a_form_in_which_nothing_was_changed_says_nothing(desk, player):
    count = Entry.objects.count()
    assert change(desk, player, opened(desk, player)).status_code == 302
    assert Entry.objects.count() == count


def test_two_who_change_the_same_field_are_asked_which_holds(desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), number="7")
    count = Entry.objects.count()
    back = change(desk, player, early, number="42", position="TE")
    assert back.status_code == 422
    assert Entry.objects.count() == count
    page = shown(back)
    assert "Changed by Dunlin Fen at " in page
    assert "after you opened this page: 7 stands there now." in page
    again = form_of(back)
    assert (again["number"], again["position"]) == ("42", "TE")
    unsaid = change(desk, player, again)
    assert unsaid.status_code == 422
    assert "Say which of the two holds." in shown(unsaid)
    assert Entry.objects.count() == count
    assert change(desk, player, form_of(unsaid), **{"holds-number": "mine"}).status_code == 302
    player.refresh_from_db()
    assert (player.number, player.position) == ("42", "TE")


def test_what_stands_there_by_now_may_hold(desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), number="7")
    again = form_of(change(desk, player, early, number="42", position="TE"))
    assert change(desk, player, again, **{"holds-number": "theirs"}).status_code == 302
    player.refresh_from_db()
    assert (player.number, player.position) == ("7", "TE")


def test_a_third_change_while_somebody_decides_is_asked_about_again(desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), number="7")
    again = form_of(change(desk, player, early, number="42"))
    change(other, player, opened(other, player), number="8")
    back = change(desk, player, again, **{"holds-number": "mine"})
    assert back.status_code == 422
    assert "8 stands there now" in shown(back)
    assert form_of(back)["holds-number"] == ""


def test_the_same_word_of_two_is_no_question(desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), number="7")
    assert change(desk, player, early, number="7").status_code == 302


@pytest.mark.parametrize(
    ("typed", "says"), [({"stature": "6-0"}, "6-1"), ({"hair": "thick hair"}, "skull cap")]
)
def test_the_question_is_put_as_it_is_typed(typed, says, desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), stature="6-1", headwear="skull cap")
    back = change(desk, player, early, **typed)
    assert back.status_code == 422
    assert f"{says} stands there now" in shown(back)


def test_a_question_about_headwear_says_hair_and_headwear_as_each_wrote_them(desk, other, player):
    early = opened(desk, player)
    change(other, player, opened(other, player), headwear="skull cap")
    back = change(desk, player, early, headwear="winter cap")
    assert back.status_code == 422
    page = shown(back)
    assert "Hair and what is worn over it: which holds?" in page
    assert "what I wrote: hair: nobody said; over it: winter cap" in page
    assert "what stands there now: hair: nobody said; over it: skull cap" in page
    assert page.index('name="headwear"') < page.index('name="holds-worn"')
    assert change(desk, player, form_of(back), **{"holds-worn": "mine"}).status_code == 302
    player.refresh_from_db()
    assert player.worn == ["winter cap"]


@pytest.mark.parametrize("carried", ["", "nothing of the room", '{"was": {"number": "9"}}'])
def test_a_page_that_carries_nothing_that_can_be_read_is_held_against_what_stands(
    carried, desk, player
):
    sent = opened(desk, player) | {"opened": carried}
    assert change(desk, player, sent, number="42").status_code == 302
    player.refresh_from_db()
    assert (player.number, player.position) == ("42", "LB")


def test_what_a_page_carries_is_what_stood_there(desk, player):
    carried = sent_with(opened(desk, player))
    assert carried[ASKED] == []
    assert carried[WAS]["number"] == "24"
    assert carried[WAS]["stature_mm"] == player.stature_mm


@pytest.fixture
def room():
    return Room()


def act(client, name, sent, **typed):
    return client.post(f"/helmets/TV-0147/{name}/", sent | typed)


def carried_by(client, name):
    """The fields of one act of the helmet's page, as a browser would send them."""
    return fields_of(act_of(client.get("/helmets/TV-0147/"), name))


def carried_in(answer, name):
    return fields_of(act_of(answer, name))["opened"]


def act_of(answer, name):
    page = answer.content.decode()
    form = page[page.index(f'action="/helmets/TV-0147/{name}/"') :]
    return form[: form.index("</form>")]


def pads_of(helmet):
    return HelmetBuild.objects.get(helmet=helmet, until=None).pads


def test_a_helmets_form_says_only_what_was_changed_in_it(desk, other, room):
    helmet = Helmet.objects.get(pk=room.helmet(color="white"))
    early = carried_by(desk, "change")
    face = carried_by(other, "face")
    assert act(other, "face", face, guard="open, three bars").status_code == 302
    assert act(desk, "change", early, serial="OZ-1").status_code == 302
    helmet.refresh_from_db()
    assert (helmet.serial, helmet.color, helmet.guard) == ("OZ-1", "white", "open, three bars")
    said = json.loads(Entry.objects.latest("seq").payload)
    assert said == {"helmet": str(helmet.pk), "serial": "OZ-1"}


def test_two_who_change_a_helmets_date_are_asked_which_holds(desk, room):
    helmet = Helmet.objects.get(pk=room.helmet())
    early, later = carried_by(desk, "change"), carried_by(desk, "change")
    assert act(desk, "change", early, recertified_on="2026-03-01").status_code == 302
    back = act(desk, "change", later, recertified_on="2026-04-01")
    assert back.status_code == 422
    assert "2026-03-01 stands there now" in shown(back)
    assert "Last recertified on: which holds?" in shown(back)
    again = fields_of(act_of(back, "change"))
    assert again["recertified_on"] == "2026-04-01"
    assert act(desk, "change", again, **{"holds-recertified_on": "theirs"}).status_code == 302
    helmet.refresh_from_db()
    assert str(helmet.recertified_on) == "2026-03-01"
    assert act(desk, "change", again, **{"holds-recertified_on": "mine"}).status_code == 302
    helmet.refresh_from_db()
    assert str(helmet.recertified_on) == "2026-04-01"


def test_a_stale_form_of_pads_puts_no_pad_back(desk, other, room):
    helmet = room.helmet()
    front, jaw = (pads_of(helmet)[zone] for zone in ("front", "jaw left"))
    early, later = carried_by(desk, "pads"), carried_by(other, "pads")
    assert act(other, "pads", later, **{"pad-front": "3/4 in"}).status_code == 302
    assert act(desk, "pads", early, **{"pad-jaw-left": "3/4 in"}).status_code == 302
    assert pads_of(helmet)["front"] == "3/4 in" != front
    assert pads_of(helmet)["jaw left"] == "3/4 in" != jaw
    early["once"] = ""
    back = act(desk, "pads", early, **{"pad-front": "1 in"})
    assert back.status_code == 422
    assert "Changed by Dunlin Fen" in shown(back)
    assert pads_of(helmet)["front"] == "3/4 in"


def test_a_stale_form_lifts_no_hold_whose_reason_nobody_saw_there(desk, other, room):
    helmet = room.helmet()
    act(desk, "hold", {}, why="a screw is missing")
    early = carried_by(desk, "release")
    act(other, "hold", {}, why="crack at the left ear")
    back = act(desk, "release", early)
    assert back.status_code == 422
    assert "a screw is missing; crack at the left ear" in shown(back)
    assert Helmet.objects.get(pk=helmet).hold
    assert act(desk, "release", {"opened": carried_in(back, "release")}).status_code == 302
    assert not Helmet.objects.get(pk=helmet).hold


def test_a_retention_hold_that_was_set_meanwhile_is_not_set_back(desk, player):
    path = f"/roster/{player.pk}/hold/"
    early = form_of(desk.get(path))
    desk.post(path, form_of(desk.get(path)) | {"until": "2031-01-01"})
    back = desk.post(path, early | {"until": "2030-01-01"})
    assert back.status_code == 422
    assert "Jan 1, 2031 stands there now" in shown(back)
    player.refresh_from_db()
    assert str(player.hold_until) == "2031-01-01"
    assert desk.post(path, form_of(back)).status_code == 302
    player.refresh_from_db()
    assert str(player.hold_until) == "2030-01-01"


def carrying(**was):
    """What a page of the doors carried when it was opened."""
    return {OPENED: signing.dumps({WAS: was, ASKED: []}, salt=SALT)}


@pytest.mark.parametrize(("name", "status"), [("Station 2", 409), ("", 400)])
def test_a_device_keeps_what_was_typed_for_it(name, status, desk):
    trunk, other = Store.objects.create(name="Trunk A"), Store.objects.create(name="Trunk B")
    Device.objects.create(name="Station 2")
    device = Device.objects.create(name="Station 1")
    sent = {"name": name, "store": str(trunk.pk)} | carrying(name="Station 1", store=None)
    back = desk.post(f"/devices/{device.pk}/name/", sent)
    assert back.status_code == status
    one = shown(back)[shown(back).index("<details open>") :]
    one = one[: one.index("</details>")]
    assert f'name="name" value="{name}"' in one
    assert f'value="{trunk.pk}" selected' in one
    assert f'value="{other.pk}" selected' not in one
    new = shown(desk.post("/devices/", {"name": name, "store": str(trunk.pk)}))
    enroll = new[new.index("Enroll a device") :]
    assert f'value="{name}"' in enroll
    assert f'value="{trunk.pk}" selected' in enroll


def test_what_was_not_touched_is_shown_as_it_stands_when_a_device_comes_back(desk):
    trunk = Store.objects.create(name="Trunk A")
    device = Device.objects.create(name="Station 1", store=trunk)
    Device.objects.create(name="Station 2")
    sent = {"name": "Station 2", "store": ""} | carrying(name="Station 1", store=None)
    back = shown(desk.post(f"/devices/{device.pk}/name/", sent))
    one = back[back.index("<details open>") : back.index("Revoke Station 1")]
    assert f'value="{trunk.pk}" selected' in one


def test_nobody_writes_what_a_page_of_the_doors_was_opened_with(desk):
    """A mark that the room did not sign is none: held against what stands there."""
    device = Device.objects.create(name="Station 1")
    forged = carrying(name="Station 9", store=None)[OPENED][:-2] + "AA"
    sent = {"name": "Station 4", "store": "", OPENED: forged}
    assert desk.post(f"/devices/{device.pk}/name/", sent).status_code == 302
    page = desk.get("/devices/").content.decode()
    assert "was-" not in page
    carried = sent_with(fields_of(page[page.index("<details") : page.index("</details>")]))
    assert carried[WAS] == {"name": "Station 4", "store": None}


def test_a_devices_new_name_leaves_the_store_that_it_was_given_meanwhile(desk):
    trunk, device = Store.objects.create(name="Trunk A"), Device.objects.create(name="Station 1")
    path, was = f"/devices/{device.pk}/name/", carrying(name="Station 1", store=None)
    sent = was | {"name": "Station 1", "store": str(trunk.pk)}
    assert desk.post(path, sent).status_code == 302
    assert desk.post(path, was | {"name": "Station 9", "store": ""}).status_code == 302
    device.refresh_from_db()
    assert (device.name, device.store) == ("Station 9", trunk)
    back = desk.post(path, was | {"name": "Station 2", "store": ""})
    assert back.status_code == 409
    assert "after you opened this page: it is called Station 9 now" in shown(back)
    assert 'value="Station 2"' in shown(back)


def test_a_role_that_was_given_meanwhile_is_not_set_back(desk):
    person = staff_of(Role.FITTER)
    path = f"/staff/{person.pk}/role/"
    assert desk.post(path, carrying(role="fitter") | {"role": "student"}).status_code == 302
    back = desk.post(path, carrying(role="fitter") | {"role": "trainer"})
    assert back.status_code == 409
    assert "is student now" in shown(back)
    assert Staff.objects.get(pk=person.pk).role == "student"
    assert desk.post(path, carrying(role="student") | {"role": "trainer"}).status_code == 302
