"""The protocol as it comes with the package, and as one helmet model has it."""

from dataclasses import replace

import pytest

from docs.generator.figures import all_records
from helmwright.catalogue import ZONES, Zone, load_packaged, packaged_models
from helmwright.catalogue.instruction import FitTopic, Instruction
from helmwright.fit.face import nose_interval
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.verdict import Bands
from helmwright.sources.records import COMMON_PRACTICE
from helmwright.units import inches
from helmwright.visit.check import Part, Stage, SubScore, UnknownAnswerError
from helmwright.visit.protocol import (
    MAKER,
    MAKER_FIRST,
    UnsuitedProtocolError,
    protocol_for,
    usual_protocol,
)

USUAL = usual_protocol()
CHECKS = USUAL.checks
OUZEL = load_packaged("ouzel")
REDSTART = load_packaged("redstart")
SISKIN = load_packaged("siskin")
CONTACT_ORDER = [
    "put on", "brow", "front", "crown", "left", "right", "rear", "ears", "jaw left", "jaw right",
    "nape",
]  # fmt: skip
LONGEST_SENTENCE = 20
LONGEST_TEXT = 120


def each_check(test):
    return pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.key)(test)


def said(sheet, topic: FitTopic, says: str, accept_mm=None):
    return replace(sheet, instructions=(Instruction(topic, says, accept_mm),))


def without(sheet, *zones: Zone):
    pads = tuple(replace(pad, seats=()) if pad.zone in zones else pad for pad in sheet.pads)
    return replace(sheet, pads=pads)


def texts(check) -> list[str]:
    answers = [text for each in check.answers for text in (each.says, each.points_to)]
    return [text for text in (*check.how, check.accept, check.put_right, *answers) if text]


@each_check
def test_the_answers_of_a_check_differ_and_only_a_bad_one_points_somewhere(check):
    words = [answer.word for answer in check.answers]
    assert len(set(words)) == len(words) >= 2
    grades = [answer.grade for answer in check.answers]
    assert grades.count(Grade.RIGHT) == 1
    assert all(bool(each.points_to) == (each.grade is not Grade.RIGHT) for each in check.answers)


@each_check
def test_an_answer_is_found_by_its_word_and_grades_the_finding(check):
    for answer in check.answers:
        found = check.findings(check.answer(answer.word))
        assert {each.grade for each in found} == {answer.grade}
        assert {each.sign for each in found} == {check.sign}
    with pytest.raises(UnknownAnswerError, match=check.answers[0].word):
        check.answer("blue")


@each_check
def test_the_criterion_of_every_check_has_a_source_on_record(check):
    assert check.source in all_records() or check.source == COMMON_PRACTICE.standing


@each_check
def test_every_check_is_written_so_that_a_volunteer_can_read_it_aloud(check):
    for text in texts(check):
        sentences = [each for each in text.replace("?", ".").replace(":", ".").split(".") if each]
        assert max(len(each.split()) for each in sentences) <= LONGEST_SENTENCE, text
        assert text[0].isupper()
        assert text[-1] in ".?", text
    assert all(len(line) <= LONGEST_TEXT for line in check.how)


def test_the_checks_of_contact_stand_in_the_working_order():
    assert [check.key for check in USUAL.stage(Stage.CONTACT)] == CONTACT_ORDER


def test_every_stage_and_every_score_has_its_checks():
    assert {check.stage for check in CHECKS} == set(Stage)
    assert {check.sub_score for check in CHECKS} == set(SubScore)


def test_the_zones_are_asked_by_their_own_names():
    zones = {check.zone: check.key for check in CHECKS if check.sign is Sign.ZONE}
    assert zones == {zone: zone.value for zone in ZONES}


def test_a_change_of_any_pad_asks_every_contact_check_again():
    for part in (Part.PAD, Part.CROWN, Part.JAW, Part.AIR, Part.SHELL):
        again = USUAL.repeated_after([part])
        assert set(USUAL.stage(Stage.CONTACT)) <= set(again)


def test_a_change_of_the_guard_asks_for_nose_sight_and_movement_again_and_for_no_pad():
    again = {check.key for check in USUAL.repeated_after([Part.GUARD])}
    assert {"nose", "sight", "turn", "nod", "brow", "guard on"} <= again
    assert not again & {zone.value for zone in ZONES}


def test_nothing_is_asked_again_where_nothing_was_changed():
    assert USUAL.repeated_after([]) == ()


@pytest.mark.parametrize("model", packaged_models())
def test_the_brows_interval_is_the_one_that_counts_as_right_everywhere_else(model):
    sheet = load_packaged(model)
    bands = Bands.of(sheet)
    brows = [check for check in protocol_for(sheet).checks if check.sign is Sign.BROW]
    assert len(brows) == 2
    for check in brows:
        assert check.length is not None
        assert check.length.accept_mm == pytest.approx((bands.brow_low_mm, bands.brow_high_mm))


