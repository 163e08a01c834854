"""Supports as bodies: closed, as large as the columns they are made of, without inner walls."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.support_bodies import (
    footprint_rim,
    marks_on_faces,
    platform_footprint,
    support_bodies,
)
from viewer.geometry.support_columns import SupportColumns


def columns_of(pieces, shape=(4, 3), pitch=0.5, origin=(-1.0, 2.0)) -> SupportColumns:
    """Columns from (cell, bottom, top) triples."""
    cell, bottom, top = np.array(pieces, float).reshape(-1, 3).T
    on_platform = np.where(bottom == 0.0, -1, 0).astype(np.int32)
    return SupportColumns(
        np.array(origin), pitch, shape, cell.astype(np.int32), bottom.astype(np.float32),
        top.astype(np.float32), on_platform, np.zeros(len(cell), np.int32),
    )  # fmt: skip


def enclosed_mm3(corners: np.ndarray) -> float:
    """Volume by the divergence theorem over the two triangles of each rectangle."""
    corners = corners.astype(float)
    a, b, c, d = (corners[:, k] for k in range(4))
    return float(
        (np.einsum("ij,ij->", a, np.cross(b, c)) + np.einsum("ij,ij->", a, np.cross(c, d))) / 6
    )


@st.composite
def stacked_columns(draw):
    """Up to two columns in each cell, one above the other, listed in any order."""
    pieces = []
    for cell in range(12):
        heights = sorted(draw(st.lists(st.integers(0, 40), max_size=4, unique=True)))
        for low, high in zip(heights[0::2], heights[1::2], strict=False):
            pieces.append((cell, low / 4, high / 4))
    return draw(st.permutations(pieces))


@given(stacked_columns())
def test_volume_is_the_sum_over_columns_and_the_surface_is_closed(pieces):
    columns = columns_of(pieces)
    corners = support_bodies(columns).corners_mm
    wanted = float((columns.top_mm - columns.bottom_mm).sum()) * 0.25
    assert enclosed_mm3(corners) == pytest.approx(wanted, abs=1e-4)
    # Closed: the area vectors of all rectangles cancel (divergence theorem for a constant field).
    across = np.cross(corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1]).astype(float)
    np.testing.assert_allclose(across.sum(axis=0), 0.0, atol=1e-4)


def test_a_lone_column_has_six_sides():
    assert len(support_bodies(columns_of([(5, 0.0, 2.0)]))) == 6


def test_equal_neighbours_share_no_wall():
    two = support_bodies(columns_of([(4, 0.0, 2.0), (5, 0.0, 2.0)]))
    assert len(two) == 2 + 2 + 6  # tops, bottoms, and the six walls round both


def test_a_step_gets_only_the_wall_that_shows():
    """The taller of two neighbours shows above the lower one, between their two heights."""
    step = support_bodies(columns_of([(4, 0.0, 2.0), (5, 0.0, 3.0)])).corners_mm
    assert len(step) == 11
    inner = step[(step[:, :, 1] == step[:, :1, 1]).all(axis=1)]  # rectangles at one y
    shown = [set(q[:, 2].tolist()) for q in inner if set(q[:, 2].tolist()) == {2.0, 3.0}]
    assert shown == [{2.0, 3.0}]


def test_rectangles_lie_where_the_grid_says():
    """Cell (ix 1, iy 2) of a grid 4 × 3 with its first centre at (−1, 2), pitch 0.5."""
    corners = support_bodies(columns_of([(1 * 3 + 2, 0.0, 7.0)])).corners_mm.reshape(-1, 3)
    np.testing.assert_allclose(corners.min(axis=0), [-0.75, 2.75, 0.0])
    np.testing.assert_allclose(corners.max(axis=0), [-0.25, 3.25, 7.0])


def test_footprint_holds_only_what_stands_on_the_platform():
    columns = columns_of([(0, 0.0, 2.0), (1, 1.0, 2.0), (7, 0.0, 1.0)])
    corners = platform_footprint(columns, 0.01).corners_mm
    assert corners.shape == (2, 4, 3)
    np.testing.assert_allclose(corners[:, :, 2], 0.01)
    area = np.cross(corners[:, 1] - corners[:, 0], corners[:, 3] - corners[:, 0])[:, 2]
    np.testing.assert_allclose(area, 0.25, rtol=1e-6)  # anticlockwise seen from above


def test_no_columns_make_nothing():
    none = columns_of([])
    assert len(support_bodies(none)) == 0
    assert len(platform_footprint(none)) == 0


@pytest.mark.parametrize(("end", "sign"), [("bottom", 1.0), ("top", -1.0)])
def test_marks_lie_on_the_plane_of_their_face(end, sign):
    """A plane inclined by 30° about y: z = x tan 30°."""
    normal = np.array([[-np.sin(np.pi / 6), 0.0, np.cos(np.pi / 6)]]) * sign
    x = -1.0 + 0.5 * np.array([1, 2])
    height = x * np.tan(np.pi / 6) + 10.0
    low, high = (height, height + 3) if end == "bottom" else (height - 3, height)
    columns = columns_of(np.stack([[3, 6], low, high], axis=1))
    columns.bottom_face[:] = 0
    marks, face = marks_on_faces(columns, np.array([[0.0, 0.0, 10.0]]), normal, end, 0.0)
    corners = marks.corners_mm.astype(float)
    np.testing.assert_allclose(
        corners[:, :, 2], corners[:, :, 0] * np.tan(np.pi / 6) + 10, atol=1e-5
    )
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 3] - corners[:, 0])
    # The true area of a cell on a plane inclined by 30°; each mark faces away from the part.
    np.testing.assert_allclose(across @ normal[0], 0.25 / np.cos(np.pi / 6), rtol=1e-5)
    assert face.tolist() == [0, 0]


@given(st.sets(st.integers(0, 11), min_size=1))
def test_the_rim_encloses_the_footprint(cells):
    """Every side between a cell that stands and one that does not, once; area by the shoelace."""
    columns = columns_of([(cell, 0.0, 1.0) for cell in cells])
    rim = footprint_rim(columns).astype(float)
    wanted = set()
    for cell in cells:
        ix, iy = divmod(cell, 3)
        x, y = -1.0 + 0.5 * ix, 2.0 + 0.5 * iy
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            inside = 0 <= ix + dx < 4 and 0 <= iy + dy < 3
            if not (inside and (ix + dx) * 3 + iy + dy in cells):
                wanted.add((round(x + dx / 4, 6), round(y + dy / 4, 6)))
    middles = rim.mean(axis=1)
    assert {(round(x, 6), round(y, 6)) for x, y, _ in middles} == wanted
    assert len(rim) == len(wanted)
    np.testing.assert_allclose(np.linalg.norm(rim[:, 1] - rim[:, 0], axis=1), 0.5)
    assert (rim[:, :, 2] == 0).all()
