"""What a file would do is planned row by row; then all of it is done, or nothing."""

from datetime import date
from uuid import UUID, uuid4

import pytest

from helmwright.records.actions.take_in import (
    NothingToDoError,
    NotUndoneError,
    PlanChangedError,
    take_in,
    undo_take_in,
)
from helmwright.records.contents import contents
from helmwright.records.kinds.people import PlayerChanged, PlayerLeft
from helmwright.records.models import Entry, Helmet, Player, Reading, Role, TakeIn
from helmwright.records.readers.taking_in import plan_of, taken_before
from helmwright.records.saying import MayNotSayError
from helmwright.records.taking_in.plan import Verdict
from helmwright.records.taking_in.upload import MOST_ROWS, Upload
from helmwright.records.verify import verify
from helmwright.roster import RosterError
from tests.records.entries import a_member
from tests.records.room import DIGEST, Room

pytestmark = pytest.mark.django_db
TODAY = date(2026, 8, 7)
ROSTER = """No.,Player,Pos,Height,Weight,Born,Tape (in),Tape 2 (in),Worn
7,Wren Siltbank,QB,6 ft 1 in,210,2005,22 3/8,22 3/8,bare
22,Alder Riffleton,RB,5 ft 9 in,200,,22 7/8,,
22,Ibis Oxbow,OL,6 ft 4 in,300,,231/8,,
"""
HELMETS = """ID,Serial,Model,Shell,Color,Made,Recertified,Store,Build now
tv-0001,OZ-1,Ouzel (invented),3,navy,3/1/2024,2026-02-20,Room,crown 5/8
TV-0002,OZ-2,,4,navy,3/1/2024,,Drawer 8,
"""
STOCK = "Place,Size,Count\nfront,1 in,4\ncrown,5/8 in,6\ncrown,5/8 in,1\nshell,3,2\nrear,1 in,\n"


class Desk:
    """A manager with files."""

    def __init__(self):
        self.room = Room()
        self.by = a_member(Role.MANAGER)

    def upload(self, text, what="roster", **chosen):
        usual = {"team": self.room.team, "store": None, "sheet": DIGEST}
        usual |= {"store": self.room.store} if what != "roster" else {}
        fields = {"take_in": uuid4(), "file_name": f"{what}.csv", "data": text.encode()}
        return Upload(what=what, **(usual | fields | chosen))

    def plan(self, text, what="roster", **chosen):
        return plan_of(self.upload(text, what, **chosen), today=TODAY)

    def verdicts(self, *given, **chosen):
        return [line.verdict for line in self.plan(*given, **chosen).lines]

    def taken(self, text, what="roster", **chosen):
        upload = self.upload(text, what, **chosen)
        self.room.now = self.room.now.replace(minute=0)
        plan = plan_of(upload, today=TODAY)
        take_in(upload=upload, plan_digest=plan.digest, by=self.by, now=self.room.now)
        return upload


@pytest.fixture
def desk():
    return Desk()


def only(plan):
    (line,) = plan.lines
    return line


def test_a_plan_does_nothing_and_tells_every_row(desk):
    before = Entry.objects.count()
    first, second, third = desk.plan(ROSTER).lines
    assert Entry.objects.count() == before
    assert [first.row, second.row, third.row] == [2, 3, 4]
    assert (first.verdict, second.verdict, third.verdict) == ("add", "add", "refused")
    assert "number 7, position QB, born 2005, height 6-1, weight 210 lb" in first.says[0]
    assert "22 3/8 in" in first.says[1]
    assert len(first.says) == 3
    assert third.who == "Ibis Oxbow"
    assert '"231/8"' in third.says[0]


def test_the_same_file_and_room_make_the_same_plan(desk):
    upload = desk.upload(ROSTER)
    assert plan_of(upload, today=TODAY) == plan_of(upload, today=TODAY)
    other = desk.upload(ROSTER.replace("210", "211"), take_in=upload.take_in)
    assert plan_of(upload, today=TODAY).digest != plan_of(other, today=TODAY).digest


