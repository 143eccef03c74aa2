"""Forms at the desk: bad input says what is wrong and what would be right; nothing half-saved."""

import re

import pytest

from helmwright.records.ids import new_id
from helmwright.records.kinds.people import TeamOpened
from helmwright.records.models import Consent, Entry, Player, Reading, Team
from helmwright.records.saying import say
from tests.web.people import NOW, member
from tests.web.players import a_helmet, issued

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"
BLANK = {
    "name": "", "number": "", "position": "", "sex": "", "birth_year": "", "school_class": "",
    "stature": "", "weight": "", "glasses": "", "hair": "", "headwear": "",
}  # fmt: skip


@pytest.fixture
def desk(client):
    client.force_login(member(), BACKEND)
    say(TeamOpened(team=new_id(NOW), name="Kingfishers"), by=None, now=NOW)
    return client


def add(client, **said):
    return client.post("/roster/add/", {**BLANK, "name": "Avocet Brookside", **said})


def added(client, **said):
    assert add(client, **said).status_code == 302
    return Player.objects.get(name=said.get("name", "Avocet Brookside"))


def words(answer):
    return answer.content.decode()


def test_a_player_is_added_as_people_write_height_and_weight(desk):
    player = added(desk, number="24", stature="6-2", weight="205", hair="short hair",
                   headwear="skull cap", glasses="yes")  # fmt: skip
    assert player.team == Team.objects.get()
    assert player.stature_mm == pytest.approx(74 * 25.4)
    assert player.weight_kg == pytest.approx(205 * 0.45359237)
    assert player.worn == ["short hair", "skull cap"]
    assert player.glasses is True


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("stature", "6-14"),
        ("stature", "tall"),
        ("weight", "a lot"),
        ("weight", "9000"),
        ("birth_year", "2200"),
        ("birth_year", "2025"),
        ("name", ""),
        ("sex", "other word"),
    ],
)
def test_what_cannot_be_read_is_named_beside_its_field_and_nothing_is_kept(desk, field, text):
    before = Entry.objects.count()
    answer = add(desk, number="24", **{field: text})
    assert answer.status_code == 422
    assert f'id="id_{field}_error"' in words(answer)
    assert 'value="24"' in words(answer)
    assert Entry.objects.count() == before
    assert not Player.objects.exists()


def test_a_field_that_was_not_touched_is_kept_to_the_last_digit(desk):
    player = added(desk, stature="188 cm", weight="93 kg")
    form = desk.get(f"/roster/{player.pk}/change/")
    shown = {
        **BLANK, "name": player.name, "stature": "6-2", "weight": "205 lb", "position": "guard"
    }  # fmt: skip
    assert 'value="6-2"' in words(form)
    assert desk.post(f"/roster/{player.pk}/change/", shown).status_code == 302
    player.refresh_from_db()
    assert player.position == "guard"
    assert player.stature_mm == pytest.approx(1880.0)
    assert player.weight_kg == pytest.approx(93.0)


def measure(client, player, **said):
    return client.post(f"/roster/{player.pk}/measure/", {"hair": "", "headwear": "", **said})


def test_readings_are_taken_in_inches_with_fractions(desk):
    player = added(desk)
    answer = measure(
        desk,
        player,
        tape_circumference_1="22 5/8",
        tape_circumference_2="57.4 cm",
        head_length_1="7-3/4",
        hair="braids or locs",
        headwear="skull cap",
    )
    assert answer.status_code == 302
    taken = {(one.measure, round(one.value_mm, 2), one.over, one.beneath)
             for one in Reading.objects.all()}  # fmt: skip
    assert taken == {
        ("tape_circumference", 574.67, "skull cap", "braids or locs"),
        ("tape_circumference", 574.0, "skull cap", "braids or locs"),
        ("head_length", 196.85, "skull cap", "braids or locs"),
    }


@pytest.mark.parametrize("text", ["221/8", "42", "twenty", "5.7", "22 5/7"])
def test_one_number_that_cannot_be_read_keeps_them_all_out(desk, text):
    player = added(desk)
    before = Entry.objects.count()
    answer = measure(desk, player, tape_circumference_1="22 5/8", head_length_1=text)
    assert answer.status_code == 422
    assert 'id="id_head_length_1_error"' in words(answer)
    assert 'value="22 5/8"' in words(answer)
    assert Entry.objects.count() == before


def test_length_and_breadth_in_each_others_places_are_refused(desk):
    player = added(desk)
    answer = measure(desk, player, head_length_1="6", head_breadth_1="7 1/4")
    assert answer.status_code == 422
    assert not Reading.objects.exists()


def sent_with(client, address):
    """The ID that the page brings."""
    (found,) = re.findall('name="once" value="([^"]+)"', words(client.get(address)))[:1]
    return found


def test_a_player_who_is_added_twice_by_a_second_tap_is_one_player(desk):
    mark = sent_with(desk, "/roster/add/")
    first, second = add(desk, once=mark), add(desk, once=mark)
    assert first.status_code == second.status_code == 302
    assert first.headers["Location"] == second.headers["Location"]
    assert Player.objects.count() == 1
    assert add(desk, once=sent_with(desk, "/roster/add/")).status_code == 302
    assert Player.objects.count() == 2


def test_readings_that_are_sent_twice_are_kept_once(desk):
    player = added(desk)
    mark = sent_with(desk, f"/roster/{player.pk}/measure/")
    said = {"tape_circumference_1": "22 5/8", "tape_circumference_2": "22 3/4", "once": mark}
    for _ in range(2):
        assert measure(desk, player, **said).status_code == 302
    assert Reading.objects.count() == 2
    other = measure(desk, player, **said | {"tape_circumference_1": "22 1/2"})
    assert other.status_code == 422
    assert "sent before" in words(other)
    assert Reading.objects.count() == 2


