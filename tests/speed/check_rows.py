"""Rows of the speed table for the check: edges, shells, merging, and the whole of it."""

from typing import Any

import numpy as np
import trimesh

from tests.speed.timing import row, seconds
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.shells import find_shells
from viewer.progress import Progress

CHECK_S = 3.0  # goal for a million facets on one core


def check(case: Any) -> list[dict]:
    """The passes of the check against trimesh (with scipy), and all of it against its limit."""
    mesh: Mesh = case.part.mesh
    vertices, faces = np.array(mesh.vertices_mm), np.array(mesh.faces)

    def fresh() -> trimesh.Trimesh:
        return trimesh.Trimesh(vertices, faces, process=False)

    def their_edges() -> None:
        """Counts and directions from one sort of whole numbers, the quickest way with numpy."""
        start, end = faces[:, [0, 1, 2]].ravel(), faces[:, [1, 2, 0]].ravel()
        low, high = np.minimum(start, end), np.maximum(start, end)
        key = low.astype(np.int64) * len(vertices) + high
        order = np.argsort(key)
        first = np.flatnonzero(np.diff(key[order], prepend=-1))
        uses = np.diff(np.append(first, len(key)))
        sense = np.add.reduceat(np.where(start == low, 1, -1)[order], first)
        assert (uses == 2).all()
        assert (sense == 0).all()

    soup = vertices[faces].reshape(-1, 3)
    corners = np.arange(len(soup)).reshape(-1, 3)

    def their_merge() -> None:
        trimesh.Trimesh(soup, corners, process=False).merge_vertices()

    edges = seconds(lambda: find_edge_faults(mesh.faces), 4)
    shells = seconds(lambda: find_shells(mesh, face_neighbours(mesh.faces)), 4)

    def their_shells() -> None:
        adjacency = fresh().face_adjacency
        trimesh.graph.connected_component_labels(adjacency, len(faces))

    merge = seconds(lambda: merge_vertices(soup, Progress()), 4)
    whole = seconds(lambda: check_mesh(Mesh(vertices, faces)), 3)
    limit = CHECK_S * max(len(faces) / 1e6, 1e-9)
    return [
        row("check, edges", len(faces), edges, "numpy", seconds(their_edges, 2), 5),
        row(
            "check, shells", len(faces), shells,
            "trimesh, scipy: no volume, winding or nesting", seconds(their_shells, 2), 5,
        ),
        row("check, merge", len(faces), merge, "trimesh", seconds(their_merge, 2), 5),
        row("check, all of it", len(faces), whole, f"limit {1000 * limit:.0f} ms", limit, 1),
    ]  # fmt: skip
