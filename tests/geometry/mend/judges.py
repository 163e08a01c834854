"""Two libraries that know nothing of us judge a mended mesh."""

import manifold3d
import numpy as np
import trimesh

from viewer.geometry.mesh import Mesh


def accepted(mesh: Mesh) -> str:
    """What the judges have against a mesh; nothing if both accept it."""
    body = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(mesh.vertices_mm), tri_verts=mesh.faces.astype(np.uint64)
        )
    )
    said = []
    if not body.is_watertight:
        said.append("not watertight")
    if not body.is_winding_consistent:
        said.append("winding not consistent")
    if solid.status() != manifold3d.Error.NoError:
        said.append(str(solid.status()))
    if abs(mesh.signed_volume_mm3) < 1e-12:
        said.append("no volume")
    return ", ".join(said)


def distances_mm(mesh: Mesh, points: np.ndarray) -> np.ndarray:
    """(k,) distance of each point to a mesh of few faces, face by face, by trimesh."""
    nearest = np.full(len(points), np.inf)
    for corners in mesh.corners_mm:
        places = trimesh.triangles.closest_point(np.tile(corners, (len(points), 1, 1)), points)
        nearest = np.minimum(nearest, np.linalg.norm(places - points, axis=1))
    return nearest
