"""Real meshes that ship inside a library we depend on (pyvista's examples), read and handed over.

Truth comes from that library and from trimesh, never from our own readers.
"""

from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest
import trimesh
from vtkmodules.vtkIOPLY import vtkPLYReader

from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part

FOLDER = Path(find_spec("pyvista").origin).parent / "examples"
NAMES = ["airplane.ply", "ant.ply", "nut.ply", "sphere.ply"]


@pytest.mark.parametrize("name", NAMES)
def test_faces_and_size_are_those_the_library_reads(name):
    reader = vtkPLYReader()
    reader.SetFileName(str(FOLDER / name))
    reader.Update()
    theirs = reader.GetOutput()
    part = read_part(FOLDER / name).part
    assert part.mesh.face_count == theirs.GetNumberOfPolys()
    low_high = np.reshape(theirs.GetBounds(), (3, 2)).T
    np.testing.assert_allclose(part.mesh.box_mm, low_high, rtol=1e-6, atol=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_volume_and_overhang_agree_with_trimesh(name):
    """On one closed shell overhang follows from trimesh's own normals and areas alone."""
    theirs = trimesh.load(FOLDER / name, force="mesh")
    state = read_part(FOLDER / name)
    prepared = prepare_part(state.part.mesh)
    if theirs.is_watertight and theirs.body_count == 1:
        assert prepared.volume_mm3 == pytest.approx(abs(theirs.volume), rel=1e-6)
        up = np.array([1.0, 2.0, 3.0]) / np.sqrt(14.0)
        measures = measure_pose(prepared, state.face_classes, Pose(tuple(up)), state.settings)
        n_z = theirs.face_normals @ up * np.sign(theirs.volume)
        steep = np.cos(np.radians(45.0 - 0.01))
        expected = theirs.area_faces[n_z < -steep].sum()
        assert measures.overhang_area_mm2.total == pytest.approx(expected, rel=1e-3)
    elif theirs.is_watertight:  # several bodies: their union is no more than their sum
        assert 0 < prepared.volume_mm3 <= sum(abs(body.volume) for body in theirs.split()) * 1.001
    else:
        assert "not closed" in prepared.notes[0]


@pytest.mark.parametrize("suffix", [".3mf", ".stl", ".obj", ".ply"])
@pytest.mark.parametrize("name", NAMES)
def test_what_is_handed_over_is_the_same_part_turned(name, suffix, tmp_path):
    state = read_part(FOLDER / name)
    state = state.with_(pose=Pose((1.0, -2.0, 0.5), 33.0))
    path = tmp_path / f"posed{suffix}"
    write_posed(state, path)
    theirs = trimesh.load(path, force="mesh", process=False)
    assert len(theirs.faces) == state.part.mesh.face_count
    size = float(np.ptp(state.part.mesh.box_mm, axis=0).max())
    assert theirs.area == pytest.approx(state.part.mesh.face_areas_mm2.sum(), rel=1e-4)
    assert theirs.bounds[0, 2] == pytest.approx(0.0, abs=1e-5 * size)
