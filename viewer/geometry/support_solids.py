"""Supports that travel: the supports of a pose as closed bodies that can be printed as they are.

The columns that the measures are taken over become blocks that reach into the part; the part is
taken away from them, so that the bodies follow its undersides and cannot overlap it. The few layers
next to the part are bodies of their own, which may be of another material, under a contact gap.
"""

from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem, ShowsideError
from viewer.geometry.bridges import STEEPEST_BRIDGE_DEG, bridged_points
from viewer.geometry.carve_solids import Block, Carving, carve
from viewer.geometry.cell_blocks import blocks_of_columns
from viewer.geometry.column_field import column_field
from viewer.geometry.column_grid import grid_over
from viewer.geometry.mesh import Mesh
from viewer.geometry.point_box import point_box
from viewer.geometry.pose import Pose, pose_matrix, rotation
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_walk import StandingSupports, stand_supports
from viewer.geometry.turned_part import turn_part_by
from viewer.progress import Progress
from viewer.words import say

NEAR_ENOUGH = 0.01  # share by which the bodies may differ from the measure before finer cells
# Along the longer side of what needs support; no multiples of each other, so that what repeats
# evenly in a part cannot deceive all of them.
_CELLS = (96, 211, 437, 1024)
_MOST_RECTANGLES = 40_000  # finer cells than that take minutes
_LEAST_MM3 = 0.05  # smaller bits do not print
_FINEST_MM, _COARSEST_MM = 0.1, 0.6


@dataclass(frozen=True)
class SupportShape:
    """gap_mm : left free between the part and the contact layers below it
    contact_layers : how many layers next to the part are bodies of their own, 0 to 20
    cell_mm : the bulk is thinned to walls around upright cells so wide, which the contact layers
        bridge; 0 leaves it whole
    wall_mm : thickness of those walls
    """

    gap_mm: float = 0.0
    contact_layers: int = 2
    cell_mm: float = 0.0
    wall_mm: float = 0.8

    def __post_init__(self) -> None:
        if not (0 <= self.cell_mm <= 20 and 0.2 <= self.wall_mm <= 5):
            raise RequestProblem(
                say("Supports are thinned to cells of 0 to 20 mm with walls of 0.2 to 5 mm.")
            )
        if self.cell_mm and not self.contact_layers:
            raise RequestProblem(
                say("Thinned supports need contact layers over their cells; ask for at least one.")
            )
        if not (0 <= self.gap_mm <= 5 and 0 <= self.contact_layers <= 20):
            raise RequestProblem(say("The contact gap is 0 to 5 mm, with 0 to 20 contact layers."))


@dataclass(frozen=True, eq=False)
class SupportSolids:
    """Supports in the posed frame (box of the part centred at x = y = 0, platform at z = 0).

    body, contact : closed meshes, perhaps of several loose bodies; no faces where there are none
    standing_mm3 : what they fill together with the gap and the cells they are thinned by
    measured_mm3 : the measure of the pose
    """

    body: Mesh
    contact: Mesh
    standing_mm3: float
    measured_mm3: float

    @property
    def volume_mm3(self) -> float:
        """Of body and contact layers, without the gap."""
        return self.body.signed_volume_mm3 + self.contact.signed_volume_mm3


def support_solids(
    part: PreparedPart,
    measures: PoseMeasures,
    pose: Pose,
    settings: PrintSettings,
    shape: SupportShape | None = None,
    progress: Progress | None = None,
) -> SupportSolids:
    """The supports of a pose as closed bodies.

    part : of a closed solid (see `closed_part`); measures : of that part in that pose

    Raises ShowsideError where the part is no solid, Cancelled.
    """
    shape, progress = shape or SupportShape(), progress or Progress()
    needs = measures.faces.touch_share > 0
    if not needs.any():
        return SupportSolids(_mesh(), _mesh(), 0.0, measures.support_volume_mm3)
    carving = Carving(
        *posed_solid(part, pose), shape.gap_mm, shape.contact_layers * settings.layer_mm,
        max(1, shape.contact_layers, int(np.ceil(shape.gap_mm / 0.2))), _LEAST_MM3,
        shape.cell_mm, shape.wall_mm,
    )  # fmt: skip
    best = None
    for k, cells in enumerate(_CELLS):
        progress.report(k / len(_CELLS), "Making support bodies")
        blocks, pitch_mm = _blocks(part, needs, pose, settings, cells, progress)
        count = sum(len(block.rectangles_mm) for block in blocks)
        if not blocks:
            continue
        if best is not None and count > _MOST_RECTANGLES:
            break
        carved = carve(blocks, carving, progress)
        if carved is None:
            raise ShowsideError(
                say(
                    "The part is not closed, so no support bodies can be made for it; "
                    "mend it first."
                )
            )
        made = SupportSolids(
            _mesh(*carved.body), _mesh(*carved.contact), carved.all_mm3, measures.support_volume_mm3
        )
        if best is None or _off(made) < _off(best):
            best = made
        if _off(best) <= NEAR_ENOUGH or pitch_mm <= _FINEST_MM:
            break
    return best or SupportSolids(_mesh(), _mesh(), 0.0, measures.support_volume_mm3)


