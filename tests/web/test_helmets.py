"""Helmets: the list, one helmet's page, and what is done with it."""

import re
from datetime import UTC, date, datetime

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from helmwright.records.models import Entry, Helmet, Issue, Outcome, Role, Shelf
from helmwright.web.desk.helmet import next_game, next_season, parse_game
from helmwright.web.desk.helmets import next_code
from helmwright.web.desk.life_tape import Event, by_day, levels_of
from tests.web.desk_room import Room, fitting_day

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
CODE = "TV-0147"


@pytest.fixture
def room():
    made = Room(NOW)
    made.helmet(CODE)
    return made


def as_role(room, role=Role.MANAGER):
    client = Client()
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
    return client


def done(room, act, role=Role.MANAGER, **fields):
    address = reverse("helmet-act", args=[CODE, act])
    return as_role(room, role).post(address, fields)


def the_helmet():
    return Helmet.objects.get(code=CODE)


def page(room, role=Role.MANAGER, **asked):
    return as_role(room, role).get(reverse("helmet", args=[CODE]), asked).content.decode()


@pytest.mark.parametrize("role", list(Role))
def test_every_role_may_look_at_helmets(room, role):
    client = as_role(room, role)
    assert client.get(reverse("helmets")).status_code == 200
    assert client.get(reverse("helmet", args=[CODE])).status_code == 200


def test_a_code_that_nobody_has_is_not_found(room):
    assert as_role(room).get(reverse("helmet", args=["TV-9999"])).status_code == 404
    assert as_role(room).post(reverse("helmet-act", args=[CODE, "explode"])).status_code == 404


def test_the_list_asks_as_often_for_many_helmets_as_for_few(django_assert_max_num_queries):
    room = fitting_day(NOW)
    for number in range(120):
        room.helmet(f"XX-{number:04d}")
    client = as_role(room)
    with django_assert_max_num_queries(20):
        assert client.get(reverse("helmets")).status_code == 200


def test_the_list_says_why_a_helmet_is_not_good_and_finds_it_by_that(room):
    today = timezone.localdate()
    lapsed = date(today.year - 3, 1, 1)
    room.helmet("TV-0150", recertified_on=lapsed, first_certified_on=lapsed)
    room.helmet("TV-0151", hold="crack at the ear")
    shown = as_role(room).get(reverse("helmets"), {"standing": "not good to issue"})
    text = shown.content.decode()
    assert "TV-0150" in text
    assert "TV-0151" not in text
    assert "lapsed on Jan 1," in text
    held = as_role(room).get(reverse("helmets"), {"standing": "on hold"}).content.decode()
    assert "crack at the ear" in held


def test_a_helmet_that_somebody_has_stands_as_issued_and_not_as_good_to_issue():
    client = as_role(fitting_day(NOW))
    held = Issue.objects.select_related("helmet", "player").order_by("helmet__code").first()
    assert held is not None
    said = f"issued to {held.player.number}"
    every = client.get(reverse("helmets")).content.decode()
    free = client.get(reverse("helmets"), {"standing": "good to issue"}).content.decode()
    out = client.get(reverse("helmets"), {"standing": "with a player"}).content.decode()
    assert said in every
    assert (held.helmet.code in free, held.helmet.code in out) == (False, True)
    one = client.get(reverse("helmet", args=[held.helmet.code])).content.decode()
    assert one.index(f"Issued to {held.player.number} now") < one.index("Good to issue")


def test_a_search_gives_the_rows_alone_where_the_page_asks_for_them(room):
    client = as_role(room)
    part = client.get(reverse("helmets"), {"find": "0147"}, HTTP_HX_TARGET="found")
    assert part.content.decode().startswith('<div id="found">')
    none = client.get(reverse("helmets"), {"find": "zebra"}).content.decode()
    assert "No helmet is so" in none


def test_good_is_said_not_to_mean_safe(room):
    assert "It does not mean safe" in page(room)
    assert "It does not mean safe" in as_role(room).get(reverse("helmets")).content.decode()


def test_a_helmet_is_told_for_the_day_that_is_asked_for(room):
    far = date(timezone.localdate().year + 8, 9, 5)
    shown = page(room, game=far.isoformat())
    assert f"Sep 5, {far.year}" in shown
    assert "lapses on Feb 20, 2028" in shown


