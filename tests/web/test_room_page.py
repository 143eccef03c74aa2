"""A room that holds nothing: its first steps, and the page on which it is opened."""

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from helmwright.catalogue import packaged_text
from helmwright.records.actions.doors import set_pin
from helmwright.records.models import (
    Device,
    Entry,
    Helmet,
    Movement,
    Part,
    Player,
    Role,
    Season,
    Sheet,
    Store,
    Team,
)
from helmwright.records.readers.opening import Lack, lacks
from helmwright.web.desk.first_steps import MISSING, STEPS
from tests.web.people import PIN, member

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"
SHEET = packaged_text("ouzel")


@pytest.fixture
def manager():
    return member()


@pytest.fixture
def desk(manager):
    return signed_in(manager)


def signed_in(somebody):
    client = Client()
    client.force_login(somebody, BACKEND)
    return client


def text(answer):
    return answer.content.decode()


def page(client, name="room"):
    return text(client.get(reverse(name)))


def sent(client, what, **fields):
    return client.post(reverse(f"room-{what}"), fields)


def a_file(words, name="ouzel.toml"):
    return SimpleUploadedFile(name, words if isinstance(words, bytes) else words.encode())


def with_sheet(client):
    assert sent(client, "sheet", packaged="ouzel").status_code == 302
    return Sheet.objects.get(is_current=True)


def test_every_lack_is_a_step_and_has_its_words_in_order():
    assert [step.lack for step in STEPS] == list(Lack)
    assert set(MISSING) == set(Lack)


def test_a_step_that_is_done_is_gone_from_now(desk, manager):
    def shown():
        now = page(desk, "now")
        return [step.lack for step in STEPS if f"<b>{step.what}</b>" in now]

    left = list(Lack)

    def done(lack):
        left.remove(lack)
        assert shown() == left

    assert shown() == left
    assert "<h1>8 steps before the first fitting</h1>" in page(desk, "now")
    sent(desk, "team", name="Kingfishers")
    done(Lack.TEAM)
    sheet = with_sheet(desk)
    done(Lack.SHEET)
    sent(desk, "store", name="Equipment room")
    done(Lack.STORE)
    Player.objects.create(team=Team.objects.get(), name="Avocet Brookside", number="24")
    done(Lack.ROSTER)
    store = Store.objects.get()
    Helmet.objects.create(code="TV-0001", sheet=sheet, shell=1, store=store)
    done(Lack.HELMETS)
    part = Part.objects.create(sheet=sheet, place="front", size="1/2 in")
    Movement.objects.create(
        entry=9_999, store=store, part=part, quantity=2, why="received", at=timezone.now()
    )
    done(Lack.STOCK)
    set_pin(staff=manager, pin=PIN)
    done(Lack.PINS)
    Device.objects.create(name="Station 1", enrolled_at=timezone.now())
    done(Lack.DEVICE)


@pytest.mark.usefixtures("desk")
def test_a_pin_of_somebody_who_does_not_fit_opens_no_station():
    set_pin(staff=member(Role.STUDENT), pin=PIN)
    assert Lack.PINS in lacks()


def test_an_empty_room_never_says_that_nothing_needs_doing(desk):
    shown = page(desk, "now")
    assert "Nothing needs doing" not in shown
    assert "Everybody on the roster holds a helmet" not in shown


def test_each_step_links_to_where_it_is_done_for_those_who_may(desk):
    shown = page(desk, "now")
    for step in STEPS:
        for act in step.acts:
            assert f'href="{act.address}"' in shown
            assert desk.get(act.address).status_code == 200
    viewer = page(signed_in(member(Role.VIEWER)), "now")
    assert reverse("room") not in viewer
    assert viewer.count("A manager does it.") == len(STEPS) - 1  # a viewer may look at stores


def test_a_team_is_opened_with_a_season_called_by_the_year(desk):
    assert sent(desk, "team", name="  Kingfishers ").status_code == 302
    season = Season.objects.get()
    assert (season.team.name, season.is_open) == ("Kingfishers", True)
    assert season.name == str(timezone.localdate().year)


@pytest.mark.parametrize("name", ["", "   ", "K" * 81])
def test_a_name_that_will_not_do_opens_no_team(desk, name):
    assert sent(desk, "team", name=name).status_code == 422
    assert not Team.objects.exists()


def test_a_second_team_of_the_name_is_refused_and_nothing_of_it_is_kept(desk):
    sent(desk, "team", name="Kingfishers")
    before = Entry.objects.count()
    answer = sent(desk, "team", name="Kingfishers")
    assert answer.status_code == 422
    assert "There is a team called Kingfishers already." in text(answer)
    assert Entry.objects.count() == before


def test_the_next_season_closes_the_one_before(desk):
    sent(desk, "team", name="Kingfishers")
    year = timezone.localdate().year
    assert f'value="{year + 1}"' in page(desk)
    address = reverse("room-season", args=[Team.objects.get().pk])
    assert desk.post(address, {"name": str(year + 1)}).status_code == 302
    assert list(Season.objects.filter(is_open=True).values_list("name", flat=True)) == [
        str(year + 1)
    ]
    again = desk.post(address, {"name": str(year)})
    assert again.status_code == 422
    assert f"had a season called {year} before" in text(again)


def test_the_first_store_is_suggested_a_name_and_no_other_is(desk):
    assert 'value="Equipment room"' in page(desk)
    sent(desk, "store", name="Equipment room")
    assert 'value="Equipment room"' not in page(desk)
    again = sent(desk, "store", name="Equipment room")
    assert again.status_code == 422
    assert "take another name" in text(again)
    assert Store.objects.count() == 1


