"""Compiled code is kept under the text it came from."""

import os
import tempfile
from pathlib import Path
from typing import Any

import numba
import pytest

from helmwright.geometry.compiled import OTHERS_KEPT, kept_by_content

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


@pytest.fixture
def no_folder_beside(kernels: Path) -> None:
    """A file stands where the folder would be."""
    (kernels / "__pycache__").write_text("", encoding="utf-8")


@pytest.mark.usefixtures("no_folder_chosen", "no_folder_beside")
def test_the_folder_lies_in_the_user_s_cache_where_none_can_lie_beside(
    kernels: Path, tmp_path_factory, monkeypatch
):
    home = tmp_path_factory.mktemp("home")
    monkeypatch.setattr(Path, "home", lambda: home)
    folder = folder_of(kernels)
    assert folder.is_relative_to(home)
    assert folder.is_dir()


@pytest.mark.usefixtures("no_folder_chosen", "no_folder_beside")
@pytest.mark.parametrize("homeless", [True, False])
def test_a_temporary_folder_does_where_nothing_else_can_be_written(
    kernels: Path, tmp_path_factory, monkeypatch, homeless
):
    def home() -> Path:
        if homeless:
            raise RuntimeError("could not determine home directory")
        return kernels / "one.py"

    temporary = tmp_path_factory.mktemp("temporary")
    monkeypatch.setattr(Path, "home", home)
    monkeypatch.setattr(tempfile, "tempdir", str(temporary))
    folder = folder_of(kernels)
    assert folder.is_relative_to(temporary)
    assert folder.is_dir()


@pytest.mark.usefixtures("no_folder_chosen")
def test_only_the_last_few_folders_are_left_and_nothing_of_anybody_else_s_is_touched(
    kernels: Path,
):
    others = kernels / "__pycache__" / "someone"
    others.mkdir(parents=True)
    module = kernels / "__pycache__" / "one.cpython-311.pyc"
    module.write_bytes(b"")
    made = []
    for edit in range(OTHERS_KEPT + 4):
        (kernels / "one.py").write_text(f"A = {edit}\n", encoding="utf-8")
        made.append(folder_of(kernels))
        os.utime(made[-1], ns=(edit, edit))
    assert [each.exists() for each in made] == [False] * 3 + [True] * (OTHERS_KEPT + 1)
    assert others.is_dir()
    assert module.is_file()


@pytest.mark.usefixtures("no_folder_chosen")
def test_a_kernel_keeps_its_compiled_code_in_the_folder(kernels: Path, monkeypatch):
    (kernels / "two.py").write_text(
        "import numba\n\n@numba.njit(cache=True)\ndef double(x):\n    return 2.0 * x\n",
        encoding="utf-8",
    )
    monkeypatch.syspath_prepend(str(kernels))
    folder = folder_of(kernels)
    with kept_by_content(kernels):
        two = __import__("two")
    assert two.double(3.0) == 6.0
    assert list(folder.rglob("*.nbc"))


@pytest.mark.usefixtures("no_folder_chosen")
def test_the_setting_is_put_back_even_after_a_fault(kernels: Path):
    with pytest.raises(RuntimeError), kept_by_content(kernels):
        raise RuntimeError
    assert SETTINGS.CACHE_DIR == ""


def test_a_folder_that_a_person_chose_is_used(kernels: Path, monkeypatch):
    monkeypatch.setattr(SETTINGS, "CACHE_DIR", "chosen")
    assert folder_of(kernels) == Path("chosen")
