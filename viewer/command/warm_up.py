"""Compile every kernel once and leave the machine code in the user's cache folder.

Set-up runs this, and so does the first start of an installed program, in a process of its own, so
that nobody's first part waits for compilers. It does a small job the way the program does it, since
machine code is made for the kinds of arrays that a kernel is first called with. Running it again
only loads what is there.
"""

import tempfile
from pathlib import Path

import numpy as np

from viewer.document.demo_job import demo_job, faulty_demo_job
from viewer.document.state import State
from viewer.files.mesh_files import EXPORT_SUFFIXES, read_part, write_posed
from viewer.geometry.deviation import find_deviation
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.hull_faces import hull_faces
from viewer.geometry.kernel_cache import say_kernels_are_ready
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mend.mend_effect import preview
from viewer.geometry.mend.plan_mending import plan_mending
from viewer.geometry.mend.steps import STEP_NAMES, step_named
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.regions import borders, crease_fill, creases, stroke_faces
from viewer.geometry.support_bodies import support_bodies

WIDE_ROAD_MM = 4.0  # wider than the walls of the demo part
COARSE = 0.08  # resolution of the demo part: some two thousand faces
TEXT_STL = """solid corner
facet normal 0 0 1
outer loop
vertex 0 0 0
vertex 1.5e1 0 0
vertex 0 15 0
endloop
endfacet
endsolid corner
"""


def warm_up() -> None:
    """Read, check, mark, turn, measure and write a small part; then say that all is there."""
    for state in (demo_job(COARSE), faulty_demo_job(COARSE)):
        for road_mm in (state.settings.road_mm, WIDE_ROAD_MM):
            check_mesh(state.part.mesh, state.pose, state.settings.layer_mm, road_mm)
        _measure(state)
    _mark(state)
    _mend(state)
    with tempfile.TemporaryDirectory() as folder:
        for suffix in EXPORT_SUFFIXES.values():
            path = Path(folder) / f"part{suffix}"
            write_posed(state, path)
            read_part(path)
        text = Path(folder) / "text.stl"
        text.write_text(TEXT_STL, encoding="ascii")
        read_part(text)
    say_kernels_are_ready()


def _measure(state: State) -> None:
    prepared = prepare_part(state.part.mesh)
    for tier in ("quick", "full"):
        for bridge_mm in (0.0, 10.0):
            settings = type(state.settings)(bridge_mm=bridge_mm)
            measures = measure_pose(
                prepared, state.face_classes, Pose((0.3, 0.2, 1.0)), settings, tier, columns=True
            )
    support_bodies(measures.columns)


def _mark(state: State) -> None:
    mesh = state.part.mesh
    neighbours = face_neighbours(mesh.faces)
    face_neighbours(mesh.faces[1:])  # with a hole
    corners = mesh.corners_mm
    hits = [(face, corners[face].mean(axis=0)) for face in (0, 1)]
    marked = np.zeros(mesh.face_count, np.uint8)
    marked[stroke_faces(mesh, neighbours, hits, 5.0)] = 1
    marked[crease_fill(neighbours, mesh.face_normals, 2, 30.0)] = 2
    borders(mesh.faces, neighbours, marked)
    creases(mesh.faces, neighbours, mesh.face_normals, 40.0)
    hull_faces(mesh)


def _mend(state: State) -> None:
    """The faulty demo part by the whole plan, and again with a hole and a face without area."""
    mesh = state.part.mesh
    corner = mesh.faces[0]
    middle = len(mesh.vertices_mm)
    points = np.append(mesh.vertices_mm, [mesh.vertices_mm[corner[:2]].mean(axis=0)], axis=0)
    a, b, c = corner
    more = [(a, middle, c), (middle, b, c), (a, b, middle)]
    worse = Mesh(points, np.concatenate([mesh.faces[1:-40], np.array(more, np.int32)]))
    # Two blocks with one edge in common.
    edge = np.array([(0, 0, 0), (0, 0, 9), (9, 0, 0), (0, 9, 0), (-9, 0, 0), (0, -9, 0)], float)
    first = np.array([(0, 2, 3), (0, 1, 2), (0, 3, 1), (1, 3, 2)], np.int32)
    second = np.array([(0, 4, 5), (0, 1, 4), (0, 5, 1), (1, 5, 4)], np.int32)
    blocks = Mesh(edge, np.concatenate([first, second]))
    for each in (mesh, worse, blocks):
        for step in plan_mending(each):
            preview(step, each)
    for name in STEP_NAMES:
        step = step_named(name, worse)
        preview(step.with_options(resolution_mm=4.0) if name == "re-skin" else step, worse)
    find_deviation(mesh, worse)


if __name__ == "__main__":
    warm_up()
