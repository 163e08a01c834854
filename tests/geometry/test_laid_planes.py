"""Planes told as the part is laid cut it there, whichever way it is laid."""

import numpy as np
import pytest

from tests import shapes
from viewer.errors import RequestProblem
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import cut_out, cut_pieces
from viewer.geometry.laid_planes import quarter_planes, slab_planes
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.prepared_part import prepare_part

POSES = [Pose(), Pose((1, 0, 0), 30), Pose((0.3, -0.5, 0.8), 77)]


@pytest.mark.parametrize("pose", POSES)
def test_a_slab_lies_between_its_heights(pose):
    part = closed_part(prepare_part(shapes.post_and_cap()))
    matrix = pose_matrix(part.mesh.vertices_mm, pose)
    (piece,) = cut_out(part, slab_planes(matrix, 2.0, 5.5)).pieces
    heights = piece.mesh.vertices_mm @ matrix[2, :3] + matrix[2, 3]
    assert (heights.min(), heights.max()) == pytest.approx((2.0, 5.5), abs=1e-6)
    with pytest.raises(RequestProblem, match="lower one first"):
        slab_planes(matrix, 5.0, 5.0)


def test_a_slab_has_the_volume_of_its_section():
    """CALC: three layers of the post, 10 × 10 × 3."""
    part = closed_part(prepare_part(shapes.post_and_cap()))
    matrix = pose_matrix(part.mesh.vertices_mm, Pose())
    (piece,) = cut_out(part, slab_planes(matrix, 4.0, 7.0)).pieces
    assert piece.volume_mm3 == pytest.approx(300)


@pytest.mark.parametrize("pose", POSES)
def test_quarters_lie_around_the_middle(pose):
    part = closed_part(prepare_part(shapes.post_and_cap()))
    matrix = pose_matrix(part.mesh.vertices_mm, pose)
    pieces = cut_pieces(part, quarter_planes(matrix)).pieces
    assert len(pieces) == 4
    for piece in pieces:
        laid = piece.mesh.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]
        assert (np.array(piece.sides) * laid[:, :2]).min() > -1e-5
    assert sum(piece.volume_mm3 for piece in pieces) == pytest.approx(6500, rel=1e-9)