@pytest.mark.parametrize("model", packaged_models())
def test_the_noses_interval_is_the_one_that_guards_are_chosen_by(model):
    for sheet in (
        load_packaged(model),
        said(load_packaged(model), FitTopic.FACE_GUARD_DISTANCE, "So.", (45.0, 60.0)),
    ):
        (nose,) = (check for check in protocol_for(sheet).checks if check.sign is Sign.NOSE)
        assert nose.length is not None
        assert nose.length.accept_mm == pytest.approx(nose_interval(sheet)[0])


@pytest.mark.parametrize("key", ["brow", "brow strapped", "nose"])
def test_the_words_of_a_length_name_the_ends_of_its_interval(key):
    check = USUAL.check(key)
    assert check.length is not None
    for end in check.length.accept_mm:
        assert inches(end) in check.accept


@pytest.mark.parametrize("key", ["brow", "brow strapped", "nose"])
def test_a_read_length_is_graded_by_the_interval_whatever_word_was_typed(key):
    check = USUAL.check(key)
    assert check.length is not None
    low, high = check.length.accept_mm
    right = check.answers[1]
    for value, grade in ((low - 1, -1), (low, 0), (high, 0), (high + 1, 1)):
        assert check.finding(right, value).grade == grade
        assert check.finding(right, value).value_mm == value


def test_no_hot_spot_says_so_of_every_zone_and_a_hot_spot_of_one():
    check = USUAL.check("hot spots")
    none = check.findings(check.answer("none"))
    assert [each.zone for each in none] == [a.zone for a in check.answers if a.zone is not None]
    (one,) = check.findings(check.answer("jaw left"))
    assert (one.zone, one.grade) == (Zone.JAW_LEFT, Grade.OVER)


def test_the_minutes_of_wearing_stand_in_the_text():
    assert f"Worn for {USUAL.minutes_worn:g} minutes" in USUAL.check("hot spots").how[0]


def test_a_zone_without_a_pad_has_no_check_and_no_hot_spot():
    bare = without(OUZEL, Zone.NAPE, Zone.JAW_LEFT)
    protocol = protocol_for(bare)
    keys = [check.key for check in protocol.checks]
    assert "nape" not in keys
    assert "jaw left" not in keys
    assert "jaw right" in keys
    words = [answer.word for answer in protocol.check("hot spots").answers]
    assert "nape" not in words
    assert "front" in words


def test_only_a_model_with_air_cells_is_asked_about_air():
    assert "air" not in [check.key for check in protocol_for(OUZEL).checks]
    filled = protocol_for(REDSTART)
    assert filled.check("air").stage is Stage.WORN
    cells = {pad.zone for pad in REDSTART.pads if pad.cell}
    assert cells
    for check in filled.checks:
        if check.sign is Sign.ZONE:
            assert bool(check.put_right) == (check.zone in cells)


def test_the_strap_is_counted_by_the_points_that_the_sheet_lists():
    assert "All four points" in protocol_for(OUZEL).check("tension").accept
    six = replace(OUZEL, chin_straps=tuple(replace(each, points=6) for each in OUZEL.chin_straps))
    assert "All six points" in protocol_for(six).check("tension").accept
    none = protocol_for(replace(OUZEL, chin_straps=()))
    assert "All four or six points" in none.check("tension").accept
    assert not any("{" in text for check in none.checks for text in texts(check))


def test_what_the_maker_says_stands_in_the_place_of_the_usual_criterion_and_is_marked():
    sheet = said(SISKIN, FitTopic.CROWN, "Two fingers of air over the crown.")
    crown = protocol_for(sheet).check("crown")
    assert crown.by_maker
    assert crown.accept == "Two fingers of air over the crown."
    assert crown.source == MAKER
    assert crown.how == (MAKER_FIRST, *USUAL.check("crown").how)
    others = [each for each in protocol_for(sheet).checks if each.key != "crown"]
    assert not any(each.by_maker for each in others)


def test_the_makers_interval_goes_before_the_usual_one_in_number_and_words():
    accept = (19.05, 25.4)
    sheet = said(SISKIN, FitTopic.BROW_HEIGHT, "The edge sits below an inch.", accept)
    for key in ("brow", "brow strapped"):
        check = protocol_for(sheet).check(key)
        assert check.length is not None
        assert check.length.accept_mm == accept
        assert check.accept == "The edge sits below an inch: from 3/4 to 1 in."
        assert "1 1/4" not in " ".join(answer.says for answer in check.answers)
        assert check.finding(check.answer("right"), 28.0).grade is Grade.OVER


def test_words_of_the_maker_without_an_interval_leave_the_usual_one():
    check = protocol_for(said(SISKIN, FitTopic.FACE_GUARD_DISTANCE, "Clear of the nose."))
    nose = check.check("nose")
    assert nose.accept == "Clear of the nose."
    assert nose.length == USUAL.check("nose").length


