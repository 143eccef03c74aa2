"""Makes an environment beside this file and runs Helmwright in it, with nothing but Python."""

# Types are quoted and the syntax is kept old so that an old Python gets as far as the message
# that says it is too old.
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

USAGE = """\
usage: python3 start.py [WORD]

  (no word)     install what the program needs and open the demo room
  roster        answer the demo roster in the terminal
  test [ARGS]   install what the tests need and run them, those that keep a
                room on PostgreSQL, too; with ARGS, pytest alone with those
  check         format, lint, types, borders between the rooms, generated pages
  docs          write the generated pages and the tutorials' output anew
  bench [ARGS]  measure the program's speed
"""

ROOM_STEPS = """
That was an invented room; it stays in demo-room/ as you left it.
What to do next:
  open it again      python3 start.py
  your own room      {program} room
  what it can do     docs/how-to/open-the-room.md
  a roster in the    python3 start.py roster
  terminal
The program proposes; a trained person checks on the head,
and the maker's instructions win.
"""

NEXT_STEPS = """
That was an invented team on an invented helmet model,
with one row written wrong on purpose.
What to do next:
  your own roster    {program} roster YOUR_FILE.csv
  one player         {program} build --help
  every command      {program} --help
  a walk through it  docs/tutorials/
The program proposes; a trained person checks on the head,
and the maker's instructions win.
"""

SOME_ROWS_UNREADABLE = 1
INTERRUPTED = 130

DEMO_ROOM = "demo-room"
CHROMIUMS = ("chromium", "chromium-browser", "google-chrome")
ON_BOTH = (
    "tests/records",
    "tests/web",
    "tests/browser/test_killed.py",
    "tests/browser/test_take_in_and_restore.py",
    "tests/browser/test_two_stations.py",
    "tests/browser/test_whole_fitting.py",
)
"""Whatever keeps a room in the database that the tests are run on."""
ADD_CHROMIUM = "sudo apt install chromium"

OLDEST = (3, 11)
NEWEST_PINNED = (3, 14)

HERE = Path(__file__).resolve().parent
VENV = HERE / ".venv"
SCRIPTS = VENV / ("Scripts" if os.name == "nt" else "bin")
SUFFIX = ".exe" if os.name == "nt" else ""
PYTHON = SCRIPTS / f"python{SUFFIX}"
UNFINISHED = VENV / "installation-unfinished"

OFFLINE_WORDS = ("connection broken by", "NewConnectionError", "NameResolutionError", "ProxyError")


class Trouble(Exception):  # noqa: N818  it is worded for the person at the keyboard
    """Something that the person at the keyboard can put right."""


def main(words: "list[str]") -> int:
    """Do what the words ask and return the exit status."""
    job, rest = (words[0], words[1:]) if words else ("demo", [])
    if job in ("-h", "--help", "help"):
        print(USAGE, end="")
        return 0
    if job not in JOBS or (rest and job not in TAKES_MORE) or words == ["demo"]:
        print(f"start.py does not know {' '.join(words)!r}.\n\n{USAGE}", end="", file=sys.stderr)
        return 2
    try:
        refuse_unfit_python()
        return JOBS[job](rest)
    except Trouble as trouble:
        print(f"\nstart.py: {trouble}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nstart.py: stopped. Run it again to go on.", file=sys.stderr)
        return 130


def refuse_unfit_python(version: "tuple[int, ...]" = sys.version_info[:3]) -> None:
    """Raise Trouble where this Python cannot do the job."""
    if version[:2] < OLDEST:
        raise Trouble(
            f"this is Python {dotted(version)}; Helmwright needs {dotted(OLDEST)} or later. "
            "Install a later one and start with it, as in 'python3.12 start.py'."
        )
    if VENV.exists() and Path(sys.prefix).resolve() == VENV.resolve():
        raise Trouble(
            "this is the Python inside .venv, which start.py itself looks after. "
            "Start with the machine's own: 'deactivate', then 'python3 start.py'."
        )


