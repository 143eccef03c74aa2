"""The processes that guide: one for each visit, replaced when it ends, gone with their server."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from helmwright.web.guiding.asked import Answer, Asked
from helmwright.web.guiding.pool import NoAnswerError, Processes

ROOT = Path(__file__).resolve().parents[2]


def asked(visit: str = "one", *events: str) -> Asked:
    return Asked(visit, "", "", tuple({"event": each} for each in events))


def acts(question: Asked) -> Answer:
    """In the process: does what the last event names."""
    last = question.events[-1]["event"] if question.events else ""
    if last == "dies":
        os.kill(os.getpid(), signal.SIGKILL)
    if last == "sleeps":
        time.sleep(60)
    if last == "fails":
        raise ValueError("no head has such readings")
    said = ({"event": "said"},) if last == "says" else ()
    return Answer(said=said, message={"process": os.getpid(), "at": time.monotonic()})


@pytest.fixture
def processes():
    found = Processes(2, act=acts)
    yield found
    found.close()


def test_a_visit_always_asks_the_same_process(processes):
    many = {processes.ask(asked("one", str(n))).message["process"] for n in range(3)}
    assert len(many) == 1


def test_the_same_question_is_computed_once(processes):
    first = processes.ask(asked())
    assert processes.ask(asked()).message == first.message
    assert processes.ask(asked("one", "more")).message != first.message


def test_after_the_programs_own_words_nothing_is_computed_again(processes):
    first = processes.ask(asked("one", "says"))
    again = processes.ask(asked("one", "says", "said"))
    assert again.message == first.message
    assert again.said == ()


def test_processes_that_were_closed_answer_nothing_and_none_is_started(processes):
    processes.ask(asked())
    processes.close()
    with pytest.raises(NoAnswerError):
        processes.ask(asked("one", "more"))


def test_a_process_that_ends_is_told_and_another_takes_its_place(processes):
    before = processes.ask(asked()).message["process"]
    with pytest.raises(NoAnswerError):
        processes.ask(asked("one", "dies"))
    after = processes.ask(asked("one", "goes on")).message["process"]
    assert after != before


def test_a_process_that_was_killed_while_idle_is_replaced_unseen(processes):
    os.kill(processes.ask(asked()).message["process"], signal.SIGKILL)
    for number in range(40):
        try:
            assert processes.ask(asked("one", str(number)))
            break
        except NoAnswerError:
            time.sleep(0.05)
    else:
        pytest.fail("no process took its place")


def test_a_question_that_takes_too_long_is_given_up_and_its_process_ended():
    processes = Processes(1, longest_s=3.0, act=acts)
    try:
        first = processes.ask(asked()).message["process"]
        with pytest.raises(NoAnswerError):
            processes.ask(asked("one", "sleeps"))
        assert processes.ask(asked("one", "goes on")).message["process"] != first
    finally:
        processes.close()


def test_what_cannot_be_guided_is_told_and_the_process_stays(processes):
    before = processes.ask(asked()).message["process"]
    for _ in range(2):
        with pytest.raises(ValueError, match="no head"):
            processes.ask(asked("one", "fails"))
    assert processes.ask(asked("one", "goes on")).message["process"] == before


SERVER = """
import sys, time
from helmwright.web.guiding.pool import Processes
from tests.web.test_guiding_processes import acts, asked
if __name__ == "__main__":
    print(Processes(1, act=acts).ask(asked()).message["process"], flush=True)
    time.sleep(60)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="signals of Unix")
def test_a_server_that_is_killed_leaves_no_process_behind(tmp_path):
    script = tmp_path / "server.py"
    script.write_text(SERVER, encoding="utf-8")
    paths = os.pathsep.join([str(ROOT), str(ROOT / "src"), str(ROOT / "tests")])
    environment = os.environ | {"PYTHONPATH": paths, "DJANGO_SETTINGS_MODULE": "room_settings"}
    with subprocess.Popen(
        [sys.executable, str(script)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
        text=True, env=environment,
    ) as server:  # fmt: skip
        assert server.stdout is not None
        process = int(server.stdout.readline())
        server.kill()
    for _ in range(100):
        if not is_running(process):
            return
        time.sleep(0.1)
    os.kill(process, signal.SIGKILL)
    pytest.fail("the process outlived its server")


def is_running(process: int) -> bool:
    """Whether it is there, and not only waiting to be counted out."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    status = Path(f"/proc/{process}/stat")
    return not status.exists() or status.read_text().rpartition(")")[2].split()[0] != "Z"