@pytest.mark.parametrize("topic", FitTopic)
def test_whatever_the_maker_says_a_person_gets_to_read_it(topic):
    protocol = protocol_for(
        said(OUZEL if topic is not FitTopic.AIR_CELLS else REDSTART, topic, "So.")
    )
    shown = [check.accept for check in protocol.checks if check.by_maker]
    assert "So." in shown + [each.says for each in protocol.more_by_maker]


def test_air_instructions_are_shown_even_where_no_check_of_air_is_asked():
    (kept,) = protocol_for(said(OUZEL, FitTopic.AIR_CELLS, "No air.")).more_by_maker
    assert kept.says == "No air."


@pytest.mark.parametrize("model", packaged_models())
def test_the_usual_protocol_goes_with_every_packaged_model(model):
    sheet = load_packaged(model)
    asked = [each.zone for each in protocol_for(sheet).checks if each.sign is Sign.ZONE]
    assert set(asked) == {pad.zone for pad in sheet.pads if pad.seats}
    assert len(set(asked)) == len(asked)


def test_a_protocol_that_skips_a_padded_zone_is_refused_by_the_zones_name():
    rest = tuple(check for check in CHECKS if check.key != "rear")
    with pytest.raises(UnsuitedProtocolError, match="zone rear is not checked"):
        protocol_for(OUZEL, base=replace(USUAL, checks=rest))
    unpadded = protocol_for(without(OUZEL, Zone.REAR), base=replace(USUAL, checks=rest))
    assert len(unpadded.checks) == len(protocol_for(OUZEL).checks) - 1


def test_a_protocol_that_checks_a_zone_twice_is_refused():
    again = replace(USUAL.check("nape"), key="nape again")
    place = CHECKS.index(USUAL.check("nape"))
    doubled = (*CHECKS[:place], again, *CHECKS[place:])
    with pytest.raises(UnsuitedProtocolError, match="zone nape is checked 2 times"):
        protocol_for(OUZEL, base=replace(USUAL, checks=doubled))


def test_a_protocol_without_the_brow_is_refused():
    rest = tuple(check for check in CHECKS if check.key != "brow")
    with pytest.raises(UnsuitedProtocolError, match="brow height is not checked"):
        protocol_for(OUZEL, base=replace(USUAL, checks=rest))


def with_brow(accept_mm: tuple[float, float], key: str = "brow"):
    asked = USUAL.check(key)
    assert asked.length is not None
    other = replace(asked, length=replace(asked.length, accept_mm=accept_mm))
    checks = tuple(other if each.key == key else each for each in CHECKS)
    return replace(USUAL, checks=checks)


def test_a_brow_that_the_chances_would_count_otherwise_is_refused_with_both_intervals():
    with pytest.raises(UnsuitedProtocolError) as refused:
        protocol_for(SISKIN, base=with_brow((19.0, 38.1)))
    assert "accepts 3/4 to 1 1/2 in" in str(refused.value)
    assert "has 3/4 to 1 1/4 in" in str(refused.value)
    sheet = said(SISKIN, FitTopic.BROW_HEIGHT, "One to two fingers.", (19.05, 38.1))
    assert protocol_for(sheet, base=with_brow((19.0, 38.1))).check("brow").by_maker
    strapped = protocol_for(SISKIN, base=with_brow((19.0, 38.1), "brow strapped"))
    assert strapped.check("brow strapped").finding(USUAL.check("brow").answers[1], 35.0).grade == 0


def test_a_brow_that_is_told_in_words_alone_is_taken():
    words = tuple(replace(each, length=None) if each.key == "brow" else each for each in CHECKS)
    assert protocol_for(SISKIN, base=replace(USUAL, checks=words)).check("brow").length is None


def test_a_protocol_may_not_be_empty_share_keys_or_go_back_a_stage():
    with pytest.raises(ValueError, match="at least one"):
        replace(USUAL, checks=())
    with pytest.raises(ValueError, match="two checks are called 'brow'"):
        replace(USUAL, checks=(*CHECKS, USUAL.check("brow")))
    with pytest.raises(ValueError, match="stage by stage"):
        replace(USUAL, checks=CHECKS[::-1])


def test_an_unknown_key_is_named():
    with pytest.raises(KeyError, match="chin"):
        USUAL.check("chin")


def test_symptoms_end_in_medical_hands_and_in_no_advice():
    assert "athletic trainer or a physician" in USUAL.symptom_stop
    words = [symptom.word for symptom in USUAL.symptoms]
    assert {"headache", "numbness", "dizziness", "neck pain", "after a hit"} <= set(words)
    assert len(set(words)) == len(words)
    told = " ".join(symptom.says for symptom in USUAL.symptoms).lower()
    for treatment in ("ice", "rest", "medicine", "pill", "wait", "play"):
        assert treatment not in told.replace(",", " ").replace(".", " ").split()
