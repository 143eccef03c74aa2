"""IDs that a station makes against the published layout of UUIDs that begin with their time."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from uuid import UUID

import pytest
from playwright.sync_api import sync_playwright

from tests.browser.conftest import MISSING, QUIET, found_chromium

EXAMPLE = UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")
MADE_AT = 0x17F22E279B0
MODULE = Path("src/helmwright/web/static/web/station/uuid7.js")


def made_in_a_browser(expression: str) -> list[UUID]:
    """What a page makes that holds the station's module and nothing else."""
    program = found_chromium()
    if program is None:
        pytest.skip(MISSING)
    source = (Path(__file__).parents[2] / MODULE).read_text(encoding="utf-8")

    def run() -> list[str]:
        with sync_playwright() as started:
            browser = started.chromium.launch(executable_path=program, args=list(QUIET))
            page = browser.new_page()
            made: list[str] = page.evaluate(
                f"async () => {{ {source.replace('export ', '')}\nreturn {expression}; }}"
            )
            browser.close()
            return made

    # A thread of its own: another test's browser may be driven from this one.
    with ThreadPoolExecutor(1) as pool:
        return [UUID(each) for each in pool.submit(run).result()]


@pytest.fixture(scope="module")
def at_that_time() -> list[UUID]:
    return made_in_a_browser(f"Array.from({{ length: 4000 }}, () => uuid7({MADE_AT}))")


@pytest.mark.outside("rfc_9562")
def test_an_id_of_the_station_has_the_published_layout(at_that_time: list[UUID]):
    first = at_that_time[0]
    assert first.int >> 80 == EXAMPLE.int >> 80 == MADE_AT
    assert all(each.int >> 76 & 0xF == 7 for each in at_that_time)
    assert all(each.int >> 62 & 0b11 == 0b10 for each in at_that_time)


@pytest.mark.outside("rfc_9562")
def test_ids_of_one_millisecond_are_all_others_and_in_order(at_that_time: list[UUID]):
    assert at_that_time == sorted(set(at_that_time))


@pytest.mark.outside("rfc_9562")
def test_the_rest_of_an_id_is_random(at_that_time: list[UUID]):
    ones = [sum(each.int >> place & 1 for each in at_that_time) for place in range(62)]
    # Half of 4000 draws, give or take six times the spread of 32.
    assert all(1800 <= count <= 2200 for count in ones)
