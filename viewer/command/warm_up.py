"""Compile every kernel once and leave the machine code in the user's cache folder.

Set-up runs this, and so does the first start of an installed program, in a process of its own, so
that nobody's first part waits for compilers. It does a small job the way the program does it, since
machine code is made for the kinds of arrays that a kernel is first called with. Running it again
only loads what is there.
"""

import gc
import multiprocessing
import os
import tempfile
from concurrent.futures import ProcessPoolExecutor
from contextlib import AbstractContextManager
from dataclasses import replace
from pathlib import Path

import numpy as np

from viewer.document.demo_job import demo_job, faulty_demo_job
from viewer.document.state import State
from viewer.files.mesh_files import EXPORT_SUFFIXES, read_part, write_posed
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.carried_marks import mirror_marks
from viewer.geometry.check_directions import check_best
from viewer.geometry.column_field import column_field
from viewer.geometry.column_grid import grid_over
from viewer.geometry.deviation import find_deviation
from viewer.geometry.direction_search import SearchRequest, rays_for, search_directions
from viewer.geometry.face_corners import face_corners_mm
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.face_patches import face_patches
from viewer.geometry.fine_marks import mark_preview, met_faces, rows_inside
from viewer.geometry.fine_ways import grow, mark_loop, smooth
from viewer.geometry.hull_faces import hull_faces
from viewer.geometry.kernel_cache import folder_in_use, say_kernels_are_ready
from viewer.geometry.machine_code import save_in_turn
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mend.mend_effect import preview
from viewer.geometry.mend.plan_mending import plan_mending
from viewer.geometry.mend.steps import STEP_NAMES, step_named
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.outlines import band_outline, sweep_outline
from viewer.geometry.overhang_plan import box_of_overhangs
from viewer.geometry.piece_under import piece_under
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.refined_classes import paint_stroke
from viewer.geometry.regions import borders, crease_fill, creases, stroke_faces
from viewer.geometry.sensitivity import measure_sensitivity
from viewer.geometry.support_bodies import support_bodies
from viewer.geometry.touch_bound import bound_touch_on_a
from viewer.geometry.turned_part import turn_part
from viewer.geometry.visible_faces import ring_of_eyes
from viewer.geometry.whole_marks import see_faces
from viewer.own_process import end_with_parent
from viewer.progress import Progress
from viewer.shop.job_numbers import job_numbers
from viewer.shop.shop import example_shop

WIDE_ROADS_MM = (4.0, 30.0)  # wider than the walls of the demo part, and than its gaps
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
TEXT_OFF = "OFF\n4 2 0\n0 0 0\n9 0 0\n9 9 0\n0 9.5 0\n"
FACES_OFF = ("3 0 1 2\n3 0 2 3\n", "4 0 1 2 3\n3 0 2 3\n")  # triangles alone, and others among them
_FOUR_FACES = np.array([(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)], np.int32)


def warm_up() -> None:
    """Read, check, mark, turn, measure and write a small part; then say that all is there."""
    usual = gc.get_threshold()
    _look_for_garbage_seldom()
    try:
        for work in WORKS:
            work()
    finally:
        gc.set_threshold(*usual)
    say_kernels_are_ready()


def warm_up_side_by_side(left_free: int = 0) -> None:
    """The same by two processes, if there are processors for both: in little over half the time.

    left_free : processors that have something better to do

    Raises what a process raised.
    """
    if (os.cpu_count() or 1) < PROCESSES + left_free or folder_in_use() is None:
        warm_up()
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(
        PROCESSES, context, initializer=_begin, initargs=(context.Lock(),)
    ) as processes:
        for done in [processes.submit(work) for work in WORKS]:
            done.result()
    say_kernels_are_ready()


def _begin(lock: AbstractContextManager) -> None:
    end_with_parent()  # which set-up ends where packages cannot be installed
    save_in_turn(lock)
    _look_for_garbage_seldom()


def _look_for_garbage_seldom() -> None:
    """Compilers make a great many things that stay: looking through them takes a tenth longer."""
    gc.set_threshold(20_000, 50, 1000)


def _check_and_mend() -> None:
    for state in (demo_job(COARSE), faulty_demo_job(COARSE)):
        for road_mm in (state.settings.road_mm, *WIDE_ROADS_MM):
            check_mesh(state.part.mesh, state.pose, state.settings.layer_mm, road_mm)
    _mend(faulty_demo_job(COARSE))


def _measure_and_search() -> None:
    for state in (demo_job(COARSE), faulty_demo_job(COARSE)):
        _measure(state)
    hollow = _hollow_block()
    classes = np.zeros(hollow.face_count, np.uint8)
    measure_pose(
        prepare_part(hollow), classes, Pose((1.0, 1.0, 1.0)), type(state.settings)(), "full"
    )
    _search(faulty_demo_job(COARSE))


