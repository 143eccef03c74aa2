"""Five scores, each by itself."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.fit.finding import Grade
from helmwright.visit import sub_scores as module
from helmwright.visit.check import SubScore
from helmwright.visit.protocol import usual_protocol
from helmwright.visit.sub_scores import Score, sub_scores

USUAL = usual_protocol()
KEYS = [check.key for check in USUAL.checks]
ANSWERS = st.dictionaries(st.sampled_from(KEYS), st.sampled_from(list(Grade)))


@given(ANSWERS)
def test_every_answered_check_counts_in_its_own_score_and_in_no_other(answers):
    scores = sub_scores(USUAL, answers)
    assert list(scores) == list(SubScore)
    for name, score in scores.items():
        mine = [grade for key, grade in answers.items() if USUAL.check(key).sub_score is name]
        assert score == Score(mine.count(Grade.RIGHT), len(mine))


@given(ANSWERS, st.sampled_from(KEYS))
def test_putting_one_answer_right_moves_one_score_by_one_at_most(answers, key):
    before = sub_scores(USUAL, {**answers, key: Grade.UNDER})
    after = sub_scores(USUAL, {**answers, key: Grade.RIGHT})
    changed = {name for name in SubScore if before[name] != after[name]}
    assert changed == {USUAL.check(key).sub_score}
    (name,) = changed
    assert after[name].right == before[name].right + 1


def test_no_total_is_offered_in_any_shape():
    scores = sub_scores(USUAL, dict.fromkeys(KEYS, Grade.RIGHT))
    assert set(scores) == set(SubScore)
    offered = {name.lower() for name in (*dir(module), *dir(Score), *SubScore)}
    assert not any(word in name for name in offered for word in ("total", "overall", "summary"))
    with pytest.raises(TypeError):
        sum(scores.values())  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        sorted(scores.values())  # type: ignore[type-var]


def test_an_answer_to_no_check_is_refused():
    with pytest.raises(KeyError, match="shine"):
        sub_scores(USUAL, {"shine": Grade.RIGHT})


@pytest.mark.parametrize(("right", "answered"), [(-1, 2), (3, 2)])
def test_a_count_that_cannot_be_is_refused(right, answered):
    with pytest.raises(ValueError, match="cannot be"):
        Score(right, answered)
