"""Events of made-up visits, and a protocol of a few checks."""

from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.outlook import Build
from helmwright.visit.check import Answer, Check, Length, Part, Stage, SubScore
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Answered, Proposed, Started

OUZEL = load_packaged("ouzel")
DELIVERED = Build(3, OUZEL.delivered)
ALL_PADS = frozenset({Part.PAD, Part.CROWN, Part.JAW, Part.AIR, Part.SHELL})


def begun(**changes) -> Started:
    said = {"who": "Avocet Brookside", "readings": (), "stated": {}, "worn": (), "sheet": "ouzel"}
    return Started(**{**said, **changes})


def proposed(build: Build = DELIVERED, **changes) -> Proposed:
    said = {"fits": 0.5, "found_right": 0.4, "minutes": 5.0, "why": "", "effective": 500.0}
    return Proposed(build, **{**said, **changes})


def answered(check: str, word: str = "snug", value_mm: float | None = None) -> Answered:
    return Answered(check, word, value_mm)


def moved(build: Build = DELIVERED, **steps: int) -> Build:
    """The build with the pads of some zones steps thicker; a zone's spaces are written as _."""
    pads = list(build.pads)
    for name, step in steps.items():
        pads[ZONES.index(Zone(name.replace("_", " ")))] += step
    return Build(build.shell, tuple(pads))


def check(key: str, stage: Stage = Stage.CONTACT, sign: Sign = Sign.PLAIN, **changes) -> Check:
    words = {"loose": Grade.UNDER, "snug": Grade.RIGHT, "tight": Grade.OVER}
    said = {
        "title": key.capitalize(),
        "how": ("Look.",),
        "answers": tuple(Answer(w, g, f"It is {w}.", "" if w == "snug" else "A pad.")
                         for w, g in words.items()),
        "accept": "Snug.",
        "sub_score": SubScore.SNUGNESS,
        "source": "common practice, no source",
    }  # fmt: skip
    return Check(key=key, stage=stage, sign=sign, **{**said, **changes})


def zone_check(zone: Zone) -> Check:
    return check(str(zone), sign=Sign.ZONE, zone=zone)


BROW = check("brow", sign=Sign.BROW, length=Length((19.05, 31.75), 0.0, 101.6))
ZONE_CHECKS = tuple(zone_check(zone) for zone in ZONES)
PUT_ON = check("put on", sign=Sign.PUT_ON)
MARKS = check("marks", Stage.BEFORE, put_right="Take another helmet.", repeat_after={Part.SHELL})
CUP = check("cup", Stage.HELD, put_right="Center the cup.", repeat_after={Part.SHELL})
TURN = check("turn", Stage.HELD, Sign.TURN, repeat_after=ALL_PADS)
NECK = check("neck", Stage.HELD, repeat_after={Part.SHELL})
TOLD = check("told", Stage.HANDED_OVER, put_right="Show it again.")


def protocol(*checks: Check) -> Protocol:
    return Protocol("few checks", checks, 5.0, (), "")


CONTACT_ALONE = protocol(BROW, *ZONE_CHECKS)
WHOLE = protocol(MARKS, PUT_ON, BROW, *ZONE_CHECKS, CUP, TURN, NECK, TOLD)
