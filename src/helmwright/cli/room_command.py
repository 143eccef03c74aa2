"""`helmwright room`: open the equipment room."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import contextlib
import errno
import os
import socket
import sys
from pathlib import Path

import click
from click.core import ParameterSource

from helmwright.cli.records_place import prepare_room, room_option
from helmwright.cli.staff_command import added_to_staff
from helmwright.cli.stop import NothingRan, tell
from helmwright.cli.team_asked import have_a_team

APPLICATION = "helmwright.config.asgi:application"

DEMO_FOLDER = "demo-room"
"""Where the demo is kept, unless somebody says: never in the folder of a room of one's own."""

AT_ONCE = 400
"""Requests that are worked on at a time; each open board holds one. More wait in the queue."""

LONGEST_STOP_S = 10
"""What a request under way may still take when the room is closed (assumed) [s]."""

LINES = """\
Stop with Ctrl-C; everything that a station was told is kept stands in the records.
"""

PORTS_TRIED = 20


@click.command(short_help="Open the equipment room: stations and desk in the browser.")
@room_option
@click.option(
    "--demo",
    is_flag=True,
    help=f"An invented room in the middle of a fitting day, in {DEMO_FOLDER}.",
)
@click.option(
    "--team", metavar="NAME", help="Open the team of that name, where the room has none yet."
)
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="Where it is heard; 0.0.0.0 lets tablets on the network in.",
)
@click.option(
    "--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="First tried."
)
@click.option("--certificate", metavar="FILE", help="Serve under TLS with this certificate (PEM).")
@click.option("--key", metavar="FILE", help="The certificate's key (PEM).")
@click.pass_context
def room(
    context: click.Context,
    folder: str,
    *,
    demo: bool,
    team: str | None,
    host: str,
    port: int,
    certificate: str | None,
    key: str | None,
) -> None:
    """Open the room that a folder holds, and serve it until Ctrl-C.

    The first time it makes the folder and asks for a manager's name and password, and for the
    name of the team.
    """
    if (certificate is None) != (key is None):
        raise NothingRan("--certificate and --key go together; give both or neither")
    if demo and team is not None:
        raise NothingRan("--team is for a room of your own; the demo has its team")
    if demo and context.get_parameter_source("folder") is ParameterSource.DEFAULT:
        folder = DEMO_FOLDER
    free = _free_port(host, port)
    os.environ["HELMWRIGHT_LISTENS_AT"] = host
    os.environ.setdefault("HELMWRIGHT_WARM", "on")
    if certificate:
        os.environ["HELMWRIGHT_TLS"] = "on"
    os.environ["HELMWRIGHT_HOSTS"] = _answers_to(host)
    prepare_room(folder)
    if demo:
        _tell_demo(host)
    else:
        _have_a_manager()
        have_a_team(team)
    _tell_address(host, free, under_tls=certificate is not None)
    _serve(host, free, certificate, key)


def _serve(host: str, port: int, certificate: str | None, key: str | None) -> None:
    """Serve in one process; each request of a page has a thread of its own there.

    A stop ends every open board and waits for acts under way; what hangs is cut.
    """
    # A worker that is cut leaves nothing behind that the system keeps.
    quiet = "ignore::UserWarning:multiprocessing.resource_tracker"
    os.environ.setdefault("PYTHONWARNINGS", quiet)
    from granian.constants import Interfaces
    from granian.log import LogLevels
    from granian.server import Server

    Server(
        APPLICATION,
        address=host,
        port=port,
        interface=Interfaces.ASGI,
        workers=1,
        backpressure=AT_ONCE,
        websockets=False,
        workers_kill_timeout=LONGEST_STOP_S,
        log_level=LogLevels.error,
        ssl_cert=Path(certificate) if certificate else None,
        ssl_key=Path(key) if key else None,
    ).serve()


def _have_a_manager() -> None:
    from helmwright.records.models import Role, Staff

    if Staff.objects.filter(role=Role.MANAGER, is_active=True).exists():
        return
    if not sys.stdin.isatty():
        raise NothingRan(
            "this room has no manager yet, and nobody is at the keyboard. Add one first:"
            " helmwright staff add --role manager"
        )
    click.echo("A new room. Who manages it?")
    name = click.prompt("Name")
    username = click.prompt("Sign-in name", default=name.split()[0].lower())
    added_to_staff(name=name, username=username, role="manager")


