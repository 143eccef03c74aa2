"""The command and its subcommands.

Whatever takes long to load is imported inside the commands, so that help comes at once.
"""

import errno
import logging
import sys
from typing import Any

import click

from helmwright import __version__
from helmwright.cli.air_command import air
from helmwright.cli.backup_command import backup, restore
from helmwright.cli.build_command import build
from helmwright.cli.export_command import export
from helmwright.cli.head_command import head
from helmwright.cli.ledger_command import ledger
from helmwright.cli.protocol_command import protocol
from helmwright.cli.room_command import room
from helmwright.cli.roster_command import roster
from helmwright.cli.sheet_command import sheet
from helmwright.cli.staff_command import staff
from helmwright.cli.stop import interruptible
from helmwright.cli.study_command import study
from helmwright.cli.visit_command import visit
from helmwright.cli.writing import cannot_print, let_go

EPILOG = (
    "Start with: helmwright roster --demo. Nothing here is a safety score: the maker's"
    " instructions, the rules in force and licensed people decide, and a trained person checks"
    " every helmet on the player's head."
)

BROKEN = 2
FULL = (errno.ENOSPC, errno.EDQUOT)
"""What a disk without room answers."""


class Commands(click.Group):
    """The subcommands; a defect in one ends with status 2, never with that of a row left out."""

    def main(self, *args: Any, **settings: Any) -> Any:
        """Run the program; a help text may find no room, too."""
        try:
            return super().main(*args, **settings)
        except OSError as error:
            if error.errno not in FULL:
                raise
            let_go()
            cannot_print(error).show()
            sys.exit(BROKEN)

    def invoke(self, ctx: click.Context) -> Any:
        """Run what was asked for."""
        try:
            with interruptible("stopped"):
                return super().invoke(ctx)
        except (click.exceptions.Exit, click.ClickException, click.Abort, BrokenPipeError):
            raise
        except Exception as error:
            if isinstance(error, OSError) and error.errno in FULL:
                raise
            logging.getLogger(__name__).exception("helmwright: a defect; nothing was written")
            ctx.exit(BROKEN)


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog=EPILOG,
)
@click.version_option(__version__, prog_name="helmwright")
def main() -> None:
    """From a tape measure to a helmet that fits, for every player on the roster."""


for command in (
    room,
    roster,
    build,
    visit,
    head,
    sheet,
    air,
    protocol,
    study,
    staff,
    ledger,
    backup,
    restore,
    export,
):
    main.add_command(command)
