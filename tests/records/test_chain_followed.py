"""A ledger's chain followed by a second program, which shares no code with ours."""

from datetime import timedelta

import pytest

from helmwright.records.kinds.people import ReadingTaken, TeamOpened
from tests.records.chain_follower import first_fault
from tests.records.entries import NOW, a_member, a_player, a_team, tell
from tests.records.tampering import run, without_guard


@pytest.fixture
def ledger(db):  # noqa: ARG001 - the database is there
    """Entries with whatever may stand in one: letters beyond ASCII, fractions, notes, an actor."""
    team = a_team('Kingfishers "Ñ"\t\\ \U0001f986 \x7f')
    player = a_player(team, name="Avocet Brookside", number="12", weight_kg=91.25)
    member = a_member()
    later = NOW + timedelta(microseconds=123456)
    tell(
        ReadingTaken(player=player.id, measure="head_circumference", value_mm=574.675),
        by=member.id,
        now=later,
    )
    tell(TeamOpened(team=team.id, name="Again"))
    return run("SELECT digest FROM records_entry ORDER BY seq DESC LIMIT 1")[0][0]


def test_the_second_follower_agrees_with_what_the_program_wrote(ledger: str):
    assert first_fault(run, ledger) == ""
    assert run("SELECT outcome FROM records_entry ORDER BY seq DESC LIMIT 1") == [("set aside",)]


@pytest.mark.usefixtures("ledger")
@pytest.mark.parametrize(
    ("statements", "fault"),
    [
        (
            ["UPDATE records_entry SET payload = replace(payload, '574.675', '584.2')"],
            "entry 4 is not what was written",
        ),
        (["DELETE FROM records_entry WHERE seq = 2"], "entry 2 is missing"),
        (
            [
                "DELETE FROM records_entry WHERE seq = 2",
                "UPDATE records_entry SET seq = seq - 1 WHERE seq = 3",
                "UPDATE records_entry SET seq = seq - 1 WHERE seq = 4",
                "UPDATE records_entry SET seq = seq - 1 WHERE seq = 5",
            ],
            "entry 2 does not follow the one before",
        ),
        (
            [
                "UPDATE records_entry SET seq = 1002 WHERE seq = 2",
                "UPDATE records_entry SET seq = 2 WHERE seq = 3",
                "UPDATE records_entry SET seq = 3 WHERE seq = 1002",
            ],
            "entry 2 does not follow the one before",
        ),
        (
            ["UPDATE records_entry SET outcome = 'taken' WHERE seq = 5"],
            "entry 5 is not what was written",
        ),
        (["UPDATE records_entry SET actor = NULL"], "entry 4 is not what was written"),
    ],
    ids=["payload", "removed", "removed and closed up", "swapped", "outcome", "who"],
)
def test_the_second_follower_catches_an_edit(statements: list[str], fault: str):
    with without_guard():
        run("DELETE FROM records_private")
        for statement in statements:
            run(statement)
    assert first_fault(run) == fault


def test_a_tail_that_was_cut_off_shows_only_against_a_head_on_paper(ledger: str):
    with without_guard():
        run("DELETE FROM records_entry WHERE seq = 5")
    assert first_fault(run) == ""
    assert first_fault(run, ledger) == "the head on paper is not in the chain"