@pytest.mark.parametrize(
    ("what", "text"), [("roster", ROSTER), ("helmets", HELMETS), ("stock", STOCK)]
)
def test_a_file_that_is_taken_in_again_changes_nothing(desk, what, text):
    desk.taken(text, what)
    again = desk.upload(text, what)
    plan = plan_of(again, today=TODAY)
    assert plan.payloads == ()
    assert not plan.having(Verdict.ADD, Verdict.CHANGE, Verdict.ASKS)
    before = Entry.objects.count()
    with pytest.raises(NothingToDoError):
        take_in(upload=again, plan_digest=plan.digest, by=desk.by, now=desk.room.now)
    assert Entry.objects.count() == before
    assert taken_before(again) == TakeIn.objects.get()
    assert verify().faults == ()


@pytest.mark.parametrize(
    ("what", "text"), [("roster", ROSTER), ("helmets", HELMETS), ("stock", STOCK)]
)
def test_an_undone_file_leaves_the_room_as_it_was(desk, what, text):
    before = contents()
    upload = desk.taken(text, what)
    undo_take_in(take_in=upload.take_in, by=desk.by, now=desk.room.now)
    after = dict(contents())
    assert len(after.pop("TakeIn")) == 1
    assert after == {name: rows for name, rows in before.items() if name != "TakeIn"}
    assert verify().faults == ()
    with pytest.raises(NotUndoneError, match="undone before"):
        undo_take_in(take_in=upload.take_in, by=desk.by, now=desk.room.now)
    assert taken_before(desk.upload(text, what)) is None


def test_a_file_is_taken_in_as_it_was_shown_or_not_at_all(desk):
    upload = desk.upload(ROSTER)
    plan = plan_of(upload, today=TODAY)
    desk.taken("Number,Name\n7,Wren Siltbank")
    before = Entry.objects.count()
    with pytest.raises(PlanChangedError, match="Nothing was taken in"):
        take_in(upload=upload, plan_digest=plan.digest, by=desk.by, now=desk.room.now)
    assert Entry.objects.count() == before
    assert Player.objects.count() == 1


def test_one_file_is_taken_in_once(desk):
    upload = desk.taken(ROSTER)
    plan = plan_of(upload, today=TODAY)
    with pytest.raises(PlanChangedError, match="taken in already"):
        take_in(upload=upload, plan_digest=plan.digest, by=desk.by, now=desk.room.now)


@pytest.mark.parametrize(
    ("role", "what", "may"),
    [(Role.FITTER, "roster", True), (Role.FITTER, "stock", False), (Role.STUDENT, "roster", False)],
)
def test_who_may_take_in_what(desk, role, what, may):
    desk.by = a_member(role, "somebody")
    text = {"roster": ROSTER, "stock": STOCK}[what]
    if may:
        desk.taken(text, what)
        assert Player.objects.count() == 2
        return
    with pytest.raises(MayNotSayError):
        desk.taken(text, what)
    assert not TakeIn.objects.exists()


# The roster.


def test_accents_and_capitals_make_no_other_name_and_an_empty_cell_erases_nothing(desk):
    desk.taken("Number,Name,Position,Weight\n7,Égret Señorita,QB,210")
    line = only(desk.plan("Number,Name,Position,Weight\n7,EGRET SENORITA,WR,"))
    assert line.verdict == "change"
    assert line.says == ("position: QB → WR",)
    desk.taken("Number,Name,Position,Weight\n7,EGRET SENORITA,WR,")
    player = Player.objects.get()
    assert (player.name, player.position) == ("Égret Señorita", "WR")
    assert player.weight_kg == pytest.approx(95.25, abs=0.01)


def test_another_number_is_asked_about_and_never_guessed(desk):
    desk.taken("Number,Name\n7,Wren Siltbank")
    wren = Player.objects.get()
    text = "Number,Name\n8,Wren Siltbank"
    asked = only(desk.plan(text))
    assert (asked.verdict, asked.payloads) == ("asks", ())
    assert [choice.key for choice in asked.choices] == [str(wren.id), "new", "leave"]
    same = only(desk.plan(text, answers={2: str(wren.id)}))
    assert same.says == ("number: 7 → 8",)
    assert only(desk.plan(text, answers={2: "new"})).verdict == "add"
    assert only(desk.plan(text, answers={2: "leave"})).verdict == "left out"
    assert only(desk.plan(text, answers={2: str(uuid4())})).verdict == "asks"


def test_two_of_one_name_are_asked_about(desk):
    desk.taken("Number,Name\n7,Wren Siltbank")
    desk.taken("Number,Name\n8,Wren Siltbank", answers={2: "new"})
    asked = only(desk.plan("Number,Name\n8,Wren Siltbank"))
    assert asked.verdict == "asks"
    assert asked.choices[0].words == "the same player: Wren Siltbank (no. 8)"


