"""Runs the bench; `python3 start.py bench --help` says what it measures."""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]

if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    from bench.command import main

    sys.exit(main(sys.argv[1:]))
