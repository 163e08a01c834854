"""How fast a part is cut in two beside libraries that do the same."""

import manifold3d
import numpy as np
import trimesh

from tests.speed.timing import row, seconds
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import CutPlane, cut_pieces
from viewer.geometry.prepared_part import PreparedPart

PLANE = CutPlane((0.1, 0.2, 0.3), (1.0, 2.0, 3.0))


def cut(part: PreparedPart) -> list[dict]:
    """Both halves of a part, closed and checked, with the classes' faces known."""
    solid = closed_part(part)
    ours = seconds(lambda: cut_pieces(solid, [PLANE]), 3)
    normal, point = np.array(PLANE.normal), np.array(PLANE.point_mm)
    body = trimesh.Trimesh(solid.mesh.vertices_mm, solid.mesh.faces, process=False)

    def by_trimesh() -> None:
        for side in (1, -1):
            body.slice_plane(point, side * normal, cap=True)

    def by_manifold() -> None:
        made = manifold3d.Manifold(
            manifold3d.Mesh64(
                vert_properties=np.array(solid.mesh.vertices_mm),
                tri_verts=solid.mesh.faces.astype(np.uint64),
                face_id=np.arange(solid.mesh.face_count, dtype=np.uint64),
            )
        )
        for half in made.split_by_plane(normal, float(normal @ point)):
            half.to_mesh64()

    theirs, modeller = seconds(by_trimesh, 1), seconds(by_manifold, 1)
    faces = solid.mesh.face_count
    return [
        row("cut in two", faces, ours, "trimesh: both halves, no faces known, no check", theirs, 1),
        row("cut in two, faces known", faces, ours, "manifold3d: with its building", modeller, 3),
    ]