def _off(made: SupportSolids) -> float:
    return abs(made.standing_mm3 - made.measured_mm3) / max(made.measured_mm3, 1e-9)


def _mesh(points: np.ndarray | None = None, faces: np.ndarray | None = None) -> Mesh:
    if points is None or not len(points):
        return Mesh(np.empty((0, 3)), np.empty((0, 3), np.int32))
    return Mesh(points, faces)


def posed_solid(part: PreparedPart, pose: Pose) -> tuple[np.ndarray, np.ndarray]:
    """Points and faces of the part as it stands; shells that touch or overlap united."""
    matrix = pose_matrix(part.mesh.vertices_mm, pose)
    points = (part.solid_points_mm + part.centre_mm) @ matrix[:3, :3].T + matrix[:3, 3]
    faces = part.solid_faces
    used = np.zeros(len(points), bool)
    used[faces] = True
    return points[used], (np.cumsum(used) - 1)[faces]


def _blocks(part, needs, pose, settings, cells, progress) -> tuple[list[Block], float]:
    """Blocks in the posed frame, and the side of a cell."""
    turned = turn_part_by(part.points_mm, rotation(pose))
    corners = turned.points_mm[part.faces[needs]].reshape(-1, 3)
    low, high = corners[:, :2].min(axis=0), corners[:, :2].max(axis=0)
    longest = float((high - low).max())
    least = int(np.ceil(longest / _COARSEST_MM))
    most = max(int(longest / _FINEST_MM), 8)
    # The outermost cells reach half a cell over the rim, as many fall short of it.
    grid = grid_over(low, high, min(max(cells, least), most), None)
    part.get_ready(progress, "for_lines", "ray_tree")
    field = column_field(part.for_lines, turned.rotation, grid, progress)
    standing = stand_supports(field, needs, turned.platform_mm)
    standing = _without_bridged(part, turned, standing, grid, settings, progress)
    blocks = blocks_of_columns(standing, field, grid, turned.platform_mm)
    (all_low, all_high), _ = point_box(turned.points_mm)
    middle = 0.5 * (all_low + all_high)[:2]
    shift = -np.tile(middle, 2)
    moved = [Block(b.bottom_mm, b.top_mm, b.rectangles_mm + shift) for b in blocks]
    return moved, grid.pitch_mm


def _without_bridged(part, turned, standing, grid, settings, progress) -> StandingSupports:
    """The columns under what does not bridge; see `bridged_points`."""
    if settings.bridge_mm == 0 or not len(standing.line):
        return standing
    slope = np.abs(part.normals[standing.top_face] @ turned.up.astype(np.float32))
    level = slope >= np.cos(np.radians(STEEPEST_BRIDGE_DEG))
    asked = level & (standing.top_mm - standing.bottom_mm > 0.5 * settings.layer_mm)
    row, column = np.divmod(standing.line, grid.nx)
    x = grid.x0_mm + (column + 0.5) * grid.pitch_mm
    y = grid.y0_mm + (row + 0.5) * grid.pitch_mm
    points = np.column_stack([x, y, standing.top_mm + turned.platform_mm])
    bridged = bridged_points(
        part.ray_tree, turned.rotation, points, asked, standing.line, grid.nx, settings.layer_mm,
        settings.bridge_mm, progress,
    )  # fmt: skip
    kept = [values[~bridged] for values in standing[:5]]
    return StandingSupports(*kept, standing.doubtful_share)
