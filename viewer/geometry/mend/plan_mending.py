"""Choose the mending steps for a part, in order, by trying each on what the one before leaves."""

from dataclasses import replace

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.chain_boundary import chain_boundary
from viewer.geometry.mend.drop_bits import lost_inside
from viewer.geometry.mend.faults_left import FaultsLeft, faults_left_of, find_faults_left
from viewer.geometry.mend.find_holes import find_holes
from viewer.geometry.mend.mended import MendedMesh, after, unchanged
from viewer.geometry.mend.smooth_folds import MOST_SHARE
from viewer.geometry.mend.steps import Made, Step, step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults
from viewer.progress import Progress

_SHEET = 0.6  # a lid over the rim that is so large a share of the surface: it is a sheet
# Turning comes again after closing: only then it is known which way a shell faces.
_SHARE = 0.1  # of the progress that is left, for each try
_CLOSE = ("merge-vertices", "drop-degenerate", "drop-doubled", "turn-outward", "drop-doubled",
          "sew-seams", "fill-small-holes", "turn-outward", "drop-degenerate")  # fmt: skip


def plan_mending(
    mesh: Mesh, faults: MeshFaults | None = None, progress: Progress | None = None
) -> tuple[Step, ...]:
    """The steps that mend a part, safe ones first as far as possible; () where nothing is wrong.

    faults : of the mesh, if they are known already
    Each step is chosen on what those before it leave, and keeps what came of it (`Step.made`).
    Raises Cancelled.
    """
    progress = progress or Progress()
    plan = _Plan(mesh, progress)
    if not (faults_left_of(faults) if faults else plan.faults_left()).any:
        return ()
    plan.try_steps(*_CLOSE)
    if _only_crowded(plan.mesh):
        plan.try_steps("part-bodies")
    if len(chain_boundary(plan.mesh.faces)):
        plan.try_steps("sew-wide-seams")
    plan.try_steps("single-sheet")
    if lost_inside(plan.mesh).any():  # before it could get a wall
        plan.try_steps("drop-bits")
    if len(chain_boundary(plan.mesh.faces)):
        sheet = _is_sheet(plan.mesh)
        plan.try_steps("thicken-sheet" if sheet else "fill-holes", "turn-outward")
        if len(chain_boundary(plan.mesh.faces)):
            plan.try_steps("fill-holes", "turn-outward")
        plan.try_steps("drop-degenerate", "drop-doubled")
    for _ in range(2):  # bodies that part may show edges that did not add up between them
        plan.try_steps(*(("fill-holes",) if len(chain_boundary(plan.mesh.faces)) else ()))
        plan.try_steps(*(("part-bodies",) if _only_crowded(plan.mesh) else ()))
    left = plan.faults_left()
    folded = np.unique(left.crossing[left.in_one_shell])
    if 0 < len(folded) <= MOST_SHARE * plan.mesh.face_count:
        plan.try_steps("smooth-folds")
    if not left.in_one_shell.all() or left.touching_faces:
        plan.try_steps("unite-shells", "part-bodies")
    if left.specks:
        plan.try_steps("drop-bits")
    if not _is_closed(plan.mesh):
        return _new_skin(mesh, plan) or tuple(plan.steps)
    return tuple(plan.steps)


def _is_closed(mesh: Mesh) -> bool:
    edges = find_edge_faults(mesh.faces)
    return not (len(edges.open) or len(edges.crowded) or len(edges.flipped))


def _new_skin(mesh: Mesh, tried: "_Plan") -> tuple[Step, ...]:
    """The last resort, for the part as it was; none where there is nothing to lay a skin around."""
    plan = _Plan(mesh, tried.rest())
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
    """Steps that changed something, and the mesh as they leave it.

    How many steps there will be is not known beforehand: each try gets a share of what is left of
    the progress.
    """

    def __init__(self, mesh: Mesh, progress: Progress) -> None:
        self.done, self.steps = unchanged(mesh), []
        self._progress, self._told = progress, 0.0

    @property
    def mesh(self) -> Mesh:
        return self.done.mesh

    def faults_left(self) -> FaultsLeft:
        return find_faults_left(self.mesh, self._next_part())

    def try_steps(self, *names: str) -> None:
        for name in names:
            before = self.mesh
            step = step_named(name, before)
            made = take(step, before, self._next_part())
            same = np.array_equal(made.faces, before.faces) and np.array_equal(
                made.vertices_mm, before.vertices_mm
            )
            if same or not len(made.faces):
                continue
            self.done = after(self.done, made)
            self.steps.append(replace(step, made=Made(before, made)))

    def rest(self) -> Progress:
        """The progress that is left."""
        return self._progress.part(self._told, 1.0)

    def _next_part(self) -> Progress:
        start, self._told = self._told, self._told + _SHARE * (1.0 - self._told)
        return self._progress.part(start, self._told)


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
