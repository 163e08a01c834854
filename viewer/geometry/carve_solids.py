"""Blocks of cells carved by a part, by manifold3d, which holds the interpreter lock.

Blocks reach a little into the part above and below them; what is left once the part is taken away
follows its surface exactly and cannot overlap it. Apart from the arrays nothing is imported here,
so that a process of its own is ready quickly.
"""

from typing import NamedTuple

import manifold3d
import numpy as np

from viewer.own_process import run_in_own_process
from viewer.progress import Progress

WITHIN_MM = 1e-4  # how much leaving out vertices may change
FEW_FACES = 4000  # of the part; carved in some 50 ms, for which no process is started


class Block(NamedTuple):
    """Cells of equal bottom and top: rectangles[k] is (x0, y0, x1, y1)."""

    bottom_mm: float
    top_mm: float
    rectangles_mm: np.ndarray


class Carved(NamedTuple):
    """Closed surfaces, each as (n, 3) float64 points and (m, 3) int64 faces.

    all_mm3 : of all that is left of the blocks when the part alone is taken away
    body, contact : below and within the contact layers, the gap left free
    """

    all_mm3: float
    body: tuple[np.ndarray, np.ndarray]
    contact: tuple[np.ndarray, np.ndarray]


class Carving(NamedTuple):
    """The part, (n, 3) points and (m, 3) faces, and how far below it things are.

    gap_mm : left free under the part; contact_mm : of contact layers below that, in `steps` layers
    least_mm3 : smaller bits are dropped
    cell_mm, wall_mm : the bulk keeps walls so thick around upright cells so wide; 0 keeps it whole
    """

    points_mm: np.ndarray
    faces: np.ndarray
    gap_mm: float
    contact_mm: float
    steps: int
    least_mm3: float
    cell_mm: float = 0.0
    wall_mm: float = 0.0


def carve(blocks: list[Block], carving: Carving, progress: Progress | None = None) -> Carved | None:
    """What the part leaves of the blocks; None if the part is no solid to the modeller.

    Raises Cancelled; ShowsideError when the process dies.
    """
    if len(carving.faces) <= FEW_FACES:
        return carve_here(blocks, carving)
    return run_in_own_process(carve_here, blocks, carving, progress=progress)


def carve_here(
    blocks: list[Block], carving: Carving, progress: Progress | None = None
) -> Carved | None:
    """The same in this process."""
    part = solid_of(carving.points_mm, carving.faces)
    if part.status() != manifold3d.Error.NoError or part.is_empty():
        return None
    left = united_blocks(blocks) - part
    all_mm3 = left.volume()
    free = left
    if carving.gap_mm > 0:
        free = _without(left, part, 0.0, carving.gap_mm, carving.steps)
    empty = manifold3d.Manifold()
    contact, body = empty, free
    if carving.contact_mm > 0:
        near = _lowered(part, carving.gap_mm, carving.contact_mm, carving.steps)
        body = manifold3d.Manifold.batch_boolean([free, *near], manifold3d.OpType.Subtract)
        # To meet `near` instead would leave sheets without thickness along walls in common.
        contact = free - body
    if carving.cell_mm > 0 and not body.is_empty():
        body = body - _cells(body, carving.cell_mm, carving.wall_mm)
    return Carved(
        all_mm3, arrays_of(body, carving.least_mm3), arrays_of(contact, carving.least_mm3)
    )


def solid_of(points_mm: np.ndarray, faces: np.ndarray) -> manifold3d.Manifold:
    """A surface as a solid of the modeller, in double precision."""
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(points_mm, np.float64),
            tri_verts=np.asarray(faces, np.uint64).copy(),
        )
    )


def united_blocks(blocks: list[Block]) -> manifold3d.Manifold:
    """One solid of all blocks; those that share a wall melt together."""
    solids = []
    for block in blocks:
        x0, y0, x1, y1 = block.rectangles_mm.T
        corners = np.stack([x0, y0, x1, y0, x1, y1, x0, y1], axis=1).reshape(-1, 4, 2)
        plan = manifold3d.CrossSection(list(corners), manifold3d.FillRule.NonZero)
        height = block.top_mm - block.bottom_mm
        solids.append(plan.extrude(height).translate([0, 0, block.bottom_mm]))
    return (
        manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add)
        .as_original()
        .simplify(WITHIN_MM)
    )


def _lowered(part, from_mm: float, by_mm: float, steps: int) -> list[manifold3d.Manifold]:
    """The part lowered in steps: a sheet thinner than the whole way is met in each of them."""
    return [part.translate([0, 0, -from_mm - by_mm * (k + 1) / steps]) for k in range(steps)]


def _cells(body, cell_mm: float, wall_mm: float) -> manifold3d.Manifold:
    """Upright square cells through all of a body, walls between them; symmetrical about x = y = 0.

    Being upright, what is left of the body hangs over nowhere that the body did not.
    """
    x0, y0, low, x1, y1, high = body.bounding_box()
    pitch = cell_mm + wall_mm

    def starts(first: float, last: float) -> np.ndarray:
        return (np.arange(np.floor(first / pitch), np.ceil(last / pitch)) + 0.5) * pitch

    middles = np.stack(np.meshgrid(starts(x0, x1), starts(y0, y1)), axis=-1).reshape(-1, 1, 2)
    half = cell_mm / 2.0
    corners = middles + np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    plan = manifold3d.CrossSection(list(corners), manifold3d.FillRule.NonZero)
    return plan.extrude(high - low + 2.0).translate([0, 0, low - 1.0])


def _without(solid, part, from_mm, by_mm, steps):
    lowered = _lowered(part, from_mm, by_mm, steps)
    return manifold3d.Manifold.batch_boolean([solid, *lowered], manifold3d.OpType.Subtract)


def arrays_of(solid: manifold3d.Manifold, least_mm3: float) -> tuple[np.ndarray, np.ndarray]:
    """Points and faces of a solid without its smallest bits."""
    bits = [bit for bit in solid.decompose() if abs(bit.volume()) >= least_mm3]
    if not bits:
        return np.empty((0, 3)), np.empty((0, 3), np.int64)
    # Faces of blocks, and of the part at each of its heights, are told apart no longer.
    whole = manifold3d.Manifold.compose(bits).as_original()
    fewer = whole.simplify(WITHIN_MM)
    changed = abs(fewer.volume() - whole.volume())
    mesh = (fewer if changed <= WITHIN_MM * whole.surface_area() else whole).to_mesh64()
    return np.array(mesh.vert_properties)[:, :3].copy(), np.array(mesh.tri_verts, np.int64)
