"""Runs one command of the program and says on the last line of stderr what memory it took."""

import json
import sys
from pathlib import Path

from helmwright.cli import main


def peak_mb() -> float | None:
    """Largest memory that this process held [MB]; None where the system does not tell."""
    status = Path("/proc/self/status")
    if status.exists():
        for line in status.read_text(encoding="utf-8").splitlines():
            if line.startswith("VmHWM"):
                return int(line.split()[1]) / 1024.0
    if sys.platform == "darwin":
        import resource  # noqa: PLC0415 - not there on Windows

        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0**2
    return None


if __name__ == "__main__":
    status = main(sys.argv[1:], prog_name="helmwright", standalone_mode=False)
    sys.stderr.write(f"\n{json.dumps({'peak_mb': peak_mb(), 'status': int(status or 0)})}\n")
