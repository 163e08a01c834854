"""Large 3MF files go through a process of their own: same answers, same refusals, no kernels."""

import os
import signal
import subprocess
import sys

import numpy as np
import pytest

from tests.files.made_files import box_xml, package_3mf
from tests.speed.made_meshes import bumpy_ball, random_classes
from viewer.document.state import Part, State
from viewer.errors import Cancelled, UnreadableFile
from viewer.files import threemf_file, threemf_write
from viewer.files.mesh_files import read_part, write_posed
from viewer.progress import Progress


def marked_ball(facets: int) -> State:
    mesh = bumpy_ball(facets)
    return State.of_part(Part("ball", mesh), random_classes(mesh.face_count))


@pytest.fixture(scope="module")
def large(tmp_path_factory):
    path = tmp_path_factory.mktemp("large") / "ball.3mf"
    write_posed(marked_ball(30_000), path)
    return path


def test_packed_alike_in_either_process(tmp_path, large, monkeypatch):
    monkeypatch.setattr(threemf_write, "SMALL_FACES", 1 << 40)
    write_posed(marked_ball(30_000), tmp_path / "here.3mf")
    one, other = read_part(large), read_part(tmp_path / "here.3mf")
    assert np.array_equal(one.part.mesh.vertices_mm, other.part.mesh.vertices_mm)
    assert np.array_equal(one.part.mesh.faces, other.part.mesh.faces)


def test_read_alike_in_either_process(large, monkeypatch):
    heard = []
    beside = read_part(large, Progress(lambda fraction, doing: heard.append((fraction, doing))))
    monkeypatch.setattr(threemf_file, "SMALL_BYTES", 1 << 40)
    here = read_part(large)
    assert np.array_equal(beside.part.mesh.vertices_mm, here.part.mesh.vertices_mm)
    assert np.array_equal(beside.part.mesh.faces, here.part.mesh.faces)
    assert np.array_equal(beside.face_classes, here.face_classes)
    assert here.face_classes.any()
    assert here.part.unit == beside.part.unit == "mm"
    assert "Reading the model" in {doing for _, doing in heard}


def test_refused_alike_in_either_process(tmp_path, monkeypatch):
    path = tmp_path / "broken.3mf"
    path.write_bytes(package_3mf(box_xml(1), '<item objectid="7"/>'))
    said = []
    for limit in (0, 1 << 40):
        monkeypatch.setattr(threemf_file, "SMALL_BYTES", limit)
        with pytest.raises(UnreadableFile) as refused:
            read_part(path)
        said.append(str(refused.value))
    assert said[0] == said[1]
    assert "broken.3mf is not a valid 3MF file" in said[0]


@pytest.fixture
def small(tmp_path):
    path = tmp_path / "small.3mf"
    path.write_bytes(package_3mf(box_xml(1), '<item objectid="1"/>'))
    return path


def in_a_process_that_crashes(*_arguments, progress):
    os.kill(os.getpid(), signal.SIGSEGV)


def in_a_process_that_hangs(*_arguments, progress):
    pow(7, 10**9)  # native, and holds the interpreter lock


def in_a_process_that_swells(*_arguments, progress):
    return [np.ones(10**9) for _ in range(100)]


@pytest.mark.skipif(os.name == "nt", reason="signals and limits as Unix has them")
@pytest.mark.parametrize(
    ("reader", "words"),
    [
        (in_a_process_that_crashes, "Reading small.3mf came to a sudden end"),
        (in_a_process_that_hangs, "Reading small.3mf came to a sudden end"),
        (in_a_process_that_swells, "small.3mf does not fit into this computer's memory"),
    ],
)
def test_what_goes_wrong_in_native_code_is_one_sentence(small, monkeypatch, reader, words):
    monkeypatch.setattr(threemf_file, "SMALL_BYTES", 0)  # as the program has it
    monkeypatch.setattr(threemf_file, "read_arrays", reader)
    monkeypatch.setattr(threemf_file, "memory_limit_bytes", lambda: 3_000_000_000)
    if reader is in_a_process_that_hangs:
        monkeypatch.setattr(threemf_file, "TIME_LIMIT_S", 2.0)
    with pytest.raises(UnreadableFile, match=words):
        read_part(small)


@pytest.mark.parametrize("work", ["read", "write"])
def test_a_cancel_ends_the_process(work, large, tmp_path):
    """Cancelled while lib3mf is at work: nothing is written, and nothing is left behind."""
    path = tmp_path / "new.3mf"
    path.write_bytes(b"as it was")
    at_work = {"read": "Reading the model", "write": "Writing the model"}[work]
    progress = Progress(lambda _, doing: progress.cancel() if doing == at_work else None)
    jobs = {
        "read": lambda: read_part(large, progress),
        "write": lambda: write_posed(marked_ball(30_000), path, progress),
    }
    with pytest.raises(Cancelled):
        jobs[work]()
    assert path.read_bytes() == b"as it was"
    assert [other.name for other in tmp_path.iterdir()] == ["new.3mf"]


def test_the_process_imports_no_kernels():
    code = (
        "import sys, viewer.files.threemf_reading, viewer.files.threemf_packing\n"
        "print(sorted({'numba', 'trimesh', 'PySide6', 'vtk'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
