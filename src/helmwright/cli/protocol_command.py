"""`helmwright protocol`: print the usual checks of a fit visit, check a file of one's own."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import click

from helmwright.cli.choices import chosen_sheet, read_file, sheet_options
from helmwright.cli.paper import check_files
from helmwright.cli.stop import NothingRan, Status


@click.group(short_help="Print the checks of a fit visit, or check a file of your own.")
def protocol() -> None:
    """The checks of a fit visit: what is asked, in which order, and what is accepted."""


@protocol.command(short_help="Print the usual checks as a file, to be copied and changed.")
@click.option("--out", metavar="FILE", help="Write to this file instead of the screen.")
@click.option("--replace", is_flag=True, help="Write over the file where it is there already.")
def show(*, out: str | None, replace: bool) -> None:
    """Print the text of the usual protocol."""
    from helmwright.cli.writing import check_new, deliver
    from helmwright.visit.protocol import usual_protocol_text

    check_files({"--out": out}, ())
    check_new(out, replace=replace)
    deliver(usual_protocol_text(), out)


@protocol.command(short_help="Check a protocol file, line by line, and print what it asks.")
@click.argument("file")
@sheet_options
def check(*, file: str, model: str | None, sheet_file: str | None) -> None:
    """Check the protocol FILE and name every line that needs work.

    A file without a fault is then held against the model: every zone that it pads, and the brow,
    must be asked exactly once in contact. The page tells every check as it will be asked, with
    the maker's own instructions in their place.
    """
    from helmwright.cli.terminal import page_width
    from helmwright.cli.writing import print_text
    from helmwright.reports.protocol_page import protocol_page
    from helmwright.visit.protocol import (
        ProtocolError,
        UnsuitedProtocolError,
        parse_protocol,
        protocol_for,
    )

    sheet = chosen_sheet(model, sheet_file)
    try:
        own = parse_protocol(read_file(file).decode("utf-8-sig"), name=file)
        suited = protocol_for(sheet, base=own)
    except UnicodeDecodeError as error:
        raise NothingRan(f"{file} is not UTF-8 text; save it as UTF-8") from error
    except (ProtocolError, UnsuitedProtocolError) as error:
        click.echo(str(error), err=True)
        raise click.exceptions.Exit(Status.NOTHING_RAN) from error
    print_text(protocol_page(suited, page_width()))
