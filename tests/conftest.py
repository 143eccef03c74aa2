"""What several rooms' tests share."""

from pathlib import Path

import pytest

SHARED_DATA = Path(__file__).resolve().parents[2] / "shared" / "data"


@pytest.fixture(scope="session")
def shared_data() -> Path:
    """Folder with individual survey rows beside the checkout, where there is one."""
    if not SHARED_DATA.is_dir():
        pytest.skip(f"needs individual survey rows (CSV files) in {SHARED_DATA}")
    return SHARED_DATA
