"""Pieces come back with the job to the bit, and damaged bytes cost the pieces alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from viewer.document.piece_state import as_own_job, cut_piece, specimen_piece
from viewer.document.state import Part, State
from viewer.files.job_file import write_job
from viewer.files.job_test_pieces import pieces_of_job, unpacked_pieces
from viewer.files.mesh_files import read_part
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import CutPlane, cut_pieces
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.specimens.catalogue import make_specimen
from viewer.progress import Progress


@pytest.fixture(scope="module")
def state():
    mesh = shapes.torus(around=24, facets=16)
    classes = (np.arange(mesh.face_count) % 3).astype(np.uint8)
    state = State.of_part(Part("ring", mesh), classes, pose=Pose((0.1, 0.2, 0.9), 30.0))
    cut = cut_pieces(closed_part(prepare_part(mesh)), [CutPlane((0, 0, 0), (1, 0.3, 0))])
    pieces = [cut_piece(state, each, f"half {k}", "plane") for k, each in enumerate(cut.pieces)]
    return state.with_(pieces=(*pieces, specimen_piece(make_specimen("pair-release", [0, 0.2]))))


def assert_same(found, wanted):
    assert len(found) == len(wanted)
    for one, other in zip(found, wanted, strict=True):
        for name in ("name", "source", "kind", "pose", "note", "steps"):
            assert getattr(one, name) == getattr(other, name)
        for body, same in zip(one.bodies, other.bodies, strict=True):
            assert (body.name, body.material) == (same.name, same.material)
            assert body.mesh.vertices_mm.tobytes() == same.mesh.vertices_mm.tobytes()
            assert (body.mesh.faces == same.mesh.faces).all()
            assert (body.face_classes == same.face_classes).all()


def test_a_job_keeps_its_pieces_to_the_bit(state, tmp_path):
    write_job(state, tmp_path / "job.3mf")
    again = read_part(tmp_path / "job.3mf")
    assert again.part.notes == ()
    assert_same(again.pieces, state.pieces)
    assert again.pieces[-1].steps == (0.0, 0.2)  # what the form for its result begins with
    write_job(again.with_(pieces=()), tmp_path / "job.3mf")
    assert read_part(tmp_path / "job.3mf").pieces == ()


@settings(max_examples=few(20, 60), deadline=None)
@given(st.data())
def test_damaged_bytes_are_found_and_never_crash(state, data):
    content = bytearray(pieces_of_job(state.pieces))
    if data.draw(st.booleans()):
        content = content[: data.draw(st.integers(0, len(content) - 1))]
        assert unpacked_pieces(bytes(content), Progress()) is None
    else:
        content[data.draw(st.integers(0, len(content) - 1))] ^= data.draw(st.integers(1, 255))
        unpacked_pieces(bytes(content), Progress())
    assert unpacked_pieces(bytes(pieces_of_job(state.pieces)) + b"x", Progress()) is None


def test_damaged_pieces_leave_the_rest_of_the_job(state, tmp_path, monkeypatch):
    broken = pieces_of_job(state.pieces)[:-1]
    monkeypatch.setattr("viewer.files.job_file.pieces_of_job", lambda *_: broken)
    write_job(state, tmp_path / "job.3mf")
    again = read_part(tmp_path / "job.3mf")
    assert again.pieces == ()
    assert again.pose == state.pose
    assert "damaged and were left aside" in again.part.notes[0]


def test_a_piece_opens_as_a_job_of_its_own_of_its_model_bodies(state):
    half, _, release = state.pieces
    own = as_own_job(state, half)
    assert own.pose == state.pose
    assert (own.face_classes == half.bodies[0].face_classes).all()
    assert own.part.mesh.signed_volume_mm3 == pytest.approx(half.volume_mm3)
    assert own.pieces == ()
    model = sum(b.mesh.signed_volume_mm3 for b in release.bodies if b.material == "model")
    assert as_own_job(state, release).part.mesh.signed_volume_mm3 == pytest.approx(model)
    assert release.size_mm[2] == pytest.approx(8.2 + 0.6, abs=0.5)
