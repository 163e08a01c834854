"""How far points lie from a surface, and from which of its faces."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import piece_triangle_mm
from viewer.geometry.face_tree import LEAF_FACES, build_face_tree, order_along_curve
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

_CHUNK = 5000  # points between two looks at the progress token


def nearest_surface(
    points_mm: np.ndarray, mesh: Mesh, progress: Progress | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Distance ((k,) float64, mm) of each point ((k, 3)) to a mesh, and the nearest face ((k,)).

    Raises Cancelled.
    """
    progress = progress or Progress()
    order = order_along_curve(mesh.vertices_mm, mesh.faces)
    corners = mesh.corners_mm[order]
    tree = build_face_tree(corners, 0.0)
    away, face = np.empty(len(points_mm)), np.empty(len(points_mm), np.int64)
    for start in range(0, len(points_mm), _CHUNK):
        part = slice(start, start + _CHUNK)
        away[part], face[part] = _nearest(
            points_mm[part], corners, tree.face_boxes, tree.node_boxes, tree.leaves
        )
        progress.report(start / len(points_mm), "Measuring what moved")
    return away, order[face].astype(np.int32)


@compiled
def _square_away(boxes, i, x, y, z):
    """Squared distance of a point to a box, 0 inside."""
    dx = max(boxes[i, 0] - x, 0.0, x - boxes[i, 3])
    dy = max(boxes[i, 1] - y, 0.0, y - boxes[i, 4])
    dz = max(boxes[i, 2] - z, 0.0, z - boxes[i, 5])
    return dx * dx + dy * dy + dz * dz


@compiled
def _corner(corners, f, k):
    return corners[f, k, 0], corners[f, k, 1], corners[f, k, 2]


@compiled
def _nearest(points, corners, face_boxes, node_boxes, leaves):
    away, face = np.empty(len(points)), np.zeros(len(points), np.int64)
    stack = np.empty(128, np.int64)
    for n in range(len(points)):
        x, y, z = points[n, 0], points[n, 1], points[n, 2]
        best = np.inf
        stack[0], height = 1, 1
        while height > 0:
            height -= 1
            node = stack[height]
            if _square_away(node_boxes, node, x, y, z) >= best * best:
                continue
            if node < leaves:
                near, far = 2 * node, 2 * node + 1
                if _square_away(node_boxes, far, x, y, z) < _square_away(node_boxes, near, x, y, z):
                    near, far = far, near
                stack[height], stack[height + 1] = far, near
                height += 2
                continue
            first = (node - leaves) * LEAF_FACES
            for f in range(first, min(first + LEAF_FACES, len(corners))):
                if _square_away(face_boxes, f, x, y, z) >= best * best:
                    continue
                p = (x, y, z)
                apart = piece_triangle_mm(
                    p, p, _corner(corners, f, 0), _corner(corners, f, 1), _corner(corners, f, 2)
                )
                if apart < best:
                    best, face[n] = apart, f
        away[n] = best
    return away, face