def test_a_name_that_stands_twice_in_the_file_is_asked_about_and_taken_once(desk):
    desk.taken("Number,Name\n7,Wren Siltbank")
    wren = str(Player.objects.get().id)
    text = "Number,Name\n7,Wren Siltbank\n9,wren siltbank"
    assert desk.verdicts(text) == ["asks", "asks"]
    both = desk.plan(text, answers={2: wren, 3: wren}).lines
    assert [line.verdict for line in both] == ["same", "refused"]
    assert "row 2 is this player already" in both[1].says[0].lower()


@pytest.mark.parametrize("name", ["Wren Siltbanks", "Siltbank, Wren"])
def test_a_name_that_is_nearly_one_is_asked_about(desk, name):
    desk.taken("Number,Name\n7,Wren Siltbank")
    assert desk.verdicts(f'Number,Name\n7,"{name}"') == ["asks"]
    assert desk.verdicts(f'Number,Name\n7,"{name}"\n7,Wren Siltbank') == ["add", "same"]
    assert desk.verdicts("Number,Name\n7,Alder Siltbank") == ["add"]


def test_a_player_who_left_is_not_brought_back_by_a_file(desk):
    desk.taken("Number,Name\n7,Wren Siltbank")
    desk.room.taken(PlayerLeft(player=Player.objects.get().id))
    line = only(desk.plan("Number,Name\n7,Wren Siltbank"))
    assert line.verdict == "refused"
    assert "has left" in line.says[0]


def test_a_reading_of_another_day_is_another_reading(desk):
    head = "Name,Tape (in),Measured on\nWren Siltbank,22 3/8,"
    desk.taken(head + "7/1/2026")
    assert Reading.objects.get().at.date() == date(2026, 7, 1)
    assert desk.verdicts(head + "7/1/2026") == ["same"]
    assert desk.verdicts(head) == ["same"]
    assert desk.verdicts(head + "8/1/2026") == ["change"]


def test_readings_of_some_months_ago_are_kept_as_of_then_and_once(desk):
    text = "Name,Tape (in),Months ago\nWren Siltbank,22 3/8,4"
    desk.taken(text)
    assert Reading.objects.get().at.date() == date(2026, 4, 7)
    assert desk.verdicts(text) == ["same"]


def test_rows_without_a_name_and_cells_that_are_too_long_are_refused(desk):
    nameless, long = desk.plan(f"Number,Name\n7,\n8,{'Wren' * 40}").lines
    assert (nameless.verdict, long.verdict) == ("refused", "refused")
    assert "a number alone tells nobody apart" in nameless.says[0].lower()
    assert "longer than 120 letters" in long.says[0].lower()


def test_a_day_of_birth_is_kept_as_its_year_and_not_shown(desk):
    plan = desk.plan("Name,Date of birth\nWren Siltbank,5/4/2009\nAlder Riffleton,never")
    born, never = plan.lines
    assert "born 2009" in born.says[0]
    assert "5/4/2009" not in str(plan)
    assert "left out" in never.notices[-1]


def test_a_file_that_is_no_roster_or_too_long_is_refused_whole(desk):
    for text in ("", "a,b\n1,2", "Number,Name\n"):
        with pytest.raises(RosterError):
            desk.plan(text)
    tapes = ",".join(f"Tape {n} (in)" for n in range(1, 5))
    readings = "\n".join(f"Wren Siltbank {row},22,22,22,22" for row in range(MOST_ROWS))
    with pytest.raises(RosterError, match="5,000 things to do"):
        desk.plan(f"Name,{tapes}\n{readings}")
    many = "\n".join(f"{row},Wren Siltbank {row}" for row in range(MOST_ROWS + 1))
    with pytest.raises(RosterError, match="part it into several"):
        desk.plan(f"Number,Name\n{many}")


def test_a_change_since_keeps_a_player_as_changed(desk):
    desk.taken("Number,Name,Position\n7,Wren Siltbank,QB")
    wren = Player.objects.get()
    upload = desk.taken("Number,Name,Position\n7,Wren Siltbank,WR\n9,Ibis Oxbow,OL")
    desk.room.taken(PlayerChanged(player=wren.id, name=wren.name, number="7", position="TE"))
    undo_take_in(take_in=upload.take_in, by=desk.by, now=desk.room.now)
    assert list(Player.objects.values_list("position", flat=True)) == ["TE"]