def demo(_rest: "list[str]") -> int:
    """Open the demo room until Ctrl-C, and say what comes next."""
    prepare("run")
    say("Opening the demo room; the first time, its fitting day is played: half a minute.")
    status = serve([tool("helmwright"), "room", "--demo", "--room", DEMO_ROOM])
    if status not in (0, INTERRUPTED):
        return status
    print(ROOM_STEPS.format(program=tool("helmwright").relative_to(HERE)))
    return 0


def roster(_rest: "list[str]") -> int:
    """Answer the demo roster, and say what comes next."""
    prepare("run")
    say("Answering the demo roster: shell, pads and chances for every player.")
    status = run([tool("helmwright"), "roster", "--demo"])
    if status not in (0, SOME_ROWS_UNREADABLE):
        return status
    print(NEXT_STEPS.format(program=tool("helmwright").relative_to(HERE)))
    return 0


def test(rest: "list[str]") -> int:
    """Run the tests, those that keep a room on both databases; both even where one fails."""
    prepare("test")
    if rest:
        say("Running the tests that were asked for.")
        return run([PYTHON, "-m", "pytest", *rest])
    say("Running the tests; the room is kept in SQLite.")
    on_sqlite = run([PYTHON, "-m", "pytest"])
    say("Running the tests that keep a room again; it is kept in PostgreSQL.")
    on_postgresql = run([PYTHON, "-m", "pytest", *ON_BOTH], HELMWRIGHT_TEST_ON="postgresql")
    say(f"All tests, on SQLite: {outcome(on_sqlite)}.")
    say(f"All that keep a room, on PostgreSQL: {outcome(on_postgresql)}.")
    if not any(map(shutil.which, CHROMIUMS)):
        say(f"Left out: what needs a browser (tests/browser). Add one with: {ADD_CHROMIUM}")
    return on_sqlite or on_postgresql


def check(_rest: "list[str]") -> int:
    """Run every check, all of them even where one fails; the status is the first failure's."""
    prepare("test")
    checks: dict[str, list[str | Path]] = {
        "format": [PYTHON, "-m", "ruff", "format", "--check", "."],
        "lint": [PYTHON, "-m", "ruff", "check", "."],
        "types": [PYTHON, "-m", "mypy"],
        "borders between the rooms": [tool("lint-imports")],
        "generated pages": [PYTHON, "-m", "docs.generator", "--check"],
    }
    failed = {}
    for name, command in checks.items():
        say(f"Checking: {name}.")
        status = run(command)
        if status:
            failed[name] = status
    say(f"Not right yet: {', '.join(failed)}." if failed else "All checks passed.")
    return next(iter(failed.values()), 0)


def docs(_rest: "list[str]") -> int:
    """Write the generated pages."""
    prepare("test")
    say("Writing the generated pages, and the tutorials' output as it is now.")
    return run([PYTHON, "-m", "docs.generator"]) or run([PYTHON, "docs/tutorials/refresh.py"])


def bench(rest: "list[str]") -> int:
    """Measure the speed."""
    prepare("test")
    say("Measuring the speed; this takes some minutes.")
    return run([PYTHON, "bench/run.py", *rest])


JOBS = {"demo": demo, "roster": roster, "test": test, "check": check, "docs": docs, "bench": bench}
TAKES_MORE = ("test", "bench")


def prepare(kind: str) -> None:
    """Have requirements/<kind>.txt and the project installed; do nothing where they are."""
    stamp = VENV / f"installed-{kind}.txt"
    wanted = fingerprint(kind)
    finished = PYTHON.exists() and not UNFINISHED.exists()
    if finished and stamp.exists() and stamp.read_text(encoding="utf-8") == wanted:
        return
    if not finished or not sound(VENV, PYTHON):
        make_environment()
    UNFINISHED.touch()
    say("Installing what the program needs; the first time, some 100 MB come down.")
    try:
        install("--require-hashes", "--only-binary", ":all:", "-r", f"requirements/{kind}.txt")
        install("--no-deps", "--no-build-isolation", "--editable", ".")
    except Trouble:
        # pip has said no and put back what it touched; only a kill leaves half an installation.
        UNFINISHED.unlink()
        raise
    stamp.write_text(wanted, encoding="utf-8")
    UNFINISHED.unlink()


