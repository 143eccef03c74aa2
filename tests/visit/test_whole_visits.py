"""Visits played to their ends by players whose heads are known, and told in retrospect."""

import pytest

from helmwright.anatomy import Reading, Sex
from helmwright.catalogue import Zone, load_packaged, packaged_models
from helmwright.fit.finding import Grade
from helmwright.fit.outlook import Build
from helmwright.visit.belief import batches
from helmwright.visit.event import Accepted, Event, Measured, NoBuild, Proposed, PutOn
from helmwright.visit.guide import Guide
from helmwright.visit.looks import Looks
from helmwright.visit.protocol import protocol_for
from helmwright.visit.shelf import Shelf
from helmwright.visit.state import fold
from helmwright.visit.step import Record
from helmwright.visit.summary import VisitSummary, summary
from tests.visit.scripts import CONTACT_ALONE, DELIVERED, OUZEL, begun, moved, proposed
from tests.visit.simulated import FIVE, Truthful, play, quick_guide

MAN = begun(readings=FIVE, stated={"sex": Sex.MALE})
YOUTH = (Reading("tape_circumference", 535.0), Reading("head_length", 184.0))
GUIDE = quick_guide(CONTACT_ALONE, measures=False, draws=128)


def tries(events: list[Event]) -> int:
    return sum(isinstance(event, PutOn) for event in events)


def told(events: list[Event]) -> VisitSummary:
    return summary(fold(events), CONTACT_ALONE, OUZEL)


def test_with_a_fitter_who_is_never_mistaken_few_try_ons_lead_to_what_truly_fits():
    players = [Truthful.of(MAN, seed) for seed in range(5)]
    played = [play(GUIDE, MAN, player) for player in players]
    assert max(map(tries, played)) <= 4
    assert sum(map(tries, played)) <= 12
    for events, player in zip(played, players, strict=True):
        end = events[-1]
        assert isinstance(end, Accepted)
        assert player.head.rest(end.build).right[0], "what was accepted truly fits"


def test_with_nothing_but_the_wrong_helmet_there_is_no_build_and_what_would_do_is_named():
    wrong = Build(1, OUZEL.delivered)
    start = begun(readings=FIVE, stated={"sex": Sex.MALE}, current=wrong, shelf=())
    events = play(GUIDE, start, Truthful.of(start, 1))
    end = events[-1]
    assert isinstance(end, NoBuild)
    shelf = Shelf.of(OUZEL, ())
    assert end.would
    for other in end.would:
        assert other.lacking == shelf.lacking(other.build, wrong)
        assert other.lacking
        assert 0.0 < other.fits <= 1.0
    assert end.would[0].lacking[0].startswith("shell ")


def test_another_helmet_is_proposed_though_its_pads_are_far_from_those_of_the_one_at_hand():
    thin = Build(5, (0,) * len(OUZEL.pads))
    lies = moved(front=-1, rear=1, nape=1, jaw_left=1, jaw_right=1)
    start = begun(readings=FIVE, stated={"sex": Sex.MALE}, current=thin, helmets=(lies,), shelf=())
    guide = Guide(OUZEL, CONTACT_ALONE, draws=64, measures=False)
    step = guide.next([start])
    assert isinstance(step, Record)
    assert isinstance(step.event, Proposed)
    assert step.event.build == lies
    without = guide.next([begun(readings=FIVE, stated={"sex": Sex.MALE}, current=thin, shelf=())])
    assert isinstance(without, Record)
    assert step.event != without.event, "the same head in a store without that helmet"


def test_with_an_empty_store_and_no_helmet_nothing_is_put_on():
    start = begun(readings=FIVE, stated={"sex": Sex.MALE}, shelf=())
    events = play(GUIDE, start, Truthful.of(start, 1))
    assert isinstance(events[-1], NoBuild)
    assert tries(events) == 0
    assert events[-1].would


def test_a_visit_in_retrospect_tells_what_was_changed_looked_at_and_found():
    guide = quick_guide(CONTACT_ALONE, measures=False, looks=Looks.NONE)
    events = next(
        played
        for seed in range(30)
        if tries(played := play(guide, MAN, Truthful.of(MAN, seed))) == 2
    )
    whole = told(events)
    builds = [event.build for event in events if isinstance(event, Proposed)]
    first, second = whole.try_ons
    assert [first.build, second.build] == builds
    assert first.wrong
    assert not second.wrong
    assert first.changed == builds[0].changes_from(DELIVERED)
    if builds[1].shell == builds[0].shell:
        assert second.changed == builds[1].changes_from(builds[0])
    assert set(whole.standing) == {check.key for check in CONTACT_ALONE.checks}
    assert set(whole.standing.values()) == {Grade.RIGHT}
    right, answered = (sum(s.right for s in whole.scores.values()), len(whole.standing))
    assert right == answered
    assert second.proposed is not None
    assert second.proposed.why.endswith(".")


def test_pads_of_another_shell_are_counted_from_how_it_lies_there():
    other = Build(4, moved(front=1).pads)
    events: list[Event] = [
        begun(current=moved(rear=1)), proposed(), PutOn(DELIVERED), PutOn(other, "tight"),
        PutOn(DELIVERED, "back"),
    ]  # fmt: skip
    first, second, third = told(events).try_ons
    assert first.changed == (Zone.REAR,)
    assert (second.other_shell, second.changed) == (True, (Zone.FRONT,))
    assert (third.other_shell, third.changed) == (True, ())
    assert third.reason == "back"


def test_a_reading_taken_in_the_middle_is_believed_and_everything_found_is_learned_anew():
    start = begun(readings=FIVE[:1], stated={"sex": Sex.MALE})
    player = Truthful.of(start, 3)
    events = play(GUIDE, start, player)
    on = next(place for place, event in enumerate(events) if isinstance(event, PutOn)) + 12
    length = Reading("head_length", 214.0)
    before, after = fold(events[:on]), fold([*events[:on], Measured((length,))])
    tried = batches(CONTACT_ALONE.checks, before)
    assert batches(CONTACT_ALONE.checks, after) == tried
    beliefs = GUIDE.beliefs
    assert beliefs.estimate(after).read == ("tape_circumference", "head_length")
    lengths = [beliefs.after(v, tried).cloud.heads.of("head_length") for v in (before, after)]
    assert lengths[0].std() > 2 * lengths[1].std()
    assert abs(lengths[1].mean() - 214.0) < 3.0 < abs(lengths[0].mean() - 214.0)


@pytest.mark.parametrize("model", packaged_models())
def test_every_packaged_model_is_fitted_by_the_usual_protocol(model):
    sheet = load_packaged(model)
    usual = protocol_for(sheet)
    youth = sheet.ages is not None
    start = begun(
        readings=YOUTH if youth else FIVE,
        stated={"sex": Sex.MALE, **({"age_years": 11.5} if youth else {})},
    )
    events = play(quick_guide(usual, sheet, measures=False), start, Truthful.of(start, 1, sheet))
    end, visit = events[-1], fold(events)
    assert isinstance(end, Accepted)
    assert end.build == visit.try_ons[-1].build
    told = summary(visit, usual, sheet)
    assert set(told.standing) == {check.key for check in usual.checks}
    assert set(told.standing.values()) == {Grade.RIGHT}
