"""`helmwright staff`: who works in the room, from the terminal."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import sys
from typing import TYPE_CHECKING

import click

from helmwright.cli.records_place import existing_room, prepare_room, room_option
from helmwright.cli.stop import NothingRan

if TYPE_CHECKING:
    from collections.abc import Callable

    from helmwright.records.models import Staff

ROLES = ("manager", "fitter", "student", "trainer", "viewer")


@click.group(short_help="Who works in the room: add somebody, set a password or a PIN.")
def staff() -> None:
    """The room's staff. Whoever can run this can read the room's files anyway."""


@staff.command(short_help="Add somebody.")
@room_option
@click.option("--role", type=click.Choice(ROLES), prompt=True, help="What they may do.")
@click.option("--name", prompt="Name", help="As the room writes it.")
@click.option("--sign-in", "username", prompt="Sign-in name", help="Short, without blanks.")
def add(folder: str, role: str, name: str, username: str) -> None:
    """Add somebody to the staff; the password is asked for."""
    prepare_room(folder)
    added = added_to_staff(name=name, username=username, role=role)
    click.echo(f"{added.name} is on the staff as {added.get_role_display()}.")


@staff.command(short_help="Give somebody a new password.")
@room_option
@click.argument("username")
def password(folder: str, username: str) -> None:
    """Give somebody a new password; what was open under the old one ends."""
    existing_room(folder)
    from helmwright.records.actions.doors import set_password

    _give("password", username, lambda who, secret: set_password(staff=who, password=secret))


@staff.command(short_help="Give somebody a PIN for the stations.")
@room_option
@click.argument("username")
def pin(folder: str, username: str) -> None:
    """Give somebody a PIN of 4 to 8 digits; it counts only on a device that the room knows."""
    existing_room(folder)
    from helmwright.records.actions.doors import set_pin

    _give("PIN", username, lambda who, secret: set_pin(staff=who, pin=secret))


def added_to_staff(*, name: str, username: str, role: str) -> "Staff":
    """Ask for a password until it will do, and add the person.

    Raises
    ------
    NothingRan
        Where the sign-in name is in use.
    """
    from django.core.exceptions import ValidationError
    from django.utils import timezone

    from helmwright.records.actions.doors import first_reason
    from helmwright.records.actions.staff import StaffError, join
    from helmwright.records.models import Role

    while True:
        secret = _asked("Password, at least 10 characters")
        try:
            return join(
                username=username,
                name=name,
                role=Role(role),
                password=secret,
                by=None,
                now=timezone.now(),
            )
        except ValidationError as error:
            click.echo(first_reason(error), err=True)
            if not _is_typed():
                raise NothingRan("nobody was added") from error
        except StaffError as error:
            raise NothingRan(str(error)) from error


def _give(what: str, username: str, give: "Callable[[Staff, str], object]") -> None:
    """Ask for somebody's new password or PIN; one that will not do is refused with its reason."""
    from django.core.exceptions import ValidationError

    from helmwright.records.actions.doors import first_reason
    from helmwright.records.pins import WeakPinError

    somebody = _named(username)
    try:
        give(somebody, _asked(f"New {what}"))
    except ValidationError as error:
        raise NothingRan(first_reason(error)) from error
    except WeakPinError as error:
        raise NothingRan(str(error)) from error
    click.echo(f"{somebody.name} has a new {what}.")


def _named(username: str) -> "Staff":
    from helmwright.records.actions.staff import plain_username
    from helmwright.records.models import Staff

    found = Staff.objects.filter(username=plain_username(username)).first()
    if found is None:
        known = ", ".join(Staff.objects.order_by("username").values_list("username", flat=True))
        raise NothingRan(f"nobody signs in as {username!r}; there is: {known or 'nobody yet'}")
    return found


def _asked(words: str) -> str:
    if not _is_typed():
        return sys.stdin.readline().rstrip("\r\n")
    typed: str = click.prompt(words, hide_input=True, confirmation_prompt=True)
    return typed


def _is_typed() -> bool:
    return sys.stdin.isatty()
