"""Rows of the speed table for marking: each way against the time a hand should wait at most."""

import time
from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np

from tests.speed.timing import row, seconds
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.carried_marks import mirror_marks
from viewer.geometry.face_corners import face_corners_mm
from viewer.geometry.face_patches import FacePatches, face_patches
from viewer.geometry.fine_marks import mark_preview
from viewer.geometry.fine_ways import grow, mark_band, mark_seen, smooth
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import sweep_outline
from viewer.geometry.refined_classes import paint_stroke
from viewer.geometry.swept_faces import scratch_for
from viewer.geometry.visible_faces import ring_of_eyes

BRUSHES_MM = (5.0, 20.0)
STEP_MM = 1.0  # between two places of the mouse
SAMPLE_S, RELEASE_S, CHANGE_S, SEEN_S = 0.005, 0.5, 0.5, 2.0


def mark(case: Any) -> list[dict]:
    """A stroke as it is drawn and let go, and the ways that change marks."""
    mesh: Mesh = case.part.mesh
    patches = face_patches(mesh.vertices_mm, mesh.faces, neighbours_of(mesh))
    _ = mesh.face_areas_mm2, mesh.face_normals, shells_of(mesh), mesh.box_mm
    rows = []
    for radius_mm in BRUSHES_MM:
        rows += _stroke(mesh, patches, radius_mm)
    top = np.where(mesh.corners_mm[..., 2].mean(axis=1) > 8.0, 1, 0).astype(np.uint8)
    side = np.where(mesh.corners_mm[..., 0].mean(axis=1) > 8.0, 1, 0).astype(np.uint8)
    eyes = ring_of_eyes((0.0, 0.0, 1.0), 30.0, 500.0, 12, mesh.box_mm)
    ways: tuple[tuple[str, Callable[[], object], float], ...] = (
        ("band", lambda: mark_band(mesh, 0 * top, 1, np.eye(4), (-3.0, 9.0)), CHANGE_S),
        ("grow 2 mm", lambda: grow(mesh, top, 1, 2.0), CHANGE_S),
        ("smooth 2 mm", lambda: smooth(mesh, top, 2.0), CHANGE_S),
        ("mirror", lambda: mirror_marks(mesh, side, 0, True), CHANGE_S),
        ("seen in use, 12 eyes", lambda: mark_seen(mesh, 0 * top, 1, eyes), SEEN_S),
    )
    for name, way, limit_s in ways:
        way()  # so that all is compiled
        rows.append(row(f"mark, {name}", mesh.face_count, seconds(way, 2), "limit", limit_s, 1))
    return rows


def _stroke(mesh: Mesh, patches: FacePatches, radius_mm: float) -> list[dict]:
    """Along the equator; of the places of the mouse the slowest, without drawing."""
    outward = mesh.vertices_mm[mesh.faces[:, 0]]
    outward = outward / np.linalg.norm(outward, axis=1)[:, None]
    turns = STEP_MM / 20.0 * np.arange(20)
    spent: list = []
    hits = [int(np.argmax(outward @ (np.cos(t), np.sin(t), 0.1))) for t in turns]
    scratch = scratch_for(mesh.face_count, len(patches.balls_mm))
    room = np.ones((mesh.face_count, 3, 3), np.float32)  # as the scene keeps it between strokes
    for _ in range(3):  # the first time compiles
        begun = time.process_time()
        stroke = BrushStroke(mesh, neighbours_of(mesh), radius_mm, patches, scratch)
        begun = time.process_time() - begun
        spent.append([seconds(partial(_sample, stroke, face, room), 1) for face in hits])
        spent[-1][0] += begun
    spent = np.min(spent[1:], axis=0)
    before = np.zeros(mesh.face_count, np.uint8)
    let_go = seconds(lambda: paint_stroke(stroke, before, 1), 2)
    name = f"mark, stroke of {radius_mm:g} mm"
    return [
        row(f"{name}: press", mesh.face_count, spent[0], "limit: one frame", 0.016, 1),
        row(f"{name}: move", mesh.face_count, float(np.median(spent[1:])), "limit", SAMPLE_S, 1),
        row(f"{name}: slowest", mesh.face_count, max(spent[1:]), "limit", SAMPLE_S, 1),
        row(f"{name}: let go", mesh.face_count, let_go, "limit", RELEASE_S, 1),
    ]


def _sample(stroke: BrushStroke, face: int, room: np.ndarray) -> None:
    """What the window does at each place of the mouse, but for drawing."""
    mesh = stroke.mesh
    whole, crossed = stroke.add(face, mesh.vertices_mm[mesh.faces[face]].mean(axis=0))
    outline = sweep_outline(stroke.sweeps_mm[-1][None], stroke.radius_mm)
    face_corners_mm(mesh, whole, np.zeros(3), room[: len(whole)])
    mark_preview(mesh, crossed, outline)
