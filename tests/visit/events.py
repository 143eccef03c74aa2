"""Any event of a visit with the Ouzel, for property tests."""

from hypothesis import strategies as st

from helmwright.anatomy import MEASURE_KEYS, Over, Reading, Sex, Touch
from helmwright.anatomy.prior import Stated
from helmwright.catalogue import load_packaged
from helmwright.fit.outlook import Build
from helmwright.visit import event as ev

OUZEL = load_packaged("ouzel")

WORDS = st.text(max_size=20)
CHANCES = st.floats(0.0, 1.0)
AMOUNTS = st.floats(0.0, 1e6)
HAIR = [over for over in Over if not over.is_headwear]
BUILDS = st.builds(
    Build,
    st.sampled_from([shell.number for shell in OUZEL.shells]),
    st.tuples(*(st.integers(0, len(pad.labels) - 1) for pad in OUZEL.pads)),
)
READINGS = st.builds(
    Reading,
    st.sampled_from(MEASURE_KEYS),
    st.floats(1e-3, 1e4),
    over=st.sampled_from(Over),
    months_ago=st.floats(0.0, 600.0),
    beneath=st.none() | st.sampled_from(HAIR),
    touch=st.sampled_from(Touch),
    by=WORDS,
    tem_mm=st.none() | st.floats(1e-3, 50.0),
)
MANY_READINGS = st.lists(READINGS, max_size=4).map(tuple)
STATED_KEYS = tuple(Stated.__annotations__)
STATED = st.fixed_dictionaries(
    {},
    optional={
        "sex": st.none() | st.sampled_from(Sex),
        "stature_mm": st.none() | AMOUNTS,
        "weight_kg": st.none() | AMOUNTS,
        "male_share": CHANCES,
        "survey": WORDS,
        "age_years": st.none() | AMOUNTS,
        "ages": st.none() | st.tuples(AMOUNTS, AMOUNTS),
    },
).map(lambda stated: {key: stated[key] for key in STATED_KEYS if key in stated})
SHELF = st.lists(st.tuples(WORDS, WORDS, st.integers(0, 1000)), max_size=5).map(tuple)
WOULD = st.builds(ev.Would, BUILDS, st.lists(WORDS, max_size=3).map(tuple), CHANCES)

EVENTS: dict[type, st.SearchStrategy[ev.Event]] = {
    ev.Started: st.builds(
        ev.Started,
        WORDS,
        MANY_READINGS,
        STATED,
        st.none() | st.lists(st.sampled_from(Over), max_size=2).map(tuple),
        WORDS,
        st.none() | BUILDS,
        st.none() | SHELF,
        st.integers(0, 2**63),
        st.lists(BUILDS, max_size=3).map(tuple),
    ),
    ev.MeasureAsked: st.builds(ev.MeasureAsked, st.sampled_from(MEASURE_KEYS), WORDS),
    ev.Measured: st.builds(ev.Measured, MANY_READINGS),
    ev.MeasureSkipped: st.builds(ev.MeasureSkipped, st.sampled_from(MEASURE_KEYS)),
    ev.Proposed: st.builds(ev.Proposed, BUILDS, CHANCES, CHANCES, AMOUNTS, WORDS, AMOUNTS),
    ev.NotHere: st.builds(ev.NotHere, WORDS, WORDS),
    ev.PutOn: st.builds(ev.PutOn, BUILDS, WORDS, st.none() | BUILDS),
    ev.Answered: st.builds(ev.Answered, WORDS, WORDS, st.none() | st.floats(0.0, 400.0)),
    ev.LookAsked: st.builds(ev.LookAsked, WORDS, WORDS),
    ev.Undone: st.builds(ev.Undone),
    ev.Paused: st.builds(ev.Paused),
    ev.Resumed: st.builds(ev.Resumed),
    ev.SymptomReported: st.builds(ev.SymptomReported, WORDS),
    ev.Stopped: st.builds(ev.Stopped, WORDS),
    ev.Accepted: st.builds(ev.Accepted, BUILDS),
    ev.NoBuild: st.builds(ev.NoBuild, WORDS, st.lists(WOULD, max_size=2).map(tuple)),
}
ANY_EVENT = st.one_of(*EVENTS.values())
