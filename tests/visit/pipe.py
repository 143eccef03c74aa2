"""Both ends of a dialogue in one process, every line held against the schema."""

import json

from helmwright.anatomy import Over, Reading
from helmwright.fit.outlook import Build
from helmwright.visit.event import Event, Started
from helmwright.visit.lines import Dialogue, error_reply
from helmwright.visit.lines_in import read_message
from helmwright.visit.lines_out import line_of
from helmwright.visit.lines_schema import visit_schema_text
from helmwright.visit.lines_told import Telling
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.wire_fault import WireError
from tests.reports.schema_check import faults
from tests.visit.plain_guide import OUZEL, PlainGuide

SCHEMA = json.loads(visit_schema_text())
TAPE = Reading("tape_circumference", 575.0)
STARTED = Started("Avocet Brookside", (TAPE,), {"sex": None}, (Over.BARE,), sheet_digest(OUZEL))
DELIVERED = Build(4, OUZEL.delivered)


class Memory:
    def __init__(self) -> None:
        self.events: tuple[Event, ...] = (STARTED,)

    def append(self, *events) -> None:
        self.events += events


class Pipe:
    """Both ends: what is sent and answered is held against the schema."""

    def __init__(self, **settings) -> None:
        guide, self.kept = PlainGuide(**settings), Memory()
        telling = Telling(
            OUZEL, guide.protocol, ("Beware.",), ("Assumed.",), ("Not accepted.",), ("Spine.",)
        )
        self.guide = guide
        self.reads: tuple[Reading, ...] = (TAPE,)
        self.dialogue = Dialogue(guide, self.kept, telling, lambda *_: self.reads)
        self.last = self.checked(self.dialogue.begin(["A notice."]))

    def send(self, message, **fields):
        sent = {"message": message, **fields}
        assert faults(sent, SCHEMA["$defs"]["in"], SCHEMA) == []
        return self.line(json.dumps(sent))

    def line(self, text):
        try:
            reply = self.dialogue.reply(read_message(text))
        except WireError as error:
            reply = error_reply(error)
        told = self.checked(reply)
        if told["message"] not in ("error", "state"):
            self.last = told
        return told

    def checked(self, reply):
        line = line_of(reply)
        assert line.endswith(b"\n")
        assert line.count(b"\n") == 1
        told = json.loads(line)
        assert faults(told, SCHEMA["$defs"]["out"], SCHEMA) == []
        return told

    @property
    def question(self):
        """What waits for an answer, wherever it stands."""
        asked = self.last
        while "next" in asked:
            asked = asked["next"]
        return asked

    def right(self, **other):
        """The findings that answer everything that is asked, right but for the named checks."""
        return [
            {"check": check["check"], "word": other.get(check["check"], good(check))}
            for check in self.question["checks"]
        ]

    def on_head(self):
        """Up to the first contact checks."""
        while self.question["message"] != "put on":
            self.send("findings", findings=self.right())
        self.send("put on")
        self.send("findings", findings=self.right())
        return self


def good(check):
    return next(answer["word"] for answer in check["answers"] if answer["right"])


def words(check):
    return [answer["word"] for answer in check["answers"]]


def to_the_end(pipe, **other):
    """Plays on until the visit is over; how it was answered."""
    for _ in range(40):
        asked = pipe.question
        match asked["message"]:
            case "checks":
                pipe.send("findings", findings=pipe.right(**other))
            case "look":
                word = other.get(asked["check"]["check"], good(asked["check"]))
                pipe.send("findings", findings=[{"check": asked["check"]["check"], "word": word}])
            case "put on":
                pipe.send("put on")
            case "measure":
                pipe.send("skip")
            case _:
                return asked
    raise AssertionError("the visit does not end")
