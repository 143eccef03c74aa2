"""Labels, cards of fitted helmets, blank and standing sheets: opened and read."""

from typing import Any

import pypdfium2
import pytest

from helmwright.catalogue import load_packaged
from helmwright.catalogue.zone import ZONES
from helmwright.reports.paper import (
    LABEL_SHEETS,
    CardPad,
    CardPicture,
    CardReading,
    DrawerLabel,
    FittedCard,
    HelmetLabel,
    LabelSheet,
    Signature,
    StandingRow,
    code_picture,
    drawer_labels,
    fitted_cards,
    helmet_labels,
    signature_svg,
    standing_sheet,
    visit_sheet,
)
from helmwright.visit import protocol_for
from tests.reports.pdf import INCH, alternatives, picture, words

STROKES = (((10, 20), (40, 80), (90, 30)), ((120, 50),))


def card(**changed):
    said: dict[str, Any] = {
        "number": "24", "name": "Avocet Brookside", "about": "linebacker; worn: braids or locs",
        "code": "TV-0147", "model": "Ouzel (invented)", "shell": 4, "guard": "closed cage",
        "strap": "four points", "fitted": "Aug 7, 2026", "fitter": "Merle Sandbar",
        "until": "Feb 20, 2027", "pads": tuple(CardPad(zone, "1 1/8 in", "snug") for zone in ZONES),
        "readings": (CardReading("head circumference", "22 5/8, 22 1/2", "574 mm"),),
        "next_check": (("brow", "3/4 to 1 1/4 in"),), "found": (
            ("Before the helmet goes on", "All as it should be.", ()),
            ("On the head", "All as it should be.", ("Front pad: loose at try-on 1; then snug.",)),
        ),
        "picture": None, "warning": "Read aloud: text 2026-1.", "head": "412 · 3fa1 09bc",
        "signatures": (Signature("player", STROKES), Signature("fitter", typed="Merle Sandbar")),
    }  # fmt: skip
    return FittedCard(**(said | changed))


def test_labels_never_lie_on_top_of_each_other_or_leave_the_page():
    for sheet in LABEL_SHEETS.values():
        corners = {sheet.corner_in(place) for place in range(sheet.count)}
        assert len(corners) == sheet.count
        assert max(left for left, _ in corners) + sheet.width_in <= 8.5
    with pytest.raises(ValueError, match="leave the page"):
        LABEL_SHEETS["30"].nudged(right_in=0.5)
    with pytest.raises(ValueError, match="on top of each other"):
        LabelSheet("x", "x", 2, 2, 3.0, 1.0, 0.1, 0.1, 2.0, 1.0)


def test_used_labels_of_the_first_page_are_skipped():
    sheet = LABEL_SHEETS["10"]
    (page,) = pypdfium2.PdfDocument(helmet_labels([HelmetLabel("TV-0001", "X", 1)], sheet, skip=3))
    ink = picture(page)
    left, top = sheet.corner_in(3)
    label = ink[int(top * INCH) : int((top + 2) * INCH), int(left * INCH) : int((left + 4) * INCH)]
    assert label.sum() == pytest.approx(ink.sum())
    assert label.sum() > 1000
    with pytest.raises(ValueError, match="10 labels to skip"):
        helmet_labels([HelmetLabel("TV-0001", "X", 1)], sheet, skip=10)


def test_a_helmet_label_names_the_id_in_letters_and_no_person():
    pdf = helmet_labels([HelmetLabel("TV-0147", "Ouzel (invented)", 4, "Feb 20, 2027")],
                        LABEL_SHEETS["30"])  # fmt: skip
    (page,) = pypdfium2.PdfDocument(pdf)
    said = words(page)
    assert "TV-0147" in said
    assert "Ouzel (invented), shell 4" in said
    assert "certified until Feb 20, 2027" in said
    assert alternatives(page) == ["Code that holds TV-0147"]


