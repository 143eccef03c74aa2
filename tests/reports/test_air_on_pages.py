"""Air cells on the pages: how to fill, what to expect, what is assumed, what to try."""

import csv
import io
import json
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import Reading, estimate_head
from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.fit import Proposal, propose
from helmwright.fit.outlook import Fault, FaultKind
from helmwright.fit.search import Effort
from helmwright.reports import answer_json, build_page, roster_csv, roster_page
from helmwright.reports.remedy import checks, remedy
from helmwright.roster import Player, PlayerAnswer, RosterAnswer

REDSTART = load_packaged("redstart")
SMALL = Effort(climb=16, near=16, race=32, fresh=100, entrants=4, ranked=2, driven=16)


@cache
def proposal() -> Proposal:
    head = estimate_head([Reading("tape_circumference", 570.0)])
    return propose(head, REDSTART, rng=np.random.default_rng(4), effort=SMALL)


def answer() -> RosterAnswer:
    readings = (Reading("tape_circumference", 570.0),)
    player = Player(row=2, name="Wren Siltbank", number="7", readings=readings)
    one = PlayerAnswer(player, estimate_head(list(readings)), proposal())
    return RosterAnswer((one,), (), (), 4, REDSTART)


def flat(page: str) -> str:
    return " ".join(page.split())


def test_a_build_with_cells_says_how_to_fill_and_what_its_chances_mean():
    page = flat(build_page(answer(), 80))
    (fill,) = proposal().ranked[0].fills
    assert fill.strokes is not None
    assert "fill rear, left and right until the fitter feels them snug" in page
    assert f"about {fill.strokes.low:.0f} to {fill.strokes.high:.0f} strokes of the pump" in page
    assert "after each cell is filled by feel, before anything is checked again" in page
    assert "how far that varies, is assumed" in page
    assert "check the fill weekly" in page


def test_no_page_proposes_a_thickness_for_a_cell():
    best = proposal().ranked[0]
    assert not set(best.changes) & {Zone.REAR, Zone.LEFT, Zone.RIGHT}
    page = build_page(answer(), 80)
    row = next(line for line in page.splitlines() if line.startswith("rear       "))
    assert row.split()[1] == "air"


def test_a_roster_says_once_what_air_means():
    page = flat(roster_page(answer()))
    assert page.count("air: filled on the head until it feels snug, which is assumed") == 1


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (FaultKind.LOOSE, "let air into {}; where they are full, 1 1/4 in, and still so,"),
        (FaultKind.TIGHT, "let air out of {}; where they are flat, 5/8 in, and still so,"),
    ],
)
def test_what_is_wrong_over_a_cell_is_cured_with_air_first(kind, words):
    told = remedy(Fault(kind, Zone.LEFT, 0.3), proposal().ranked[0], REDSTART)
    assert told.startswith(words.format("the linked rear, left and right cells"))
    assert told.endswith(("try shell 2", "try shell 3", "try shell 4"))
    largest = replace(REDSTART, shells=REDSTART.shells[2:3])
    alone = remedy(Fault(kind, Zone.LEFT, 0.3), in_shell(3), largest)
    assert alone.endswith("try another model")


def test_a_cell_of_its_own_is_filled_by_its_own():
    own = [replace(p, cell=p.cell and replace(p.cell, bladder=str(p.zone))) for p in REDSTART.pads]
    told = remedy(
        Fault(FaultKind.TIGHT, Zone.LEFT, 0.3),
        proposal().ranked[0],
        replace(REDSTART, pads=tuple(own)),
    )
    assert told.startswith("let air out of the left cell; where it is flat, 5/8 in, and still so,")


def test_what_was_said_of_one_linked_cell_is_not_said_again_of_another():
    faults = [
        Fault(FaultKind.TIGHT, Zone.LEFT, 0.3),
        Fault(FaultKind.TIGHT, Zone.RIGHT, 0.2),
        Fault(FaultKind.LOOSE, Zone.RIGHT, 0.1),
    ]
    told = [words for _, words in checks(faults, proposal().ranked[0], REDSTART)]
    assert told[1] == "as for left tight"
    assert told[0].startswith("let air out of")
    assert told[2].startswith("let air into")


def in_shell(number: int):
    best = proposal().ranked[0]
    return replace(best, build=replace(best.build, shell=number))


def test_programs_get_the_fills_too():
    (player,) = json.loads(answer_json(answer()))["players"]
    best = player["proposal"]["ranked"][0]
    (fill,) = best["fills"]
    assert fill["zones"] == ["rear", "left", "right"]
    assert 0 < fill["gauge_kpa"]["low"] < fill["gauge_kpa"]["mean"] < fill["gauge_kpa"]["high"]
    assert best["zones"][ZONES.index(Zone.REAR)]["pad"] == "air"


def test_a_table_says_air_where_there_is_no_thickness_to_choose():
    rows = list(csv.DictReader(io.StringIO(roster_csv(answer()))))
    assert [rows[0][f"{zone} (in)"] for zone in ("rear", "left", "right")] == ["air"] * 3
    assert float(rows[0]["crown (in)"]) > 0.3
