"""At a known tablet somebody is signed in, and entries name somebody else."""

import re
from datetime import timedelta

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from helmwright.records.actions.doors import set_pin
from helmwright.records.actions.speakers import HEARD_FOR
from helmwright.records.models import Device, Doubt, Entry, HeardHere, Reading, Role
from helmwright.records.readers.doubts import AT_ONCE, doubted
from helmwright.records.verify import verify
from tests.records.entries import a_player
from tests.records.fitting import room_team
from tests.records.room import DIGEST, Room
from tests.web.at_a_station import Station
from tests.web.people import PIN, member, station, with_pin

pytestmark = pytest.mark.django_db
TAPE = {"measure": "tape_circumference", "value_mm": 575.0}
PINS = {"fitter": PIN, "student": "8140"}


@pytest.fixture
def manager():
    return member()


@pytest.fixture
def fitter():
    return with_pin(Role.FITTER)


@pytest.fixture
def student():
    return with_pin(Role.STUDENT, pin="8140")


@pytest.fixture
def tablet(manager, fitter):
    room = Room()
    player = a_player(room_team(room), name="Avocet Brookside", number="15")
    found = Station(fitter, player.id, room.store, DIGEST)
    found.client = Client()
    station(found.client, manager)
    return found


def types(tablet, person):
    body = {"staff": str(person.id), "pin": PINS[person.username]}
    assert tablet.client.post("/pin", body, content_type="application/json").status_code == 200


def reads(tablet, person):
    """A reading that the tablet says this person took."""
    entry = tablet.entry("reading taken", {"player": str(tablet.player), **TAPE})
    told = tablet.send(entry | {"by": str(person.id)})
    assert [each["outcome"] for each in told["kept"]] == ["taken"], told
    return entry["id"]


def earlier(person, ago):
    HeardHere.objects.filter(staff=person).update(at=timezone.now() - ago)


def test_what_a_fitter_kept_goes_out_under_the_next_ones_session(tablet, fitter, student):
    types(tablet, fitter)
    types(tablet, student)
    reads(tablet, fitter)
    assert not Doubt.objects.exists()


def test_whoever_was_not_heard_there_is_named_with_a_doubt_and_the_act_stands(
    tablet, fitter, student
):
    types(tablet, student)
    entry = reads(tablet, fitter)
    doubt = Doubt.objects.get()
    assert (str(doubt.entry), doubt.named, doubt.signed_in) == (entry, fitter, student)
    assert doubt.holds is None
    assert Reading.objects.get().by == fitter
    assert verify().faults == ()


def test_the_same_entry_again_is_doubted_once_and_is_not_freed_of_it(tablet, fitter, student):
    types(tablet, student)
    entry = tablet.entry("reading taken", {"player": str(tablet.player), **TAPE})
    said = entry | {"by": str(fitter.id)}
    first = tablet.send(said)
    types(tablet, fitter)
    assert tablet.send(said) == first
    assert Doubt.objects.count() == 1


@pytest.mark.parametrize(
    ("ago", "is_doubted"),
    [(HEARD_FOR - timedelta(minutes=5), False), (HEARD_FOR + timedelta(minutes=5), True)],
)
def test_a_pin_is_remembered_for_a_long_fitting_day(ago, is_doubted, tablet, fitter, student):
    types(tablet, fitter)
    earlier(fitter, ago)
    types(tablet, student)
    reads(tablet, fitter)
    assert Doubt.objects.exists() == is_doubted


def test_a_pin_at_another_tablet_and_an_old_pin_are_none_here(tablet, manager, fitter, student):
    other = Client()
    station(other, manager, "Station 2")
    body = {"staff": str(fitter.id), "pin": PIN}
    assert other.post("/pin", body, content_type="application/json").status_code == 200
    types(tablet, student)
    reads(tablet, fitter)
    assert Doubt.objects.count() == 1
    types(tablet, fitter)
    set_pin(staff=fitter, pin="2846")
    assert not HeardHere.objects.filter(staff=fitter).exists()
    types(tablet, student)
    reads(tablet, fitter)
    assert Doubt.objects.count() == 2


def test_whoever_goes_on_with_a_session_is_still_heard(tablet, fitter, student):
    types(tablet, fitter)
    earlier(fitter, HEARD_FOR + timedelta(hours=1))
    reads(tablet, fitter)
    types(tablet, student)
    reads(tablet, fitter)
    assert not Doubt.objects.exists()


def test_a_student_says_nothing_that_the_students_role_may_not(tablet, student):
    types(tablet, student)
    entry = tablet.entry("reading taken", {"player": str(tablet.player), **TAPE})
    told = tablet.send(entry | {"by": str(student.id)})
    assert "may not say" in told["refused"][0]["what"]


@pytest.fixture
def desk(manager):
    client = Client()
    client.force_login(manager, backend="django.contrib.auth.backends.ModelBackend")
    return client


def page(client, name="doubts"):
    return client.get(reverse(name)).content.decode()


@pytest.mark.parametrize(("answer", "holds"), [("yes", True), ("no", False)])
def test_a_manager_says_who_it_was(answer, holds, tablet, fitter, student, manager, desk):
    types(tablet, student)
    entries = [reads(tablet, fitter) for _ in range(2)]
    now = page(desk, "now")
    assert "2 entries at Station 1 in the name of Fitter Fordham" in now
    assert reverse("doubts") in now
    asked = page(desk)
    assert "2 × reading taken; 15 Avocet Brookside" in asked
    assert "Student Fordham was signed in" in asked
    sent = {"entry": entries, "holds": answer}
    assert desk.post(reverse("doubts-decide"), sent).status_code == 302
    assert set(Doubt.objects.values_list("holds", "by")) == {(holds, manager.id)}
    assert ("Not by the person named" in page(desk)) == (not holds)
    assert "in the name of" not in page(desk, "now")
    assert Reading.objects.count() == 2
    assert verify().faults == ()


def test_what_is_decided_at_once_fits_into_one_form(tablet, fitter, student, desk, monkeypatch):
    # The token and the answer beside it.
    assert AT_ONCE + 2 <= settings.DATA_UPLOAD_MAX_NUMBER_FIELDS
    monkeypatch.setattr("helmwright.records.readers.doubts.AT_ONCE", 2)
    types(tablet, student)
    entries = [reads(tablet, fitter) for _ in range(5)]
    forms = page(desk).split("<form")[1:]
    asked = [re.findall(r'name="entry" value="([^"]+)"', form) for form in forms]
    assert [each for each in asked if each] == [entries[:2], entries[2:4], entries[4:]]


def test_more_doubts_ask_no_more_of_the_database(
    tablet, fitter, student, manager, django_assert_num_queries
):
    types(tablet, student)
    for _ in range(2):
        reads(tablet, fitter)
    with django_assert_num_queries(4):
        assert len(doubted()) == 1
    HeardHere.objects.all().delete()
    types(tablet, student)
    reads(tablet, manager)
    with django_assert_num_queries(4):
        assert len(doubted()) == 2


@pytest.mark.parametrize("sent", [{}, {"holds": "yes"}, {"entry": "x", "holds": "no"}])
def test_nothing_is_decided_by_what_says_nothing(sent, tablet, fitter, student, desk):
    types(tablet, student)
    reads(tablet, fitter)
    count = Entry.objects.count()
    desk.post(reverse("doubts-decide"), sent)
    assert Entry.objects.count() == count


def test_only_a_manager_reads_on_now_whose_word_is_doubted(tablet, fitter, student):
    types(tablet, student)
    reads(tablet, fitter)
    assert "in the name of" not in page(tablet.client, "now")
    assert Device.objects.count() == 1
