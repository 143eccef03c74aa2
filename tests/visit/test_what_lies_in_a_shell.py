"""What lies in a shell is the same to the page that tells a visit and to the next build's price."""

from hypothesis import given
from hypothesis import strategies as st

from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build_found import Found
from helmwright.fit.next_build_question import Question
from helmwright.fit.outlook import Build
from helmwright.fit.search import anything
from helmwright.visit.state import TryOn
from helmwright.visit.summary import lying
from tests.visit.scripts import OUZEL

BUILDS = st.builds(
    lambda shell, front: Build(shell, (OUZEL.delivered[0], front, *OUZEL.delivered[2:])),
    st.integers(2, 4),
    st.integers(0, 3),
)


@given(st.lists(BUILDS, min_size=1, max_size=6), st.none() | BUILDS)
def test_the_next_build_is_charged_from_what_the_page_says_lies_in_each_shell(tried, start):
    wrong = list(dict.fromkeys(tried))
    asked = Question(
        OUZEL, tried[-1], Found.of(()), wrong, start, anything, Minutes(), tried=tried
    )  # fmt: skip
    worn = tuple(TryOn(number, build, None, None) for number, build in enumerate(tried, start=1))
    for shell in (2, 3, 4, 5):
        assert asked.lying(shell) == lying(worn, start, shell, OUZEL)
        assert asked.was_on(shell) == any(build.shell == shell for build in tried)
