"""A short campaign of each kind, and the proof that the watcher sees what it is there to see."""

import faulthandler
import json
import os
import signal

import pytest

from tests.fuzz import campaign as module
from tests.fuzz.campaign import CRASH, ENDLESS, campaign, read_one
from tests.fuzz.changes import SUFFIXES, changed, seeds
from tests.fuzz.guided import guided
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


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the kernel's worker forks")
def test_a_crash_of_the_kernel_and_no_end_are_a_sentence_or_a_failure(tmp_path, monkeypatch):
    def read(kind, path):
        if path.read_bytes() == b"3":
            faulthandler.disable()  # in this child: a crash that is wanted is no news
            os.kill(os.getpid(), signal.SIGSEGV)
        while path.read_bytes() == b"4":
            pass
        return "part"

    monkeypatch.setattr(module, "read_one", read)
    monkeypatch.setattr(module, "changed", lambda kind, of, seed, number: b"%d" % number)
    monkeypatch.setattr(module, "KERNEL_S", 0)
    told = tmp_path / "told"
    with told.open("a", buffering=1) as out:
        with monkeypatch.context() as patched:
            patched.setattr(module, "_through_the_door", lambda path: "sentence")
            (tmp_path / "own").mkdir()
            path = tmp_path / "own" / "input.step"
            assert module._until_it_dies("step", path, [b""], 1, (0, 6), out) == 4
            assert module._until_it_dies("step", path, [b""], 1, (4, 6), out) == 5
        assert module._until_it_dies("step", path, [b""], 1, (5, 6), out) == 6
        monkeypatch.setattr(module, "_through_the_door", lambda path: "part")
        assert module._until_it_dies("step", path, [b""], 1, (3, 6), out) == 4
    ended = [json.loads(line) for line in told.read_text().splitlines()]
    ended = [(number, what[0]) for said, number, *what in ended if said == "ended"]
    what = {3: CRASH, 4: ENDLESS}
    assert ended[:6] == [(n, what.get(n, "part")) for n in range(6)]
    assert ended[6:] == [(3, "part after a crash")]


def test_files_with_surfaces_come_to_a_part_or_a_sentence():
    found = campaign("step", 3, seed=1)
    assert (found.inputs, found.failures, found.workers) == (3, [], 1)


def test_coverage_leads_nowhere_in_native_code(capsys):
    assert guided("step", 10, 1) == 2
    assert "native code" in capsys.readouterr().err
