"""How often a door may be tried, and codes that let one device in; many at once, too."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier
from typing import TypeVar

import pytest
from django.db import connection

from helmwright.records.actions.doors import NoSuchCodeError, enroll, make_code
from helmwright.records.actions.staff import join
from helmwright.records.knocks import Limit, forget, knock
from helmwright.records.models import Device, EnrollmentCode, Knock, Role
from tests.records.entries import NOW

QUARTER = timedelta(minutes=15)
FIVE = Limit("pin", "a person on a device", 5, QUARTER)

Told = TypeVar("Told")


def at_once(count: int, act: Callable[[], Told]) -> list[Told]:
    start = Barrier(count)

    def run(_number: int) -> Told:
        start.wait()
        try:
            return act()
        finally:
            connection.close()

    with ThreadPoolExecutor(count) as pool:
        return list(pool.map(run, range(count)))


@pytest.mark.django_db
def test_so_many_tries_are_let_through_and_the_next_is_told_until_when():
    times = [NOW + timedelta(minutes=n) for n in range(5)]
    assert [knock([FIVE], now=at) for at in times] == [None] * 5
    assert knock([FIVE], now=times[-1]) == NOW + QUARTER
    assert knock([FIVE], now=NOW + QUARTER) is None


@pytest.mark.django_db
def test_a_refused_try_is_not_counted_so_that_waiting_helps():
    for _ in range(5):
        knock([FIVE], now=NOW)
    for minutes in range(14):
        assert knock([FIVE], now=NOW + timedelta(minutes=minutes)) == NOW + QUARTER
    assert knock([FIVE], now=NOW + QUARTER) is None


@pytest.mark.django_db
def test_of_two_limits_the_one_that_shuts_longer_is_told_and_neither_counts_the_try():
    wide = Limit("pin", "the device", 2, timedelta(hours=1))
    assert [knock([FIVE, wide], now=NOW) for _ in range(2)] == [None, None]
    assert knock([FIVE, wide], now=NOW) == NOW + timedelta(hours=1)
    assert Knock.objects.count() == 4


@pytest.mark.django_db
def test_the_right_word_forgets_the_tries_of_that_key_alone():
    other = Limit("pin", "somebody else", 5, QUARTER)
    for _ in range(5):
        knock([FIVE, other], now=NOW)
    forget(FIVE)
    assert knock([FIVE], now=NOW) is None
    assert knock([other], now=NOW) is not None


@pytest.mark.django_db(transaction=True)
def test_of_twelve_guesses_at_once_no_more_than_five_are_let_through():
    told = at_once(12, lambda: knock([FIVE], now=NOW))
    assert sum(until is None for until in told) <= 5
    assert Knock.objects.count() == sum(until is None for until in told)


@pytest.mark.django_db(transaction=True)
def test_of_six_devices_that_show_one_code_at_once_one_is_let_in():
    manager = join(
        username="ibis", name="Ibis Fen", role=Role.MANAGER, password=None, by=None, now=NOW
    )
    code = make_code(name="Station 1", store=None, by=manager, now=NOW)

    def show() -> bool:
        try:
            enroll(code=code, now=NOW)
        except NoSuchCodeError:
            return False
        return True

    assert at_once(6, show).count(True) == 1
    assert Device.objects.get().name == "Station 1"
    assert EnrollmentCode.objects.get().used_at == NOW
