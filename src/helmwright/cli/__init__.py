"""The command line: `helmwright roster`, `build`, `head` and `sheet`."""

import sys

# Whoever starts the program and stops it at once is here before there is a command to catch it.
try:
    from helmwright.cli.app import main
except KeyboardInterrupt:
    sys.stderr.write("helmwright: stopped\n")
    raise SystemExit(130) from None

__all__ = ["main"]