def test_an_empty_form_says_what_to_write(desk):
    assert "Write at least one reading" in words(measure(desk, added(desk)))


def test_a_withdrawn_reading_stays_on_record_and_counts_no_more(desk):
    player = added(desk)
    measure(desk, player, tape_circumference_1="22 5/8")
    reading = Reading.objects.get()
    path = f"/roster/{player.pk}/withdraw/{reading.pk}/"
    assert desk.post(path).status_code == 302
    page = words(desk.get(f"/roster/{player.pk}/"))
    assert 'class="withdrawn"' in page
    assert "unmeasured" in page
    assert Entry.objects.get(kind="reading withdrawn").corrects == reading.pk
    desk.post(path)
    assert "withdrawn before" in words(desk.get(f"/roster/{player.pk}/"))


def test_a_guardian_agrees_and_takes_it_back(desk):
    player = added(desk, birth_year="2012")
    desk.post(f"/roster/{player.pk}/guardian/", {"name": "Grebe Oakmere", "relation": "mother"})
    guardian = player.guardians.get()
    said = {"about": "fitting", "by_whom": str(guardian.pk)}
    assert desk.post(f"/roster/{player.pk}/consent/", said).status_code == 422
    said["how"] = "said"
    assert desk.post(f"/roster/{player.pk}/consent/", said).status_code == 302
    consent = Consent.objects.get()
    assert consent.guardian == guardian
    assert "no consent to fitting" not in words(desk.get(f"/roster/{player.pk}/"))
    desk.post(f"/roster/{player.pk}/take-back/{consent.pk}/")
    assert "no consent to fitting" in words(desk.get(f"/roster/{player.pk}/"))


def test_nobody_agrees_alone_who_is_under_age_by_the_year_that_is_kept(desk):
    player = added(desk, birth_year="2012")
    said = {"about": "fitting", "by_whom": "player", "how": "said"}
    answer = desk.post(f"/roster/{player.pk}/consent/", said)
    assert answer.status_code == 422
    assert "a parent or guardian agrees" in words(answer)
    assert not Consent.objects.exists()


def test_who_agreed_is_said_and_never_taken_for_granted(desk):
    player = added(desk)
    answer = desk.post(f"/roster/{player.pk}/consent/", {"about": "fitting", "how": "said"})
    assert answer.status_code == 422
    assert not Consent.objects.exists()


def test_a_player_leaves_and_comes_back(desk):
    player = added(desk)
    desk.post(f"/roster/{player.pk}/leave/")
    assert player.name not in words(desk.get("/roster/"))
    assert player.name in words(desk.get("/roster/?standing=left"))
    desk.post(f"/roster/{player.pk}/return/")
    assert player.name in words(desk.get("/roster/"))


def test_nobody_is_erased_by_a_slip_of_the_hand(desk):
    player = added(desk)
    answer = desk.post(f"/roster/{player.pk}/erase/", {"typed": "Avocet"})
    assert answer.status_code == 422
    assert "letter by letter" in words(answer)
    player.refresh_from_db()
    assert player.name


def test_an_erasure_gives_a_receipt_and_the_name_is_nowhere(desk):
    player = added(desk, birth_year="2012")
    desk.post(f"/roster/{player.pk}/guardian/", {"name": "Grebe Oakmere"})
    answer = desk.post(f"/roster/{player.pk}/erase/", {"typed": player.name}, follow=True)
    assert "RECEIPT OF AN ERASURE" in words(answer)
    head = Entry.objects.get(kind="person erased").digest
    assert head in words(answer)
    for path in ("/roster/", "/roster/?standing=left", f"/roster/{player.pk}/"):
        text = words(desk.get(path))
        assert "Avocet" not in text
        assert "Grebe Oakmere" not in text
    assert desk.get(f"/roster/{player.pk}/change/").status_code == 404


def test_a_hold_keeps_a_record_and_says_until_when(desk):
    player = added(desk)
    path = f"/roster/{player.pk}"
    assert desk.post(f"{path}/hold/", {"until": "2001-01-01"}).status_code == 422
    assert desk.post(f"{path}/hold/", {"until": "2040-07-01", "why": "counsel"}).status_code == 302
    assert "Jul 1, 2040" in words(desk.get(f"{path}/"))
    assert "retention hold until Jul 1, 2040" in words(desk.get(f"{path}/erase/"))
    desk.post(f"{path}/erase/", {"typed": player.name})
    player.refresh_from_db()
    assert player.name
    desk.post(f"{path}/hold/", {"until": ""})
    assert "No retention hold" in words(desk.get(f"{path}/"))


def test_a_helmet_that_is_out_keeps_a_record(desk):
    player = added(desk)
    issued(player, a_helmet())
    answer = desk.post(f"/roster/{player.pk}/erase/", {"typed": player.name})
    assert answer.status_code == 409
    assert "TV-0147 is still out" in words(answer)


def test_nothing_is_done_by_looking_at_an_address(desk):
    player = added(desk)
    assert desk.get(f"/roster/{player.pk}/leave/").status_code == 405
    player.refresh_from_db()
    assert player.is_here


def test_a_consent_on_paper_is_kept_and_shown_as_such(desk):
    player = added(desk, birth_year="2001")
    said = {"about": "fitting", "by_whom": "player", "how": "paper"}
    assert desk.post(f"/roster/{player.pk}/consent/", said).status_code == 302
    consent = Consent.objects.get()
    assert (consent.on_paper, consent.text_version) == (True, "")
    page = words(desk.get(f"/roster/{player.pk}/"))
    assert "Consent to fitting given, on paper" in page
    assert "text 1" not in page
