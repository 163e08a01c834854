"""After the warm-up nothing is left to compile in a user's first job."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import trimesh

from tests.waiting import runs, until
from viewer.command.warm_up import PROCESSES, warm_up, warm_up_side_by_side
from viewer.geometry.kernel_cache import kernels_ready

ROOT = Path(__file__).resolve().parents[2]
JOB = """
import importlib, json, pkgutil, sys
import viewer
from viewer.app import main
for words in json.loads(sys.argv[1]):
    assert main(words) == 0
cold = [
    f"{module.name}.{name}"
    for module in pkgutil.walk_packages(viewer.__path__, "viewer.")
    if module.name in sys.modules
    for name, kernel in vars(sys.modules[module.name]).items()
    if hasattr(kernel, "stats") and kernel.stats.cache_misses
]
print("cold:", json.dumps(cold))
"""


@pytest.mark.timeout(600)
def test_a_first_job_compiles_nothing(tmp_path):
    """A fresh process reads, checks, measures and poses; every kernel comes from the cache."""
    if not kernels_ready():  # a set-up has done it
        warm_up()
    shape = trimesh.creation.torus(20, 5)
    words = []
    for suffix in (".stl", ".obj", ".ply"):
        path = tmp_path / f"torus{suffix}"
        shape.export(path)
        words += [["check", str(path)], ["measure", str(path), "--up", "1,2,3"]]
    text = tmp_path / "text.stl"
    shape.export(text, file_type="stl_ascii")
    words += [["check", str(text)], ["measure", str(text), "--bridge", "5"]]
    shop = ["--machine", "Two nozzles, large", "--pair", "PLA with PVA"]
    words += [["measure", str(text), *shop]]
    posed = tmp_path / "posed.3mf"
    words += [["pose", str(text), "--out", str(posed)], ["measure", str(posed)]]
    words += [["rank", str(posed), "--directions", "12", "--keep", "1"]]
    done = subprocess.run(
        [sys.executable, "-c", JOB, json.dumps(words)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
    )
    assert json.loads(done.stdout.split("cold:")[1]) == []


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="looks for the workers in /proc")
def test_workers_end_with_a_set_up_that_ends(tmp_path):
    """Where packages cannot be installed, set-up kills what compiles kernels beside that."""
    fresh = {**os.environ, "NUMBA_CACHE_DIR": str(tmp_path)}
    program = subprocess.Popen(
        [sys.executable, "-m", "viewer.command.warm_up"], cwd=ROOT, env=fresh
    )
    children = Path(f"/proc/{program.pid}/task/{program.pid}/children")
    with program:
        # One more keeps count of what they share.
        until(lambda: len(children.read_text().split()) > PROCESSES)
        workers = [int(each) for each in children.read_text().split()]
        assert all(runs(worker) for worker in workers)
        program.kill()
    until(lambda: not any(runs(worker) for worker in workers))
    assert [worker for worker in workers if runs(worker)] == []


@pytest.mark.parametrize(
    ("processors", "left_free", "shared"),
    [(1, 0, False), (2, 0, True), (2, 1, False), (3, 1, True), (None, 0, False)],
)
def test_the_work_is_shared_where_there_are_processors_for_it(
    monkeypatch, processors, left_free, shared
):
    """A window keeps one for itself."""
    done = []
    module = "viewer.command.warm_up."
    monkeypatch.setattr(os, "cpu_count", lambda: processors)
    monkeypatch.setattr(module + "WORKS", ())
    monkeypatch.setattr(module + "warm_up", lambda: done.append("alone"))
    monkeypatch.setattr(module + "say_kernels_are_ready", lambda: done.append("shared"))
    warm_up_side_by_side(left_free)
    assert done == ["shared" if shared else "alone"]
