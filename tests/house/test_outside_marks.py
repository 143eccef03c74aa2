"""Every check against the outside world names where its truth comes from."""

from pathlib import Path

import pytest

from docs.generator.figures import all_records
from docs.generator.outside_checks import outside_checks
from tests.house.tree import ROOT

OUTSIDE = ROOT / "tests" / "outside"


def faults_of(folder: Path) -> list[str]:
    """The outside checks that name no source, or one that is not on record."""
    known = all_records()
    return [
        f"{check.file}: {check.test} names {list(check.keys) or 'no source'}"
        for check in outside_checks(folder)
        if not check.keys or not set(check.keys) <= known.keys()
    ]


def test_every_outside_check_names_sources_on_record():
    assert list(outside_checks(OUTSIDE))
    assert not faults_of(OUTSIDE)


def test_every_source_on_record_has_its_own_key():
    assert all(key == source.key for key, source in all_records().items())


@pytest.mark.parametrize(
    "mark",
    [
        "",
        "@pytest.mark.outside()\n",
        "@pytest.mark.outside\n",
        "@pytest.mark.slow\n",
        '@pytest.mark.outside("nobody_wrote_this_1899")\n',
        '@pytest.mark.outside("assumed", "nobody_wrote_this_1899")\n',
    ],
)
def test_a_check_without_a_source_on_record_is_caught(tmp_path: Path, mark: str):
    write_check(tmp_path, mark)
    assert len(faults_of(tmp_path)) == 1


def test_a_check_inside_a_class_is_caught_as_well(tmp_path: Path):
    source = "class TestHeads:\n    def test_a_head_is_round(self):\n        assert True\n"
    (tmp_path / "test_heads.py").write_text(source, encoding="utf-8")
    assert len(faults_of(tmp_path)) == 1


def test_a_check_with_a_source_on_record_passes(tmp_path: Path):
    write_check(tmp_path, '@pytest.mark.outside("common_practice")\n')
    assert faults_of(tmp_path) == []


def write_check(folder: Path, mark: str) -> None:
    source = f"import pytest\n\n\n{mark}def test_a_head_is_round():\n    assert True\n"
    (folder / "test_heads.py").write_text(source, encoding="utf-8")