# Helmets.


def test_helmets_are_added_with_what_is_in_them(desk):
    desk.taken(HELMETS, "helmets")
    one, two = Helmet.objects.order_by("code")
    assert (one.code, one.serial, one.shell, one.made_on) == (
        "TV-0001",
        "OZ-1",
        3,
        date(2024, 3, 1),
    )
    assert one.recertified_on == date(2026, 2, 20)
    assert one.interval_months == 24
    assert one.builds.get().pads["crown"] == "5/8 in"
    assert two.store_id == desk.room.drawer


def test_a_list_changes_what_it_states_and_nothing_else(desk):
    desk.taken(HELMETS, "helmets")
    text = "ID,Color,Store,Recertified\nTV-0001,white,drawer 8,8/1/2026\nTV-0002,,,"
    changed, same = desk.plan(text, "helmets").lines
    assert changed.says == (
        "color: navy → white",
        "recertified: Feb 20, 2026 → Aug 1, 2026",
        "store: Room → Drawer 8",
    )
    assert same.verdict == "same"
    desk.taken(text, "helmets")
    one = Helmet.objects.get(code="TV-0001")
    assert (one.color, one.store_id, one.serial) == ("white", desk.room.drawer, "OZ-1")


@pytest.mark.parametrize(
    ("row", "wrong", "right"),
    [
        ("TV-3,,Ouzel (invented),9,,,", "no such shell", "it has"),
        ("TV-3,,Dipper,3,,,", "no model sheet of that name", "Ouzel (invented)"),
        ("TV-3,,,3,13/4/2024,,", "no such month", "Apr 13"),
        ("TV-3,,,3,5.4.2024,,", "month or day first", "May 4 or Apr 5"),
        ("TV-3,,,3,2024,,", "the day is missing", "3/1/2024"),
        ("TV-3,,,3,3/1/2031,,", "not come yet", "check the year"),
        ("TV-3,,,,,,", "no shell", "its number"),
        ("TV 3/4,,,3,,,", "cannot stand on a label", "TV-0147"),
        (",,,3,,,", "no ID", "on its label"),
        ("TV-3,OZ-1,,3,,,", "TV-0001 has this serial", "both helmets"),
        ("TV-3,,,3,,Attic,", "no such store", "Drawer 8, Room"),
        ("TV-3,,,3,,,crown 3", "no crown pad", "there are"),
        ("TV-0001,,,4,,,", "has shell 3 here", "label"),
        ("TV-0001,,,,,,crown 7/8", "other pads are in TV-0001", "helmet's page"),
    ],
)
def test_a_row_of_helmets_that_is_wrong_says_what_would_be_right(desk, row, wrong, right):
    desk.taken(HELMETS, "helmets")
    line = only(desk.plan(f"ID,Serial,Model,Shell,Made,Store,Build now\n{row}", "helmets"))
    assert line.verdict == "refused"
    assert wrong.lower() in line.says[0].lower()
    assert right.lower() in line.says[0].lower()


def test_an_id_that_stands_twice_is_refused_the_second_time(desk):
    assert desk.verdicts("ID,Shell\nTV-1,3\ntv-1,4", "helmets") == ["add", "refused"]


# Stock.


def test_a_stock_list_counts_or_adds_up(desk):
    desk.room.received("front", "1 in", 1)
    counted = {line.row: line for line in desk.plan(STOCK, "stock").lines}
    assert counted[2].says == ("1 here → 4 counted",)
    assert counted[3].says == ("not listed here → 7 counted",)
    assert [counted[row].verdict for row in (4, 5, 6)] == ["same", "left out", "left out"]
    desk.taken(STOCK, "stock", how="received")
    assert desk.room.on_hand("front", "1 in") == 5
    assert desk.room.on_hand("crown", "5/8 in") == 7


def test_a_row_of_stock_that_is_wrong_stands_beside_the_others(desk):
    good, bad, no_count = desk.plan(
        "Place,Size,Count\nfront,1 in,4\nfront,9 in,2\nfront,7/8 in,many", "stock"
    ).lines
    assert (good.verdict, bad.verdict, no_count.verdict) == ("add", "refused", "refused")
    assert "there are" in bad.says[0].lower()


def test_a_stock_list_belongs_to_a_store_and_a_model(desk):
    with pytest.raises(RosterError, match="choose both"):
        desk.plan(STOCK, "stock", store=UUID(int=0))
