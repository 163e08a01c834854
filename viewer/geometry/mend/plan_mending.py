"""Choose the mending steps for a part, in order, by trying each on what the one before leaves."""

from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.chain_boundary import chain_boundary
from viewer.geometry.mend.fill_holes import find_holes
from viewer.geometry.mend.mended import MendedMesh, after, unchanged
from viewer.geometry.mend.smooth_folds import MOST_SHARE
from viewer.geometry.mend.steps import SAFE, Step, step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults, find_mesh_faults
from viewer.geometry.nearest_face import nearest_faces
from viewer.progress import Progress

_SHEET = 0.6  # a lid over the rim that is so large a share of the surface: it is a sheet
# Turning comes again after closing: only then it is known which way a shell faces.
_CLOSE = ("merge-vertices", "drop-degenerate", "drop-doubled", "turn-outward", "drop-doubled",
          "sew-seams", "fill-small-holes", "turn-outward", "drop-degenerate")  # fmt: skip


@dataclass(frozen=True, eq=False)
class MendEffect:
    """What a step changes.

    largest_moved_mm : the farthest that new surface lies from the old
    left : faults afterwards
    """

    mended: MendedMesh
    faces_before: int
    faces_after: int
    volume_before_mm3: float
    volume_after_mm3: float
    area_before_mm2: float
    area_after_mm2: float
    largest_moved_mm: float
    left: MeshFaults


def preview(step: Step, mesh: Mesh, progress: Progress | None = None) -> MendEffect:
    """What a step would change; the mesh stays as it is. Raises Cancelled."""
    progress = progress or Progress()
    mended = take(step, mesh, progress.part(0.0, 0.5))
    new = mended.mesh
    return MendEffect(
        mended,
        mesh.face_count,
        new.face_count,
        mesh.signed_volume_mm3,
        new.signed_volume_mm3,
        float(mesh.face_areas_mm2.sum()),
        float(new.face_areas_mm2.sum()),
        largest_moved_mm(mesh, new, progress.part(0.5, 0.7)),
        find_mesh_faults(new, progress.part(0.7, 1.0)),
    )


def largest_moved_mm(before: Mesh, now: Mesh, progress: Progress | None = None) -> float:
    """The farthest that a corner or middle of a new face of `now` lies from `before`."""
    if not before.face_count or not now.face_count:
        return 0.0
    old = set(map(bytes, before.vertices_mm + 0.0))
    new = np.array([bytes(point) not in old for point in now.vertices_mm + 0.0])
    points = now.vertices_mm[new & np.isin(np.arange(len(new)), now.faces)]
    if now.face_count != before.face_count or len(points):
        known = {bytes(row) for row in np.sort(before.corners_mm, axis=1)}
        rows = np.sort(now.corners_mm, axis=1)
        fresh = np.array([bytes(row) not in known for row in rows])
        points = np.concatenate([points, now.corners_mm[fresh].mean(axis=1)])
    if not len(points):
        return 0.0
    nearest = nearest_faces(before.vertices_mm, before.faces, points, progress)
    return float(nearest.distances_mm.max())


def plan_mending(
    mesh: Mesh, faults: MeshFaults | None = None, progress: Progress | None = None
) -> tuple[Step, ...]:
    """The steps that mend a part, safe ones first as far as possible; () where nothing is wrong.

    faults : of the mesh, if they are known already
    Each step is chosen on what those before it leave. Raises Cancelled.
    """
    progress = progress or Progress()
    faults = faults or find_mesh_faults(mesh, progress.part(0.0, 0.2))
    if not _anything(faults):
        return ()
    plan = _Plan(mesh, progress)
    plan.try_steps(*_CLOSE)
    if _only_crowded(plan.mesh):
        plan.try_steps("part-bodies")
    if len(chain_boundary(plan.mesh.faces)):
        plan.try_steps("sew-wide-seams")
    plan.try_steps("single-sheet")
    if len(chain_boundary(plan.mesh.faces)):
        sheet = _is_sheet(plan.mesh)
        plan.try_steps("thicken-sheet" if sheet else "fill-holes", "turn-outward")
        if len(chain_boundary(plan.mesh.faces)):
            plan.try_steps("fill-holes", "turn-outward")
        plan.try_steps("drop-degenerate", "drop-doubled")
    for _ in range(2):  # bodies that part may show edges that did not add up between them
        plan.try_steps(*(("fill-holes",) if len(chain_boundary(plan.mesh.faces)) else ()))
        plan.try_steps(*(("part-bodies",) if _only_crowded(plan.mesh) else ()))
    progress.report(0.6, "Looking for what is left")
    left = find_mesh_faults(plan.mesh, progress.part(0.6, 0.7))
    pairs = left.intersections.crossing
    shell = left.shells.shell_of_face
    inside = shell[pairs[:, 0]] == shell[pairs[:, 1]]
    if inside.any() and len(np.unique(pairs[inside])) <= MOST_SHARE * plan.mesh.face_count:
        plan.try_steps("smooth-folds")
    if (~inside).any() or len(left.touching_faces):
        plan.try_steps("unite-shells", "part-bodies")
    if left.specks:
        plan.try_steps("drop-bits")
    if not _is_closed(plan.mesh):
        return _new_skin(mesh, progress) or tuple(plan.steps)
    return tuple(plan.steps)


