"""The command line: `helmwright roster`, `build`, `head` and `sheet`."""

from helmwright.cli.app import main

__all__ = ["main"]
