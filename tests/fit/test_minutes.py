"""What each act of a visit is charged at."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import measure_of
from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.fit import Build
from helmwright.fit.minutes import ACTS, Minutes, UnreadableMinutesError
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, moved
from tests.house.tree import ROOT


def test_changing_is_the_sum_of_the_pads_changed():
    minutes = Minutes(crown_pad=1.0, ring_pad=2.0, nape_pad=4.0, jaw_pad=8.0)
    before = delivered()
    after = moved(before, crown=1, left=-1, nape=1, jaw_right=-2)
    assert minutes.changing(before, after, OUZEL) == 1.0 + 2.0 + 4.0 + 8.0
    assert minutes.changing(after, before, OUZEL) == 15.0
    assert minutes.changing(after, after, OUZEL) == 0.0


def test_another_shell_is_fetched_as_delivered_and_changed_from_there():
    minutes = Minutes(other_shell=6.0, ring_pad=0.5)
    before = moved(delivered(), crown=2, jaw_left=1)
    after = moved(delivered(MIDDLE + 1), front=1)
    assert minutes.changing(before, after, OUZEL) == 6.5


def test_a_helmet_with_air_cells_is_filled_at_every_try_on():
    """One bladder, however many cells share it."""
    airy = load_packaged("redstart")
    cells = [pad.cell.bladder for pad in airy.pads if pad.cell]
    bladders = set(cells)
    assert 0 < len(bladders) < len(cells)
    minutes = Minutes(put_on=1.0, checks=2.0, air_fill=0.5)
    assert minutes.trying(airy) == 3.0 + 0.5 * len(bladders)
    assert minutes.trying(OUZEL) == 3.0


def test_a_measure_takes_what_the_table_says_or_the_usual():
    minutes = Minutes(measures={"jaw_pad_width": 2.5})
    assert minutes.measuring("jaw_pad_width") == 2.5
    assert minutes.measuring("head_length") == measure_of("head_length").minutes.value


def test_a_table_is_read_and_what_it_leaves_out_is_as_usual():
    read = Minutes.read("checks = 3\njaw_pad = 0.25\n[measures]\nbrow_to_top = 2\n")
    assert read == Minutes(checks=3.0, jaw_pad=0.25, measures={"brow_to_top": 2.0})
    assert Minutes.read("") == Minutes()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("chekcs = 3", "no act is called chekcs; there are put_on, checks"),
        ('checks = "3 min"', "checks: '3 min' is no number of minutes, such as 0.5"),
        ("look = true", "look: True is no number"),
        ("look = -1", "look: -1 minutes; from 0 to 60 would be right"),
        ("look = inf", "look: inf minutes"),
        ("put_on = 0\nchecks = 0", "a try-on must take more than 0 minutes"),
        ("measures = 3", "write a table"),
        ("[measures]\nhat = 1", "no measure is called hat"),
        ("checks = ", "is no TOML"),
    ],
)
def test_a_table_that_is_not_understood_says_where_and_what_would_be_right(text, words):
    with pytest.raises(UnreadableMinutesError) as error:
        Minutes.read(text)
    assert words in str(error.value)


@given(st.dictionaries(st.sampled_from(ACTS), st.floats(0.1, 60.0)))
def test_any_table_of_sensible_times_is_read_back(times):
    text = "\n".join(f"{key} = {value!r}" for key, value in times.items())
    assert Minutes.read(text) == Minutes(**times)


@given(st.lists(st.integers(0, 4), min_size=8, max_size=8), st.data())
def test_no_change_costs_less_than_nothing_and_a_detour_never_saves(pads, data):
    minutes = Minutes()
    one = Build(MIDDLE, tuple(pads))
    two = Build(MIDDLE, tuple(data.draw(st.integers(0, 4)) for _ in ZONES))
    direct = minutes.changing(delivered(), two, OUZEL)
    by_way = minutes.changing(delivered(), one, OUZEL) + minutes.changing(one, two, OUZEL)
    assert 0.0 <= direct <= by_way + 1e-9


def test_the_page_tells_every_act_and_its_usual_minutes():
    page = (ROOT / "docs/explanation/next-build.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| .* \| `(\w+)` \| ([\d.]+) \|$", page, re.MULTILINE)
    usual = Minutes()
    assert {key: float(minutes) for key, minutes in rows} == {
        key: getattr(usual, key) for key in ACTS
    }
    example = page.partition("```toml\n")[2].partition("```")[0]
    assert Minutes.read(example).measures == {"jaw_pad_width": 1.0}


def test_every_zone_has_a_time():
    minutes = Minutes()
    assert all(minutes.pad(zone) > 0.0 for zone in Zone)
