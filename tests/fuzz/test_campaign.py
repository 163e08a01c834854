"""A short campaign of each kind, and the proof that the watcher sees what it is there to see."""

import pytest

from tests.fuzz.campaign import campaign, read_one
from tests.fuzz.changes import SUFFIXES, changed, seeds
from viewer.files import threemf_file


@pytest.mark.parametrize("kind", ["stl", "obj", "ply", "off", "3mf"])
def test_changed_files_come_to_a_part_or_a_sentence(tmp_path, monkeypatch, kind):
    monkeypatch.setattr(threemf_file, "SMALL_BYTES", 1 << 60)
    beginnings, path, ended = seeds(kind), tmp_path / f"input{SUFFIXES[kind][0]}", []
    for number in range(200):
        path.write_bytes(changed(kind, beginnings, 99, number))
        ended.append(read_one(kind, path))
    assert {"part", "sentence"} <= set(ended)
    assert list(tmp_path.iterdir()) == [path]


def test_an_input_is_the_same_bytes_whenever_it_is_asked_for():
    beginnings = seeds("obj")
    some = [changed("obj", beginnings, 1, number) for number in range(20)]
    assert some[7] == changed("obj", beginnings, 1, 7)
    assert len(set(some)) == 20
    assert some[7] != changed("obj", beginnings, 2, 7)


def test_a_worker_reads_and_one_that_fails_is_noted(tmp_path, monkeypatch):
    found = campaign("off", 40, seed=5)
    assert (found.inputs, found.failures, found.workers) == (40, [], 1)
    assert found.parts + found.sentences == 40
    monkeypatch.setattr("tests.fuzz.campaign.MOST_S", 0.0)  # all take longer than that
    monkeypatch.setattr("tests.fuzz.campaign._LOOK_EVERY_S", 0.01)
    hung = campaign("off", 3, seed=5, keep_in=tmp_path / "kept")
    assert hung.workers > 1 or hung.inputs == 3
