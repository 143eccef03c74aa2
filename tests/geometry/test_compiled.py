"""Compiled code is kept under the text it came from."""

from pathlib import Path
from typing import Any

import numba
import pytest

from helmwright.geometry.compiled import kept_by_content

SETTINGS: Any = numba.config


def folder_of(sources: Path) -> Path:
    with kept_by_content(sources):
        return Path(str(SETTINGS.CACHE_DIR))


@pytest.fixture
def no_folder_chosen(monkeypatch):
    monkeypatch.setattr(SETTINGS, "CACHE_DIR", "")


@pytest.fixture
def kernels(tmp_path: Path) -> Path:
    (tmp_path / "one.py").write_text("A = 1\n", encoding="utf-8")
    return tmp_path


@pytest.mark.usefixtures("no_folder_chosen")
def test_an_edited_kernel_is_kept_elsewhere_and_an_old_one_is_found_again(kernels: Path):
    first = folder_of(kernels)
    (kernels / "one.py").write_text("A = 2\n", encoding="utf-8")
    second = folder_of(kernels)
    (kernels / "one.py").write_text("A = 1\n", encoding="utf-8")
    assert second != first
    assert folder_of(kernels) == first


@pytest.mark.usefixtures("no_folder_chosen")
def test_the_folder_lies_beside_the_kernels_where_one_may_write(kernels: Path):
    assert folder_of(kernels).parent == kernels / "__pycache__"


@pytest.mark.usefixtures("no_folder_chosen")
def test_the_setting_is_put_back_even_after_a_fault(kernels: Path):
    with pytest.raises(RuntimeError), kept_by_content(kernels):
        raise RuntimeError
    assert SETTINGS.CACHE_DIR == ""


def test_a_folder_that_a_person_chose_is_used(kernels: Path, monkeypatch):
    monkeypatch.setattr(SETTINGS, "CACHE_DIR", "chosen")
    assert folder_of(kernels) == Path("chosen")
