"""Made meshes as bodies of two libraries, which judge whether they are closed."""

import manifold3d
import numpy as np
import pytest
import trimesh

from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import CutPlane, Piece, cut_pieces
from viewer.geometry.mesh import Mesh
from viewer.geometry.prepared_part import prepare_part


def solid_of(mesh: Mesh) -> manifold3d.Manifold:
    """The mesh as manifold3d has it, vertex by vertex."""
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(mesh.vertices_mm), tri_verts=mesh.faces.astype(np.uint64)
        )
    )


def assert_closed_by_two_libraries(mesh: Mesh) -> None:
    """Closed and wound alike by trimesh, taken by manifold3d, and both give it our volume."""
    body = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    solid = solid_of(mesh)
    assert solid.status() == manifold3d.Error.NoError
    assert solid.volume() == pytest.approx(mesh.signed_volume_mm3, rel=1e-9, abs=1e-9)
    assert body.volume == pytest.approx(mesh.signed_volume_mm3, rel=1e-9, abs=1e-9)


def halves(mesh: Mesh, *plane) -> tuple[CutPlane, Piece, Piece]:
    """The part cut by one plane, its point and its normal."""
    cut = CutPlane(*plane)
    return cut, *cut_pieces(closed_part(prepare_part(mesh)), [cut]).pieces
