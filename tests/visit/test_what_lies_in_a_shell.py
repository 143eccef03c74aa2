"""What lies in a shell is the same to the page that tells a visit and to the next build's price."""

from hypothesis import given
from hypothesis import strategies as st

from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build_found import Found
from helmwright.fit.next_build_question import Question
from helmwright.fit.outlook import Build
from helmwright.fit.search import anything
from helmwright.visit.at_hand import at_hand
from helmwright.visit.event import Event, PutOn
from helmwright.visit.state import fold
from helmwright.visit.summary import summary
from tests.visit.scripts import OUZEL, WHOLE, begun

BUILDS = st.builds(
    lambda shell, front: Build(shell, (OUZEL.delivered[0], front, *OUZEL.delivered[2:])),
    st.integers(2, 4),
    st.integers(0, 3),
)


@given(st.lists(BUILDS, min_size=1, max_size=6), st.none() | BUILDS, st.lists(BUILDS, max_size=4))
def test_the_next_build_is_charged_from_what_the_page_says_lies_in_each_shell(tried, start, told):
    events: list[Event] = [begun(current=start, helmets=tuple(told))]
    events += [PutOn(build, "so") for build in tried]
    visit = fold(events)
    there = at_hand(visit, OUZEL)
    wrong = list(dict.fromkeys(tried))
    asked = Question(
        OUZEL, tried[-1], Found.of(()), wrong, there.lying, anything, Minutes(), tried=tried
    )  # fmt: skip
    for shell in (2, 3, 4, 5):
        plain = Build(shell, OUZEL.delivered)
        assert asked.lying(shell) == there.lies_for(plain)
        assert asked.was_on(shell) == any(build.shell == shell for build in tried)
    pages = summary(visit, WHOLE, OUZEL).try_ons
    for place, (build, page) in enumerate(zip(tried, pages, strict=True)):
        before = at_hand(fold(events[: place + 1]), OUZEL)
        assert page.changed == build.changes_from(before.lies_for(build))
        assert page.other_shell == (
            before.helmet is not None and before.helmet.shell != build.shell
        )
