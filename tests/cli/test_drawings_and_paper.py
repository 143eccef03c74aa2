"""A build's drawing and its card go into files of their own, beside the page."""

import xml.etree.ElementTree as ET

import pytest

BUILD = ("build", "--name", "Reed Avocet", "--tape", "22 5/8", "--length", "7 7/8")


def test_the_drawing_is_written_beside_the_page_and_told(run, tmp_path):
    place = tmp_path / "reed.svg"
    done = run(*BUILD, "--svg", str(place))
    assert done.exit_code == 0
    assert "Best build: shell" in done.stdout
    assert f"drawing: {place}" in done.stderr
    title = ET.parse(place).getroot().findtext("{http://www.w3.org/2000/svg}title")  # noqa: S314
    assert title is not None
    assert title.startswith("Reed Avocet: Ouzel (invented), not on sale; shell ")


@pytest.mark.parametrize(("extra", "words"), [
    (("--svg", "none/x.svg"), "give another --svg FILE"),
    (("--svg", "same.out", "--out", "same.out"), "--svg same.out is a file"),
])  # fmt: skip
def test_a_bad_place_for_a_drawing_is_told_at_once(run, tmp_path, monkeypatch, extra, words):
    monkeypatch.chdir(tmp_path)
    done = run(*BUILD, *extra)
    assert done.exit_code == 2
    assert words in done.stderr
    assert not list(tmp_path.iterdir())