def test_a_drawer_label_says_place_and_thickness_with_inches_to_hold_a_pad_against():
    pdf = drawer_labels([DrawerLabel("jaw left", "1 1/8 in", "Station 2")], LABEL_SHEETS["30"])
    (page,) = pypdfium2.PdfDocument(pdf)
    assert {"jaw", "left", "Station", "2"} <= set(words(page).split())


def test_nothing_to_print_is_said():
    for make in (
        lambda: helmet_labels([], LABEL_SHEETS["30"]),
        lambda: fitted_cards([]),
        lambda: standing_sheet([], title="x", foot="x"),
        lambda: code_picture(""),
    ):
        with pytest.raises(ValueError, match=r"nothing|nobody|something"):
            make()


def test_the_card_says_what_is_in_the_helmet_who_signed_and_the_ledgers_head():
    (page,) = pypdfium2.PdfDocument(fitted_cards([card()]))
    said = words(page)
    for part in ("Avocet Brookside", "TV-0147", "jaw right", "22 5/8, 22 1/2", "412 · 3fa1 09bc",
                 "fitter (name typed)", "Merle Sandbar", "No helmet prevents"):  # fmt: skip
        assert part in said
    assert alternatives(page) == ["Code that holds TV-0147", "Signature of the player"]


def test_the_edge_of_the_card_is_ruled_in_true_inches():
    (page,) = pypdfium2.PdfDocument(fitted_cards([card()]))
    strip = picture(page)[:, int(0.3 * INCH)]
    marks = [at for at in range(1, 8) if strip[at * INCH - 4 : at * INCH + 4].max() > 0.5]
    assert marks == list(range(1, 8))


def test_a_name_as_long_as_a_line_stays_on_one_page():
    long = card(name="Sanderling-Phalarope of the Long Marsh and the Lower Weir", number="100")
    assert len(pypdfium2.PdfDocument(fitted_cards([long, card()]))) == 2


def test_a_card_on_which_much_was_found_stays_on_one_page():
    way = tuple(f"{zone}, pressed down: tight at try-on 1; then snug." for zone in ZONES)
    stages = (
        "Before the helmet goes on",
        "On the head: where it touches",
        "Strap and face",
        "Told",
    )
    found = tuple((each, "All as it should be.", way if at == 1 else ())
                  for at, each in enumerate(stages))  # fmt: skip
    readings = (CardReading("width at the jaw pads", "5 1/2, 5 5/8", "140, 143 mm"),) * 5
    drawing = CardPicture(
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="4"/>', "Drawn."
    )
    warning = "Signed Nov 26, 2026: the warning was read aloud and explained. " * 2
    checks = (("jaw pad, left", "Firm on the cheek, the same as on the other side, no push"),) * 4
    much = card(
        found=found, readings=readings, picture=drawing, warning=warning, next_check=checks
    )  # fmt: skip
    (page,) = pypdfium2.PdfDocument(fitted_cards([much]))
    assert "And 5 more, in the records." in words(page)


def test_a_signature_is_drawn_as_it_was_and_no_further():
    svg = signature_svg(STROKES).decode()
    assert svg.count("M") == 2
    assert "style" not in svg
    with pytest.raises(ValueError, match="far outside"):
        signature_svg((((0, 0), (float("inf"), 1)),))


def test_the_blank_sheet_asks_every_check_of_the_protocol():
    sheet = load_packaged("ouzel")
    protocol = protocol_for(sheet)
    pdf = pypdfium2.PdfDocument(visit_sheet(sheet, protocol))
    said = " ".join(words(page) for page in pdf)
    assert all(check.title in said for check in protocol.checks)
    assert protocol.symptom_stop in said


def test_everybody_on_the_list_is_on_paper():
    rows = [StandingRow(str(at), f"Avocet {at}", "end", "issued") for at in range(60)]
    pdf = pypdfium2.PdfDocument(standing_sheet(rows, title="Roster of the Kingfishers", foot="x"))
    said = " ".join(words(page) for page in pdf)
    assert all(f"Avocet {at} " in said for at in range(60))
    assert "60 players" in said
