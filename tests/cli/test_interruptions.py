"""Ctrl-C is told once, however often it is pressed."""

import click
import pytest

from helmwright.cli.stop import Status, interruptible


def interrupted(times: int) -> None:
    """A command that is interrupted so often while it ends."""
    with interruptible("stopped"):
        try:
            with interruptible("stopped; nothing was written"):
                raise KeyboardInterrupt
        finally:
            if times > 1:
                raise KeyboardInterrupt


@pytest.mark.parametrize("times", [1, 2])
def test_a_second_interruption_while_the_first_is_told_adds_no_line(capsys, times):
    for _ in range(2):
        with click.Context(click.Command("any")), pytest.raises(click.exceptions.Exit) as end:
            interrupted(times)
        assert end.value.exit_code == Status.INTERRUPTED
        assert capsys.readouterr().err == "helmwright: stopped; nothing was written\n"
