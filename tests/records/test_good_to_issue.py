"""Whether the records show anything against a helmet, decided without a database."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.records.good_to_issue import (
    HelmetFacts,
    HelmetStanding,
    good_to_issue,
    months_after,
)
from helmwright.records.issuing import HelmetAsked, refusal

GOOD = HelmetFacts(
    made_on=date(2024, 3, 1),
    first_certified_on=date(2024, 4, 1),
    recertified_on=date(2026, 2, 20),
    intervals_months=(24,),
    lives_years=(10.0,),
)
TODAY = date(2026, 8, 7)
DAYS = st.dates(date(2010, 1, 1), date(2040, 12, 31))
FACTS = st.builds(
    HelmetFacts,
    made_on=st.none() | DAYS,
    first_certified_on=st.none() | DAYS,
    recertified_on=st.none() | DAYS,
    intervals_months=st.lists(st.integers(1, 60), max_size=2).map(tuple),
    lives_years=st.lists(st.floats(1.0, 20.0), max_size=2).map(tuple),
    hold=st.sampled_from(["", "a screw is missing"]),
    retired_on=st.none() | DAYS,
)


def but(**fields):
    return HelmetFacts(**{name: getattr(GOOD, name) for name in GOOD.__slots__} | fields)


def test_nothing_against_it_is_good_to_issue():
    verdict = good_to_issue(GOOD, TODAY)
    assert (verdict.word, verdict.mark, verdict.reasons) == ("good to issue", "yes", ())
    assert (verdict.lapses_on, verdict.ends_on) == (date(2028, 2, 20), date(2034, 3, 1))
    assert verdict.may_be_issued


@pytest.mark.parametrize(
    ("helmet", "word", "mark", "why"),
    [
        (but(recertified_on=date(2024, 8, 8)), "good to issue", "yes", ""),
        (
            but(recertified_on=date(2024, 8, 7)),
            "not good to issue",
            "no",
            "Its certification lapsed on Aug 7, 2026.",
        ),
        (
            but(intervals_months=(24, 6), recertified_on=date(2026, 2, 7)),
            "not good to issue",
            "no",
            "Its certification lapsed on Aug 7, 2026.",
        ),
        (but(made_on=date(2016, 8, 8)), "good to issue", "yes", ""),
        (
            but(made_on=date(2016, 8, 7)),
            "not good to issue",
            "no",
            "Its stated life ended on Aug 7, 2026.",
        ),
        (but(hold="a screw is missing"), "on hold", "hold", "It is on hold: a screw is missing."),
        (
            but(retired_on=date(2026, 8, 1), hold="cracked"),
            "retired",
            "no",
            "It was retired on Aug 1, 2026. It is on hold: cracked.",
        ),
        (
            but(first_certified_on=None, recertified_on=None),
            "unknown",
            "unknown",
            "No certification is recorded.",
        ),
        (
            but(intervals_months=()),
            "unknown",
            "unknown",
            "How often it must be recertified is not recorded.",
        ),
        (
            but(made_on=None, first_certified_on=None),
            "unknown",
            "unknown",
            "When it was made is not recorded.",
        ),
        (but(made_on=None, first_certified_on=None, lives_years=()), "good to issue", "yes", ""),
    ],
)
def test_the_strictest_word_stands_with_its_reason(helmet, word, mark, why):
    verdict = good_to_issue(helmet, TODAY)
    assert (verdict.word, verdict.mark, verdict.why) == (word, mark, why)


def test_a_certification_to_come_does_not_count_for_a_day_before_it():
    helmet = but(first_certified_on=None, recertified_on=date(2026, 9, 1))
    assert good_to_issue(helmet, TODAY).word == "unknown"
    assert good_to_issue(helmet, date(2026, 9, 1)).word == "good to issue"


def test_a_month_that_is_too_short_ends_on_its_last_day():
    assert months_after(date(2026, 1, 31), 1) == date(2026, 2, 28)
    assert months_after(date(2024, 2, 29), 12) == date(2025, 2, 28)
    assert months_after(date(2026, 11, 30), 3) == date(2027, 2, 28)
    assert months_after(date(2026, 1, 15), 24) == date(2028, 1, 15)


@given(FACTS, DAYS)
def test_a_hold_or_a_retirement_is_never_issued(helmet, day):
    verdict = good_to_issue(helmet, day)
    if helmet.hold or helmet.retired_on is not None:
        assert not verdict.may_be_issued
    assert verdict.may_be_issued == (
        verdict.standing in (HelmetStanding.GOOD, HelmetStanding.UNKNOWN)
    )
    assert (verdict.standing is HelmetStanding.GOOD) == (not verdict.reasons)


@given(FACTS, DAYS, st.integers(1, 2000))
def test_a_lapse_without_a_new_certification_does_not_heal(helmet, day, days):
    later = day + timedelta(days)
    certified = (helmet.first_certified_on, helmet.recertified_on)
    if any(each is not None and day < each <= later for each in certified):
        return
    if good_to_issue(helmet, day).standing is HelmetStanding.NOT_GOOD:
        assert good_to_issue(helmet, later).standing is HelmetStanding.NOT_GOOD


@given(FACTS, DAYS, st.integers(1, 60))
def test_one_more_limit_never_makes_it_better(helmet, day, months):
    order = list(HelmetStanding)
    limits = (*helmet.intervals_months, months)
    stricter = HelmetFacts(
        **{name: getattr(helmet, name) for name in helmet.__slots__} | {"intervals_months": limits}
    )
    was, now = (good_to_issue(each, day).standing for each in (helmet, stricter))
    if helmet.intervals_months:
        assert order.index(now) <= order.index(was)


def test_what_is_not_known_refuses_nothing_and_a_holder_does():
    unknown = good_to_issue(but(intervals_months=()), TODAY)
    assert refusal(HelmetAsked("TV-1", unknown)) == ""
    held = HelmetAsked("TV-1", unknown, holder="another player on Aug 3, 2026")
    assert refusal(held) == (
        "TV-1 was issued to another player on Aug 3, 2026. Take it back first, or another helmet."
    )
    on_hold = good_to_issue(but(hold="a screw is missing"), TODAY)
    assert refusal(HelmetAsked("TV-1", on_hold)) == (
        "TV-1 cannot be issued. It is on hold: a screw is missing."
        " Take another helmet, or have the hold lifted by the manager."
    )
