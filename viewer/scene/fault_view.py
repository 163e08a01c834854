"""Faults on the part: markers and faulty edges that show through it, families by face."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkActor, vtkRenderer

from viewer.geometry.fault_words import HARMLESS
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import Fault, HealthReport
from viewer.scene.actors import actor_of, cut_actors, paint, set_shape
from viewer.scene.arrays import lines
from viewer.scene.fault_looks import FAULT_LOOKS, family
from viewer.scene.glyphs import Glyphs, seen_through
from viewer.scene.themes import Theme

HARMLESS_MARKERS = 40  # the largest places; hundreds of marks would hide those that matter
MARKER_PX, LINE_PX, HALO_PX = 17.0, 3.5, 6.0
EDGE_KINDS = ("open_edges", "nonmanifold_edges", "flipped_edges")


def face_families(report: HealthReport | None, face_count: int) -> np.ndarray:
    """(m,) uint8: 0 no fault, otherwise the family of the face's fault; the gravest wins."""
    families = np.zeros(face_count, np.uint8)
    for fault in sorted(report.faults if report else (), key=lambda f: -family(f.kind)):
        families[fault.faces] = family(fault.kind)
    return families


def faulty_edges(mesh: Mesh, neighbours: np.ndarray, report: HealthReport) -> dict[int, np.ndarray]:
    """Pairs of vertices (e, 2) of the edges at fault, by the number of their family.

    The faces of all uses of a faulty edge are among those of its fault. Nothing lies across an
    open edge (used once) or one with more than two faces; across an edge between faces turned
    against each other lies a face that runs along it in the same direction.
    """
    found = {fault.kind: fault.faces for fault in report.faults if fault.kind in EDGE_KINDS}
    edges = {}
    if "open_edges" in found or "nonmanifold_edges" in found:
        faces = np.unique(np.concatenate([found[kind] for kind in found]))
        ends, uses = np.unique(np.sort(_sides(mesh, neighbours, faces, False)), axis=0,
                               return_counts=True)  # fmt: skip
        for kind, which in (("open_edges", uses == 1), ("nonmanifold_edges", uses > 2)):
            if kind in found:
                edges[family(kind)] = ends[which]
    if "flipped_edges" in found:
        sides = _sides(mesh, neighbours, found["flipped_edges"], True)
        ends, uses = np.unique(sides, axis=0, return_counts=True)
        edges[family("flipped_edges")] = ends[uses == 2]
    return edges


def _sides(mesh: Mesh, neighbours: np.ndarray, faces: np.ndarray, shared: bool) -> np.ndarray:
    """(e, 2) from corner to corner: edges of `faces` across which there is a face, or none."""
    row, k = np.nonzero((neighbours[faces] >= 0) == shared)
    corners = mesh.faces[faces]
    return np.stack([corners[row, k], corners[row, (k + 1) % 3]], axis=1)


class FaultView:
    """Marks in part coordinates less the part's centre; they move with the part."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        self._halo = actor_of()
        self._lines = [actor_of() for _ in FAULT_LOOKS]
        self._markers = [Glyphs(look.shape, MARKER_PX) for look in FAULT_LOOKS]
        for actor in (self._halo, *self._lines):
            seen_through(actor)
            actor.VisibilityOff()
        self._renderer, self._wanted, self._pixel_scale = renderer, False, 1.0
        self._known: tuple = ()
        self.draw_last()
        self.set_theme(theme)

    def _actors(self) -> list[vtkActor]:
        return [self._halo, *self._lines, *(marker.actor for marker in self._markers)]

    def draw_last(self) -> None:
        """Move behind all actors added so far in the order of drawing."""
        for actor in self._actors():
            self._renderer.RemoveActor(actor)
            self._renderer.AddActor(actor)

    def show(
        self,
        report: HealthReport | None,
        mesh: Mesh | None,
        neighbours: np.ndarray | None,
        centre_mm: np.ndarray,
    ) -> None:
        """Mark the faults of a part; None for none. The same faults at other heights cost nothing.

        neighbours : (m, 3) int32 across the edges of the faces of `mesh`
        """
        faults: tuple[Fault, ...] = report.faults if report and mesh is not None else ()
        places = [b"".join(place.point_mm.tobytes() for place in f.places) for f in faults]
        known = (id(mesh), *((f.kind, f.count, len(f.faces)) for f in faults), *places)
        if known == self._known:
            return
        self._known = known
        edges = faulty_edges(mesh, neighbours, report) if faults else {}
        every = [ends for ends in edges.values() if len(ends)]
        positions = np.zeros((0, 3)) if not every else mesh.vertices_mm - centre_mm
        set_shape(self._halo, lines(positions, np.concatenate(every)) if every else None)
        for number in range(1, len(FAULT_LOOKS) + 1):
            ends = edges.get(number, ())
            set_shape(self._lines[number - 1], lines(positions, ends) if len(ends) else None)
            places = [
                place.point_mm - centre_mm
                for fault in faults
                if family(fault.kind) == number
                for place in fault.places[: HARMLESS_MARKERS if fault.gravity == HARMLESS else None]
            ]
            self._markers[number - 1].show(np.array(places) if places else None)
        self._apply_visibility()

    def set_wanted(self, wanted: bool) -> None:
        """Whether the lens shows faults."""
        self._wanted = wanted
        self._apply_visibility()

    def _apply_visibility(self) -> None:
        for actor in self._actors():
            there = actor.GetMapper().GetInput().GetNumberOfPoints() > 0
            actor.SetVisibility(self._wanted and there)

    def set_matrix(self, matrix: vtkMatrix4x4) -> None:
        """Move with the part."""
        for actor in self._actors():
            actor.SetUserMatrix(matrix)

    def set_cut(self, plane: vtkPlane | None) -> None:
        """Leave out what lies above a plane; None: nothing."""
        cut_actors(self._actors(), plane)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self._theme, scale = theme, self._pixel_scale
        paint(self._halo, theme.halo, 1.0, HALO_PX * scale)
        for look, line, marker in zip(FAULT_LOOKS, self._lines, self._markers, strict=True):
            paint(line, look.colour, 1.0, LINE_PX * scale)
            marker.paint(look.colour, theme.halo, scale)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a pixel."""
        self._pixel_scale = scale
        self.set_theme(self._theme)