def _is_closed(mesh: Mesh) -> bool:
    edges = find_edge_faults(mesh.faces)
    return not (len(edges.open) or len(edges.crowded) or len(edges.flipped))


def _new_skin(mesh: Mesh, progress: Progress) -> tuple[Step, ...]:
    """The last resort, for the part as it was; none where there is nothing to lay a skin around."""
    plan = _Plan(mesh, progress)
    try:
        plan.try_steps("re-skin")
    except RequestProblem:
        return ()
    return tuple(plan.steps) if plan.steps and _is_closed(plan.mesh) else ()


def take_all(steps: tuple[Step, ...], mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh after several steps. Raises Cancelled."""
    progress = progress or Progress()
    done = unchanged(mesh)
    for k, step in enumerate(steps):
        part = progress.part(k / len(steps), (k + 1) / len(steps))
        done = after(done, take(step, done.mesh, part))
    return done


def mend_safely(
    mesh: Mesh, progress: Progress | None = None
) -> tuple[tuple[Step, ...], MendedMesh]:
    """The safe steps that change something, and the mesh after them. Raises Cancelled."""
    plan = _Plan(mesh, progress or Progress())
    plan.try_steps(*_CLOSE)
    if _only_crowded(plan.mesh):
        plan.try_steps("part-bodies")
    return tuple(plan.steps), plan.done


class _Plan:
    """Steps that changed something, and the mesh as they leave it."""

    def __init__(self, mesh: Mesh, progress: Progress) -> None:
        self.done, self.steps, self._progress = unchanged(mesh), [], progress

    @property
    def mesh(self) -> Mesh:
        return self.done.mesh

    def try_steps(self, *names: str) -> None:
        for name in names:
            self._progress.check()
            step = step_named(name, self.mesh)
            made = take(step, self.mesh)
            same = np.array_equal(made.faces, self.mesh.faces) and np.array_equal(
                made.vertices_mm, self.mesh.vertices_mm
            )
            if same or not len(made.faces):
                continue
            self.done = after(self.done, made)
            self.steps.append(step)


def _anything(faults: MeshFaults) -> bool:
    edges = faults.edges
    return bool(
        len(edges.open) or len(edges.crowded) or len(edges.flipped)
        or len(faults.faces.degenerate) or len(faults.faces.duplicate)
        or faults.shells.inward_shells or (faults.shells.orientation < 0).any()
        or len(faults.crossing_faces) or len(faults.touching_faces) or faults.specks
    )  # fmt: skip


def _only_crowded(mesh: Mesh) -> bool:
    """Whether edges with more than two faces are all that keeps the surface from being one."""
    return bool(
        len(find_edge_faults(mesh.faces).crowded)
        and not len(chain_boundary(mesh.faces))
        and not len(find_face_faults(mesh).duplicate)
    )


def _is_sheet(mesh: Mesh) -> bool:
    lids = sum(hole.area_mm2 for hole in find_holes(mesh))
    shells = shells_of(mesh)
    open_area = mesh.face_areas_mm2[~shells.closed[shells.shell_of_face]].sum()
    return lids > _SHEET * float(open_area)


__all__ = ["SAFE", "MendEffect", "mend_safely", "plan_mending", "preview", "take_all"]