def test_a_hold_is_kept_with_its_reason_and_the_helmet_is_not_good(room):
    assert done(room, "hold", why="crack at the left ear").status_code == 302
    assert the_helmet().hold == "crack at the left ear"
    assert "on hold: crack at the left ear" in page(room)
    entry = Entry.objects.get(kind="helmet held")
    assert entry.actor == room.staff[Role.MANAGER].id


def test_a_hold_without_a_reason_is_asked_again_and_nothing_is_kept(room):
    answer = done(room, "hold", why="")
    assert answer.status_code == 422
    assert "<details open>" in answer.content.decode()
    assert not Entry.objects.exists()


def test_a_student_may_hold_and_not_lift_the_hold(room):
    assert done(room, "hold", Role.STUDENT, why="bent guard").status_code == 302
    assert done(room, "release", Role.STUDENT).status_code == 403
    assert the_helmet().hold
    assert done(room, "release").status_code == 302
    assert not the_helmet().hold


@pytest.mark.parametrize("role", [Role.TRAINER, Role.VIEWER])
def test_who_only_looks_does_nothing_and_is_offered_nothing(room, role):
    assert done(room, "hold", role, why="because").status_code == 403
    assert "What is done with it" not in page(room, role)
    assert not Entry.objects.exists()


def test_pads_that_are_changed_move_the_shelf(room):
    front = room.sheet.pads[1]
    other = next(label for label in front.labels if label != front.labels[front.delivered])
    room.stock("front", other, (600, 3))
    fields = {f"pad-{zone.replace(' ', '-')}": pad for zone, pad in room.delivered().items()}
    fields |= {"pad-front": other, "store": room.store.id, "why": "loose at the front"}
    assert done(room, "pads", **fields).status_code == 302
    assert Shelf.objects.get(part__place="front", part__size=other).on_hand == 2
    assert "for loose at the front" in page(room)


def test_pads_that_are_all_as_before_are_no_change(room):
    fields = {f"pad-{zone.replace(' ', '-')}": pad for zone, pad in room.delivered().items()}
    answer = done(room, "pads", **fields, store=room.store.id)
    assert answer.status_code == 422
    assert "No pad is another than before" in answer.content.decode()


def test_a_helmet_that_is_out_comes_back_with_what_is_seen_on_it(room):
    room.issue(room.visit(room.player("24"), None, 60, 30), the_helmet())
    assert "Take it back" in page(room)
    done(room, "return", store=room.store.id, condition="bumper scratched")
    assert Issue.objects.get().until is not None
    assert "came back: bumper scratched" in page(room)
    assert "Take it back" not in page(room)


def test_it_is_moved_only_to_another_store(room):
    trunk = room.store_of("Trunk 3")
    assert done(room, "move", store=room.store.id).status_code == 422
    assert done(room, "move", store=trunk.id).status_code == 302
    assert the_helmet().store == trunk


def test_retiring_asks_for_the_id_and_is_for_good(room):
    wrong = done(room, "retire", why="ten years", typed="TV-0001")
    assert wrong.status_code == 422
    assert "it is TV-0147" in wrong.content.decode()
    assert done(room, "retire", why="ten years", typed="tv-0147").status_code == 302
    assert the_helmet().retired_on is not None
    assert "Retire it for good" not in page(room)


def test_dates_that_cannot_be_are_told_at_their_field(room):
    answer = done(room, "change", made_on="2024-03-01", bought_on="2023-03-01")
    assert answer.status_code == 422
    assert "Bought on is before it was made" in answer.content.decode()
    assert not Entry.objects.exists()


def test_changed_dates_leave_guard_and_strap_as_they_are(room):
    Helmet.objects.update(guard="closed", strap="soft")
    assert (
        done(room, "change", made_on="2024-03-01", recertified_on="2026-07-01").status_code == 302
    )
    found = the_helmet()
    assert (found.guard, found.strap) == ("closed", "soft")
    assert found.recertified_on == date(2026, 7, 1)


def test_a_face_guard_is_changed_alone(room):
    guard = room.sheet.face_guards[0].name
    assert done(room, "face", guard=guard, strap="", store=room.store.id).status_code == 302
    assert the_helmet().guard == guard
    assert done(room, "face", guard=guard, strap="", store=room.store.id).status_code == 422


