"""What is printed: labels, rosters, blank sheets, cards."""

from datetime import date
from uuid import uuid4

import pypdfium2
import pytest
from django.urls import reverse
from django.utils import timezone

from helmwright.records.models import Part, Shelf, Store
from helmwright.web.paper.label_form import LabelForm
from tests.reports.pdf import words
from tests.web.players import (
    a_helmet,
    a_player,
    a_sheet,
    a_team,
    a_visit,
    issued,
    staff_of,
    taped,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def manager(client):
    a_team()
    client.force_login(staff_of("manager"))
    return client


def opened(answer):
    assert answer.status_code == 200
    assert answer["Content-Type"] == "application/pdf"
    return pypdfium2.PdfDocument(answer.content)


def said(answer):
    return " ".join(words(page) for page in opened(answer))


def test_a_helmets_label_carries_its_id_and_until_when_it_is_certified(manager):
    a_helmet("TV-0147", 4, recertified_on=date(2026, 2, 20), interval_months=24)
    printed = said(manager.get(reverse("paper-label", args=["tv-0147"])))
    assert "TV-0147" in printed
    assert "certified until Feb 20, 2028" in printed
    assert manager.get(reverse("paper-label", args=["TV-9999"])).status_code == 404


def test_no_name_stands_on_a_label(manager):
    issued(a_player("Avocet Brookside"), a_helmet())
    assert "Avocet" not in said(manager.get(reverse("paper-label", args=["TV-0147"])))


def test_labels_of_many_are_printed_on_the_sheet_that_is_asked_for(manager):
    for number in range(33):
        a_helmet(f"TV-{number:04d}", 3)
    page = manager.get(reverse("paper-labels")).content.decode()
    assert "Print 33 labels" in page
    assert len(opened(manager.get(reverse("paper-labels"), {"sheet": "30", "skip": "0"}))) == 2
    assert len(opened(manager.get(reverse("paper-labels"), {"sheet": "10", "skip": "3"}))) == 4


def test_a_wrong_wish_for_labels_is_told_what_would_be_right(manager):
    a_helmet()
    page = manager.get(reverse("paper-labels"), {"sheet": "10", "skip": "10"}).content.decode()
    assert "The sheet has 10 labels; skip fewer." in page


@pytest.mark.parametrize(
    ("written", "inches"),
    [("", 0.0), ("1/16", 0.0625), ("-1/16", -0.0625), ("−1/8", -0.125), ("+ 0.1", 0.1)],
)
def test_a_nudge_is_read_as_people_write_it(written, inches):
    form = LabelForm({"sheet": "30", "right": written})
    assert form.is_valid(), form.errors
    assert form.cleaned_data["right"] == pytest.approx(inches)


@pytest.mark.parametrize("written", ["a little", "1", "1/0"])
def test_a_nudge_that_is_none_is_refused(written):
    assert "right" in LabelForm({"sheet": "30", "right": written}).errors


def test_drawers_are_labeled_by_what_the_store_lists(manager):
    store = Store.objects.create(name="Trunk 2")
    part = Part.objects.create(sheet=a_sheet(), place="crown", size="7/8 in")
    Shelf.objects.create(store=store, part=part, on_hand=3)
    printed = said(manager.get(reverse("paper-drawers"), {"store": str(store.id)}))
    assert "Trunk 2" in printed
    assert "crown" in printed
    for asked in ("", "trunk 2", str(uuid4())):
        assert manager.get(reverse("paper-drawers"), {"store": asked}).status_code == 404


def test_the_roster_is_printed_as_it_stands_with_the_ledgers_head(manager):
    taped(a_player("Avocet Brookside", "24"), 22.625)
    issued(a_player("Dunlin Weirside", "30"), a_helmet("TV-0099"))
    printed = said(manager.get(reverse("paper-roster")))
    for part in ("Avocet Brookside", "22 5/8", "TV-0099", "issued", "2 players", "Ledger at entry"):
        assert part in printed
    only = said(manager.get(reverse("paper-roster"), {"standing": "issued"}))
    assert "Avocet" not in only
    assert manager.get(reverse("paper-roster"), {"standing": "no build"}).status_code == 404


def test_a_blank_visit_is_printed_for_the_model(manager):
    sheet = a_sheet()
    printed = said(manager.get(reverse("paper-blank"), {"sheet": sheet.digest}))
    assert "Brow height" in printed


def test_paper_is_kept_by_nobody_on_the_way(manager):
    a_helmet()
    answer = manager.get(reverse("paper-label", args=["TV-0147"]))
    assert answer["Cache-Control"] == "private, no-store"


def test_the_page_of_paper_names_every_store_that_holds_parts_and_every_model(manager):
    sheet, trunk = a_sheet(), Store.objects.create(name="Trunk 2")
    Store.objects.create(name="Empty shelf")
    Shelf.objects.create(
        store=trunk, part=Part.objects.create(sheet=sheet, place="crown", size="1 in"), on_hand=2
    )
    page = manager.get(reverse("paper")).content.decode()
    assert "Empty shelf" not in page
    assert "Drawer labels, Trunk 2" in page
    assert "Blank visit sheet, Ouzel (invented)" in page


def test_paper_offers_nothing_that_cannot_be_printed_yet(manager):
    empty = manager.get(reverse("paper")).content.decode()
    assert f'href="{reverse("paper-roster")}"' not in empty
    assert f'href="{reverse("paper-cards")}"' not in empty
    assert "Nobody was fitted today" in empty
    player, helmet = a_player("Dunlin Weirside", "30"), a_helmet("TV-0099")
    visit = a_visit(player, "accepted", helmet=helmet)
    visit.ended_at = timezone.now()
    visit.save()
    page = manager.get(reverse("paper")).content.decode()
    assert f'href="{reverse("paper-roster")}"' in page
    assert f'href="{reverse("paper-cards")}"' in page


def test_a_players_page_leads_to_the_card_of_what_was_fitted(manager):
    player, helmet = a_player("Dunlin Weirside", "30"), a_helmet("TV-0099")
    accepted = a_visit(player, "accepted", helmet=helmet)
    stopped = a_visit(player, "stopped")
    page = manager.get(reverse("player", args=[player.id])).content.decode()
    assert reverse("paper-card", args=[accepted.id]) in page
    assert reverse("paper-card", args=[stopped.id]) not in page
    assert manager.get(reverse("paper-card", args=[stopped.id])).status_code == 404


@pytest.mark.parametrize("role", ["student", "viewer"])
def test_signatures_are_printed_by_those_whose_work_needs_them(client, role):
    player, helmet = a_player("Dunlin Weirside", "30"), a_helmet("TV-0099")
    accepted = a_visit(player, "accepted", helmet=helmet)
    client.force_login(staff_of(role))
    card = reverse("paper-card", args=[accepted.id])
    assert client.get(card).status_code == 403
    assert client.get(reverse("paper-cards")).status_code == 403
    assert card not in client.get(reverse("player", args=[player.id])).content.decode()
    assert reverse("paper-cards") not in client.get(reverse("paper")).content.decode()