def fingerprint(kind: str) -> str:
    """Digest of all that an installation depends on: pins, project file, Python and place."""
    digest = hashlib.sha256(f"{sys.version}\0{VENV}\0".encode())
    for path in (HERE / "requirements" / f"{kind}.txt", HERE / "pyproject.toml"):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def sound(venv: Path, python: Path) -> bool:
    """Whether an environment was made here, and its Python starts, is this one and brings pip."""
    settings = venv / "pyvenv.cfg"
    if not settings.exists() or str(venv) not in settings.read_text(encoding="utf-8"):
        return False  # moved or copied: its scripts lead to where it was made
    question = "import pip, sys; print(sys.version)"
    answer = subprocess.run([python, "-c", question], capture_output=True, text=True, check=False)
    return answer.returncode == 0 and answer.stdout.strip() == sys.version.strip()


def make_environment() -> None:
    """Make .venv from nothing, clearing what an interrupted attempt left."""
    for module in ("venv", "ensurepip"):
        if importlib.util.find_spec(module) is None:
            raise Trouble(
                f"this Python came without its module {module!r}, which makes environments. "
                "On Debian and Ubuntu the package python3-venv brings it "
                "(sudo apt install python3-venv); elsewhere install Python from its own site."
            )
    say("Making an environment in .venv; nothing outside this folder is changed.")
    if run([sys.executable, "-m", "venv", "--clear", VENV]):
        raise Trouble("the environment could not be made; the lines above say why.")


def install(*arguments: str) -> None:
    """Let pip install something, with a dot now and then; raise Trouble where it cannot."""
    command: list[str | Path] = [PYTHON, "-m", "pip", "install", "--quiet", "--no-input"]
    environment = {**os.environ, "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    with subprocess.Popen(
        [*command, *arguments],
        cwd=HERE,
        env=environment,
        stderr=subprocess.PIPE,
        text=True,
        errors="replace",
    ) as pip:
        complaint = wait_with_dots(pip)
    if pip.returncode:
        print(complaint[-3000:], file=sys.stderr)
        raise Trouble(reason_of(complaint))


def wait_with_dots(pip: "subprocess.Popen[str]") -> str:
    """Wait for pip, showing that something is going on; return what it complained of."""
    try:
        return pip.communicate(timeout=3)[1]
    except subprocess.TimeoutExpired:
        pass
    while True:
        try:
            complaint = pip.communicate(timeout=3)[1]
        except subprocess.TimeoutExpired:
            print(".", end="", flush=True)
        else:
            print(flush=True)
            return complaint


def reason_of(complaint: str) -> str:
    """What stopped an installation, as far as pip's words tell, and what can be done."""
    if any(word in complaint for word in OFFLINE_WORDS):
        return (
            "the packages could not be fetched. Is this machine on the network? "
            "Connect it and run the same command again; once installed, no network is needed."
        )
    if "No matching distribution" in complaint:
        return (
            f"a pinned package is not ready-made for Python {dotted(sys.version_info[:2])} on this "
            f"machine. They are for Python {dotted(OLDEST)} to {dotted(NEWEST_PINNED)} on Linux, "
            "on Windows (64 bit) and on macOS (Apple processors)."
        )
    return "the installation failed; the lines above are pip's own words. Running again is safe."


def tool(name: str) -> Path:
    """The program of that name in the environment."""
    return SCRIPTS / f"{name}{SUFFIX}"


def run(command: "list[str | Path]", **settings: str) -> int:
    """Run a command from the project's folder and return its exit status."""
    environment = {**os.environ, **settings}
    return subprocess.run(command, cwd=HERE, env=environment, check=False).returncode


def serve(command: "list[str | Path]") -> int:
    """Run a server until it ends; Ctrl-C reaches it too, and it is let finish."""
    with subprocess.Popen(command, cwd=HERE) as server:
        while True:
            try:
                return server.wait()
            except KeyboardInterrupt:
                continue


def outcome(status: int) -> str:
    """How a run of the tests ended, in a word or two."""
    return "passed" if status == 0 else f"not passed (status {status}); the lines above say what"


def say(line: str) -> None:
    """Tell what is being done, ahead of the output of what does it."""
    print(f"== {line}", flush=True)


def dotted(version: "tuple[int, ...]") -> str:
    """A version as people write it."""
    return ".".join(str(part) for part in version)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