def _hollow_block() -> Mesh:
    """Four faces around four others: supports stand inside where nobody reaches them."""
    corner = np.array([(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)], float)
    points = np.concatenate([40.0 * corner, 10.0 * corner + 5.0])
    return Mesh(points, np.concatenate([_FOUR_FACES, 4 + _FOUR_FACES[:, ::-1]]))


def _mark_in_all_ways() -> None:
    _mark(faulty_demo_job(COARSE))
    _mark_in_other_ways()


def _read_and_write() -> None:
    state = faulty_demo_job(COARSE)
    with tempfile.TemporaryDirectory() as folder:
        for suffix in EXPORT_SUFFIXES.values():
            path = Path(folder) / f"part{suffix}"
            write_posed(state, path)
            read_part(path)
        text = Path(folder) / "text.stl"
        text.write_text(TEXT_STL, encoding="ascii")
        read_part(text)
        for faces in FACES_OFF:
            text = Path(folder) / "text.off"
            text.write_text(TEXT_OFF + faces, encoding="ascii")
            read_part(text)


def _measure(state: State) -> None:
    prepared = prepare_part(state.part.mesh)
    for tier in ("quick", "full"):
        for bridge_mm in (0.0, 10.0):
            settings = type(state.settings)(bridge_mm=bridge_mm)
            measures = measure_pose(
                prepared, state.face_classes, Pose((0.3, 0.2, 1.0)), settings, tier, columns=True
            )
    job_numbers(
        state.part.mesh, state.face_classes, Pose((0.3, 0.2, 1.0)), settings, measures,
        example_shop(),
    )  # fmt: skip
    support_bodies(measures.columns)
    _measure_as_of_many_faces(prepared, state)


def _measure_as_of_many_faces(prepared: PreparedPart, state: State) -> None:
    """What is done for parts of very many faces only: few lines for them, and boxes by blocks."""
    turned = turn_part(prepared.points_mm, (0.0, 0.6, 0.8))
    undersides, _ = pass_over_faces(prepared, turned, state.face_classes, state.settings)
    low, high = box_of_overhangs(prepared, turned, undersides, many=0)
    column_field(prepared.for_lines, turned.rotation, grid_over(low, high, 3, None))


def _search(state: State) -> None:
    """A few directions, the best of them checked, and what is asked about it afterwards."""
    asked = SearchRequest(
        prepare_part(state.part.mesh),
        state.face_classes,
        type(state.settings)(bridge_mm=10.0),
        directions=12,
        platform_mm=(200.0, 200.0, 200.0),
    )
    *_, table = search_directions(asked)
    *_, _checked = check_best(asked, table, keep=1, by_score=1)
    rayed = rays_for(asked, Progress())
    measure_sensitivity(rayed, table.directions[0])
    # Bridges would keep the bound from being looked for.
    searched = replace(rayed.searched, settings=type(state.settings)())
    bound_touch_on_a(searched, float(table.area_mm2.A))


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
    stroke = BrushStroke(mesh, neighbours, 5.0)
    reached = [faces for face, point in hits for faces in stroke.add(face, point)]
    outline = sweep_outline(np.array(stroke.sweeps_mm), 5.0)
    mark_preview(mesh, np.concatenate(reached), outline)
    face_corners_mm(mesh, reached[0], np.zeros(3))
    pieces, classes = paint_stroke(stroke, marked, 1)
    cut = state.with_(face_classes=marked).refined(pieces, classes).part
    face_patches(mesh.vertices_mm, mesh.faces, neighbours).of_pieces(
        pieces.parents, pieces.neighbours
    )
    piece_under(cut.mesh, pieces.neighbours, pieces.parents, 0, corners[0].mean(axis=0))
    band = band_outline((0.0, 0.0, 1.0), 1.0, 2.0, 1.0)
    rows_inside(mesh, met_faces(mesh, band), band)
    hull_faces(mesh)


def _mark_in_other_ways() -> None:
    state = faulty_demo_job(COARSE)
    mesh, marked = state.part.mesh, state.face_classes
    loop_px = np.array([(-9.0, -9.0), (9.0, -9.0), (0.0, 9.0)])
    mark_loop(mesh, marked, 2, np.eye(4), loop_px, 1.0)
    see_faces(mesh, ring_of_eyes((0.0, 0.0, 1.0), 30.0, 500.0, 2, mesh.box_mm))
    grow(mesh, marked, 1, 1.0)
    smooth(mesh, marked, 1.0)
    mirror_marks(mesh, marked, 0, True)


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
    lidless = Mesh(40.0 * edge[:4], first[1:])
    for each in (mesh, worse, blocks, lidless):
        for step in plan_mending(each):
            preview(step, each)
    for name in STEP_NAMES:
        step = step_named(name, worse)
        preview(step.with_options(resolution_mm=4.0) if name == "re-skin" else step, worse)
    find_deviation(mesh, worse)


# Works that have few kernels in common, the longest first.
WORKS = (_measure_and_search, _check_and_mend, _mark_in_all_ways, _read_and_write)
PROCESSES = 2


if __name__ == "__main__":
    warm_up_side_by_side()