def _tell_demo(host: str) -> None:
    """Have the story told once, and print what one signs in with.

    Raises
    ------
    NothingRan
        Where the folder holds a room of somebody's own.
    """
    from django.utils import timezone

    from helmwright.records.demo import OtherRoomError, is_told, tell_story

    if not is_told():
        click.echo(
            "Playing the fitting day of an invented team: one to three minutes, the first time"
            " only. A dot for each visit."
        )
        try:
            tell_story(now=timezone.now(), played=lambda: click.echo(".", nl=False))
        except OtherRoomError as error:
            raise NothingRan(str(error)) from error
        click.echo()
    if host not in ("127.0.0.1", "::1", "localhost"):
        tell("everybody on this network can sign in to the demo with what is printed here")
    _print_sign_ins()


def _print_sign_ins() -> None:
    from django.utils import timezone

    from helmwright.records.demo import PASSWORD, demo_code, sign_ins

    click.echo(f"\nSign in at the desk by name, each with the password: {PASSWORD}")
    for member in sign_ins():
        pin = f"PIN {member.pin}" if member.pin else ""
        click.echo(f"  {member.username:<10}{member.role.label:<18}{pin}".rstrip())
    code = demo_code(now=timezone.now())
    if code:
        click.echo(
            "PINs count at a station. To make this browser one, open /enroll/ in the next ten"
            f" minutes\nand type {code[:4]} {code[4:]}; then the station is at /station/."
        )
    click.echo()


def _tell_address(host: str, port: int, *, under_tls: bool) -> None:
    scheme = "https" if under_tls else "http"
    here = "127.0.0.1" if host in ("0.0.0.0", "::") else host  # noqa: S104 - compared, not bound
    click.echo(f"The room is open: {scheme}://{_in_address(here)}:{port}/")
    if not under_tls and here != host:
        tell("not encrypted: others on this network can read what goes over it")
    click.echo(LINES, nl=False)


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def _answers_to(host: str) -> str:
    """The names by which the room may be asked for: those allowed, this address, this machine."""
    allowed = [*filter(None, os.environ.get("HELMWRIGHT_HOSTS", "").split(","))]
    if host in ("0.0.0.0", "::"):  # noqa: S104 - compared, not bound
        name = socket.gethostname()
        return ",".join([*allowed, name, f"{name}.local", *_own_addresses()])
    return ",".join([*allowed, _in_address(host)])


def _own_addresses() -> list[str]:
    """Addresses of this machine, as far as its own name and its way out tell; nothing is sent."""
    found: set[str] = set()
    with contextlib.suppress(OSError):
        found.update(str(info[4][0]) for info in socket.getaddrinfo(socket.gethostname(), None))
    way_out = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
    with way_out, contextlib.suppress(OSError):
        way_out.connect(("192.0.2.1", 9))  # of documentation; naming it sends nothing
        found.add(str(way_out.getsockname()[0]))
    return sorted(_in_address(each) for each in found)


def _free_port(host: str, port: int) -> int:
    """The port, or the next that is free.

    Raises
    ------
    NothingRan
        Where the address is not this machine's, or no port is free.
    """
    for tried in range(port, min(port + PORTS_TRIED, 65536)):
        try:
            _bind(host, tried)
        except PermissionError as error:
            raise NothingRan(f"port {tried} is for administrators; take one above 1023") from error
        except socket.gaierror as error:
            raise NothingRan(f"{host!r} is no address of this machine") from error
        except OSError as error:
            if error.errno != errno.EADDRINUSE:
                reason = (error.strerror or str(error)).lower()
                raise NothingRan(f"cannot listen at {host} port {tried}: {reason}") from error
            continue
        if tried != port:
            tell(f"port {port} is taken by another program; this room takes {tried}")
        return tried
    raise NothingRan(f"ports {port} to {tried} are all taken; name another with --port")


def _bind(host: str, port: int) -> None:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as listener:
        if os.name != "nt":  # there it would share the port with whoever has it
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((host, port))
        listener.listen()