def test_packaged_sheets_are_offered_as_invented_and_stay_labelled(desk):
    shown = page(desk)
    assert "No such helmet exists" in shown
    assert '<option value="ouzel">Ouzel (invented)</option>' in shown
    row = with_sheet(desk)
    assert row.is_invented
    assert "no such helmet exists" in page(desk)


def test_a_file_with_faults_is_refused_with_each_line_and_reason_and_nothing_is_kept(desk):
    lines = SHEET.splitlines()
    first = next(n for n, line in enumerate(lines) if line.startswith("format"))
    second = next(n for n, line in enumerate(lines) if line.startswith("between_bands"))
    lines[first], lines[second] = "format = 7", 'between_bands = "sideways"'
    before = Entry.objects.count()
    answer = sent(desk, "sheet", file=a_file("\n".join(lines)))
    assert answer.status_code == 422
    shown = text(answer)
    assert "The sheet is not added; nothing of it is kept." in shown
    told = re.findall(r"<li>line (\d+)[:,] (.+?)</li>", shown)
    assert {int(line) for line, _ in told} >= {second + 1}
    assert any("between_bands" in why or "sideways" in why for _, why in told)
    assert not Sheet.objects.exists()
    assert Entry.objects.count() == before


def test_what_a_file_says_is_written_and_never_run(desk):
    answer = sent(desk, "sheet", file=a_file('model = "<script>x</script>"\nformat = "<b>"\n'))
    assert answer.status_code == 422
    assert "<script>x" not in text(answer)
    assert "<b>&quot;" not in text(answer)


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({}, "Nothing was chosen, or the file is empty."),
        ({"packaged": "ouzel", "file": SHEET}, "Choose one: an invented model or a file."),
        ({"file": b"format = 1\nmodel = \"\xff\""}, "Line 2 has a sign that is not UTF-8."),
        ({"file": b"#" * 500_001}, "This file has 500,001 bytes"),
        ({"packaged": "heron"}, "Select a valid choice"),
        ({"file": b"model = \n"}, "neither a number, a text, a list"),
    ],
)  # fmt: skip
def test_what_is_no_sheet_is_refused_with_what_would_be_right(desk, fields, why):
    fields = {key: a_file(value) if key == "file" else value for key, value in fields.items()}
    answer = sent(desk, "sheet", **fields)
    assert answer.status_code == 422
    assert why in text(answer)
    assert not Sheet.objects.exists()


def test_the_same_sheet_again_is_refused_and_a_newer_one_takes_its_place(desk):
    old = with_sheet(desk)
    again = sent(desk, "sheet", packaged="ouzel")
    assert again.status_code == 422
    assert "is here already, and current" in text(again)
    newer = re.sub(r'note = ".*"', 'note = "Invented; a newer sheet."', SHEET, count=1)
    newer = newer.replace('level = "30 mm"', 'level = "31 mm"', 1)
    assert sent(desk, "sheet", file=a_file(newer)).status_code == 302
    current = Sheet.objects.get(is_current=True)
    assert current.digest != old.digest
    assert current.model == old.model


def test_a_newer_sheet_without_a_shell_that_a_helmet_has_is_refused_whole(desk):
    sheet = with_sheet(desk)
    sent(desk, "store", name="Equipment room")
    Helmet.objects.create(code="TV-0001", sheet=sheet, shell=99, store=Store.objects.get())
    before = Entry.objects.count()
    newer = SHEET.replace('level = "30 mm"', 'level = "31 mm"', 1)
    answer = sent(desk, "sheet", file=a_file(newer))
    assert answer.status_code == 422
    assert "TV-0001 has that shell" in text(answer)
    assert Entry.objects.count() == before
    assert Sheet.objects.get(is_current=True).digest == sheet.digest


@pytest.mark.usefixtures("desk")
@pytest.mark.parametrize("role", [role for role in Role if role is not Role.MANAGER])
@pytest.mark.parametrize("what", ["team", "store", "sheet"])
def test_nobody_but_a_manager_opens_anything(role, what):
    client = signed_in(member(role))
    assert client.get(reverse("room")).status_code == 403
    assert sent(client, what, name="Kingfishers", packaged="ouzel").status_code == 403
    assert not any(kind.objects.exists() for kind in (Team, Store, Sheet))


EMPTY = {
    "player-add": [Lack.TEAM],
    "roster": [Lack.TEAM],
    "helmet-add": [Lack.SHEET, Lack.STORE],
    "helmets": [Lack.SHEET, Lack.STORE],
}


@pytest.mark.parametrize("name", EMPTY)
def test_an_empty_list_says_what_is_missing_and_where_it_is_put_right(desk, name):
    shown = page(desk, name)
    for lack in EMPTY[name]:
        step = next(step for step in STEPS if step.lack is lack)
        assert MISSING[lack] in shown
        assert step.acts[0].address in shown


@pytest.mark.parametrize("what", ["roster", "helmets", "stock"])
def test_a_file_is_not_asked_for_before_it_can_be_taken_in(desk, what):
    shown = text(desk.get(reverse("take-in"), {"what": what}))
    assert 'type="file"' not in shown
    assert reverse("room") in shown
    sent(desk, "team", name="Kingfishers")
    with_sheet(desk)
    sent(desk, "store", name="Equipment room")
    assert 'type="file"' in text(desk.get(reverse("take-in"), {"what": what}))


def test_a_store_without_a_model_sheet_says_so_and_offers_no_parts(desk):
    sent(desk, "store", name="Equipment room")
    address = reverse("store", args=[Store.objects.get().pk])
    assert MISSING[Lack.SHEET] in text(desk.get(address))
    assert MISSING[Lack.SHEET] in text(desk.get(f"{address}count/"))
    with_sheet(desk)
    assert MISSING[Lack.SHEET] not in text(desk.get(address))
    assert "Receive parts" in text(desk.get(address))
