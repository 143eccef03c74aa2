"""Codes are read off the printed PDF by a reader that shares no code with their maker."""

import numpy as np
import pypdfium2
import pytest
import zxingcpp

from helmwright.catalogue.zone import Zone
from helmwright.reports.paper import (
    LABEL_SHEETS,
    CardPad,
    FittedCard,
    HelmetLabel,
    fitted_cards,
    helmet_labels,
)

PRINTED = 300 / 72
"""Dots of an office printer for each point of a page."""


def labels(count):
    return [
        HelmetLabel(f"TV-{at:04d}", "Ouzel (invented)", at % 6 + 1, "Feb 20, 2027")
        for at in range(1, count + 1)
    ]


def read(pdf: bytes):
    """Everything that a reader finds: kind and text, page by page."""
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        picture = page.render(scale=PRINTED).to_numpy()[:, :, :3].mean(axis=2).astype(np.uint8)
        found += [(code.format, code.text) for code in zxingcpp.read_barcodes(picture)]
    return found


@pytest.mark.outside("iso_18004")
@pytest.mark.parametrize("key", list(LABEL_SHEETS))
def test_every_label_of_a_sheet_is_decoded_to_its_own_id(key):
    sheet = LABEL_SHEETS[key]
    made = labels(sheet.count + 2)
    found = read(helmet_labels(made, sheet, skip=1))
    assert sorted(text for _, text in found) == [each.code for each in made]
    assert {kind for kind, _ in found} == {zxingcpp.BarcodeFormat.QRCode}


@pytest.mark.outside("iso_18004")
def test_a_code_with_a_blot_of_one_module_in_twelve_is_still_read():
    sheet = LABEL_SHEETS["10"]
    (page,) = pypdfium2.PdfDocument(helmet_labels(labels(1), sheet))
    picture = page.render(scale=PRINTED).to_numpy()[:, :, :3].mean(axis=2).astype(np.uint8)
    (code,) = zxingcpp.read_barcodes(picture)
    corner, across = code.position.top_left, code.position.top_right.x - code.position.top_left.x
    middle, half = (corner.x + across // 2, corner.y + across // 2), across // 24
    blotted = picture.copy()
    blotted[middle[1] - half : middle[1] + half, middle[0] - half : middle[0] + half] = 0
    assert [each.text for each in zxingcpp.read_barcodes(blotted)] == ["TV-0001"]


@pytest.mark.outside("iso_18004")
def test_the_card_of_a_fitted_helmet_carries_its_code():
    card = FittedCard(
        number="24", name="Avocet Brookside", about="", code="TV-0147", model="Ouzel (invented)",
        shell=4, guard="", strap="", fitted="Aug 7, 2026", fitter="Merle Sandbar", until="",
        pads=(CardPad(zone=Zone.CROWN, label="1 in"),), readings=(), next_check=(), found=(),
        picture=None, signatures=(), warning="", head="1 · 0000",
    )  # fmt: skip
    assert read(fitted_cards([card])) == [(zxingcpp.BarcodeFormat.QRCode, "TV-0147")]