def added(room, role=Role.MANAGER, **fields):
    usual = {"code": "TV-0148", "model": f"{room.sheet_row.digest}|4", "store": room.store.id}
    return as_role(room, role).post(reverse("helmet-add"), usual | fields)


def test_a_helmet_is_added_with_what_its_shell_arrives_with(room):
    assert added(room, code="tv-0148", made_on="2026-03-01").status_code == 302
    new = Helmet.objects.get(code="TV-0148")
    assert new.builds.get().pads == room.delivered()
    assert (new.shell, new.interval_months) == (4, room.sheet.recertification_months)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"code": CODE}, "There is a helmet TV-0147 already"),
        ({"code": "TV 0148"}, "letters, digits and dashes alone"),
        ({"serial": f"S-{CODE}"}, "TV-0147 has this serial number"),
        ({"made_on": "2206-01-01"}, "look at the year"),
        ({"model": "nothing|4"}, "Select a valid choice"),
    ],
)
def test_what_is_wrong_with_a_new_helmet_is_told_and_nothing_is_kept(room, fields, said):
    answer = added(room, **fields)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert not Entry.objects.exists()


def test_only_a_manager_adds_a_helmet(room):
    for role in set(Role) - {Role.MANAGER}:
        assert added(room, role).status_code == 403
    assert Helmet.objects.count() == 1


def test_an_act_without_effect_is_kept_and_told_as_such(room):
    answer = as_role(room).post(reverse("helmet-act", args=[CODE, "release"]), follow=True)
    assert "Kept, but without effect: TV-0147 was not on hold" in answer.content.decode()
    assert Entry.objects.get().outcome == Outcome.SET_ASIDE


def test_the_next_id_follows_the_highest_of_the_commonest_kind(room):
    room.helmet("TV-0009")
    room.helmet("OLD")
    assert next_code() == "TV-0148"
    Helmet.objects.all().delete()
    assert next_code() == ""


def test_the_next_game_is_a_saturday_and_the_next_season_an_august():
    assert next_game(date(2026, 8, 7)) == date(2026, 8, 8)
    assert next_game(date(2026, 8, 8)) == date(2026, 8, 8)
    assert next_season(date(2026, 8, 7)) == date(2027, 8, 1)
    assert next_season(date(2027, 2, 7)) == date(2027, 8, 1)


@pytest.mark.parametrize("text", ["", "soon", "2026-13-40", "2020-01-01"])
def test_a_game_that_is_no_day_to_come_is_taken_for_the_next_saturday(text):
    assert parse_game(text, date(2026, 8, 7)) == date(2026, 8, 8)


def test_what_is_of_one_day_is_said_once():
    day = date(2024, 3, 1)
    events = [Event(day, "made"), Event(day, "certified", is_strong=True), Event(day, "made")]
    assert by_day(events) == [Event(day, "made, certified", is_strong=True)]


def test_words_above_the_tape_run_into_nothing_and_lines_pass_by_them():
    levels = levels_of([(10.0, "recertified"), (11.0, "issued to 24"), (40.0, "bought")])
    assert levels == [1, 0, 0]


def test_words_at_the_right_end_stand_left_of_their_mark():
    assert levels_of([(85.0, "issued to 24"), (90.0, "life ends Mar 11, 2031")]) == [0, 1]


def test_what_people_write_is_shown_and_never_run(room):
    done(room, "hold", why="<script>alert(1)</script>")
    assert "<script>alert" not in page(room)


@pytest.mark.parametrize("role", [Role.MANAGER, Role.STUDENT])
def test_beside_text_that_outlives_an_erasure_stands_that_no_player_is_named(room, role):
    shown = page(room, role)
    fields = re.findall('<input[^>]* name="(?:why|condition)"[^>]*>', shown)
    assert fields
    helps = [key for each in fields for key in re.findall('aria-describedby="([^" ]+)', each)]
    assert len(helps) == len(fields)
    texts = [text for key in helps for text in re.findall(f'id="{key}">([^<]*)', shown)]
    assert len(texts) == len(fields)
    assert all("No names of players" in text for text in texts)
