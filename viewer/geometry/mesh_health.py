"""The health report of a part: its faults, the heights they sit at, and what that means."""

from dataclasses import dataclass
from typing import Any, NamedTuple
from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry import fault_words
from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.eight_boxes import build_eight_boxes
from viewer.geometry.face_tree import sort_faces
from viewer.geometry.fault_list import FoundFault, fault_of_curves, faults_of_mesh, faults_of_roads
from viewer.geometry.fault_verdict import verdict
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults, find_faults_and_sort
from viewer.geometry.pose import Pose, rotation
from viewer.geometry.pose_faults import faults_of_pose, grounded_bits
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ray_tree import RayTree
from viewer.geometry.self_intersections import near_distance_mm
from viewer.geometry.shell_contacts import bodies_of_shells
from viewer.geometry.thin_places import NearPoints, find_near_points, thin_places
from viewer.progress import Progress

_MOST_LAYERS = 1_000_000  # more layers than any machine prints are not listed one by one
_ROADS_KEPT = 3  # road widths whose points are remembered for a mesh


class _Known(NamedTuple):
    """What was found in a mesh; what is near what by road width in mm."""

    faults: MeshFaults
    listed: list[FoundFault]
    near: dict[float, NearPoints | None]


# Faults do not depend on the pose, so turning a part does not look for them again.
_known_faults: WeakKeyDictionary[Mesh, _Known] = WeakKeyDictionary()


class Place(NamedTuple):
    """Where to look at a fault.

    point_mm : (3,) float64, in part coordinates
    height_mm : of that point over the platform in the pose
    size_mm : diagonal of the box around what is faulty there; length of a loop of open edges
    """

    point_mm: np.ndarray
    height_mm: float
    size_mm: float


@dataclass(frozen=True, eq=False)
class Fault:
    """One kind of fault and where it sits in the posed part.

    from_mm, to_mm : lowest and highest height over the platform
    layers : numbers of the layers it reaches into, 0 for the first on the platform
    effect : what will happen in the print; advice : what to do about it
    gravity : "harmless", "with care" or "will fail"
    faces : int32, the faces concerned
    places : largest first, at most 200
    area_mm2, length_mm : of all together, None where it says nothing
    """

    kind: str
    count: int
    from_mm: float
    to_mm: float
    layers: tuple[int, ...]
    advice: str
    faces: np.ndarray
    effect: str = ""
    gravity: str = fault_words.CARE
    places: tuple[Place, ...] = ()
    area_mm2: float | None = None
    length_mm: float | None = None

    @property
    def words(self) -> str:
        """Count and kind in plain words, such as "112 open edges"."""
        return fault_words.counted(self.kind, self.count)

    def answer(self) -> dict[str, Any]:
        """The fault as plain values under the keys of `check --json`; no key is ever null."""
        keys = ("kind", "count", "from_mm", "to_mm", "effect", "advice", "gravity")
        values = {key: getattr(self, key) for key in keys} | {"layers": list(self.layers)}
        for key in ("area_mm2", "length_mm"):
            if getattr(self, key) is not None:
                values[key] = getattr(self, key)
        values["places"] = [
            place._asdict() | {"point_mm": place.point_mm.tolist()} for place in self.places
        ]
        return values


@dataclass(frozen=True, eq=False)
class HealthReport:
    """What `check` answers. `size_mm` is (3,) in the posed frame; `faults` lowest first."""

    size_mm: np.ndarray
    shells: int
    cavities: int
    open_edges: int
    open_loops: int
    nonmanifold_edges: int
    nonmanifold_vertices: int
    flipped_edges: int
    degenerate_faces: int
    duplicate_faces: int
    self_intersecting_faces: int
    inward_shells: int
    faults: tuple[Fault, ...]
    verdict: str
    reason: str

    def answer(self) -> dict[str, Any]:
        """The report as plain values under the keys of `check --json`."""
        values = {key: value for key, value in vars(self).items() if key != "size_mm"}
        values["faults"] = [fault.answer() for fault in self.faults]
        return values


def check_mesh(
    mesh: Mesh,
    pose: Pose | None = None,
    layer_mm: float = PrintSettings.layer_mm,
    road_mm: float = PrintSettings.road_mm,
    progress: Progress | None = None,
) -> HealthReport:
    """The health of a mesh, its faults at their heights in a pose, for a layer and a road.

    Raises Cancelled through `progress`. The second call for the same mesh is quick.
    """
    progress = progress or Progress()
    known = _known_of(mesh, road_mm, progress)
    faults = known.faults
    # One row for each axis: sums along a row are several times quicker than down columns.
    turned = np.empty((3, len(mesh.vertices_mm)))
    for row, axis in zip(turned, rotation(pose or Pose()), strict=True):
        row[:] = mesh.vertices_mm @ axis
        progress.check()
    standing = turned if faults.used is None else turned[:, faults.used]
    low, high = (
        (standing.min(axis=1), standing.max(axis=1)) if mesh.face_count else (np.zeros(3),) * 2
    )
    progress.check()
    up = rotation(pose or Pose())[2]
    curves = fault_of_curves(faults, layer_mm, progress)
    progress.check()
    turned -= low[:, None]
    in_pose = list(faults_of_pose(faults, turned, up, layer_mm, road_mm, progress))
    listed = [grounded_bits(fault, up, low[2], layer_mm) for fault in known.listed]
    near, thin = known.near[road_mm], []
    if near is not None and len(near.faces):
        progress.check()
        places = thin_places(near, up, layer_mm, road_mm, progress)
        thin = faults_of_roads(faults.mesh, places, road_mm)
    found = [*listed, *thin, *([curves] if curves else []), *in_pose]
    placed = [_place(fault, up, float(low[2]), layer_mm, progress) for fault in found]
    word, reason = verdict(mesh, faults, found)
    return HealthReport(
        size_mm=high - low,
        shells=faults.shells.count,
        cavities=faults.shells.cavities,
        open_edges=len(faults.edges.open),
        open_loops=faults.loops.count,
        nonmanifold_edges=len(faults.edges.crowded),
        nonmanifold_vertices=len(faults.split_vertices),
        flipped_edges=len(faults.edges.flipped),
        degenerate_faces=len(faults.faces.degenerate),
        duplicate_faces=len(faults.faces.duplicate),
        self_intersecting_faces=len(faults.crossing_faces),
        inward_shells=faults.shells.inward_shells,
        faults=tuple(sorted(placed, key=lambda fault: (fault.from_mm, fault.to_mm))),
        verdict=word,
        reason=reason,
    )


def _known_of(mesh: Mesh, road_mm: float, progress: Progress) -> _Known:
    """What does not depend on the pose, worked out once for each mesh and road."""
    known, ordered = _known_faults.get(mesh), None
    if known is None:
        faults, ordered = find_faults_and_sort(mesh, progress.part(0.0, 0.8))
        known = _Known(faults, faults_of_mesh(faults, progress), {})
        progress.check()
        _known_faults[mesh] = known
    if road_mm not in known.near:
        near = _near_points(known.faults, ordered, road_mm, progress.part(0.8, 1.0))
        if len(known.near) >= _ROADS_KEPT:
            known.near.pop(next(iter(known.near)))
        known.near[road_mm] = near
    return known


def _near_points(faults, ordered, road_mm, progress) -> NearPoints | None:
    mesh = faults.mesh
    progress.check()
    if not mesh.face_areas_mm2.sum() > 0:
        return None
    if ordered is None:
        ordered = sort_faces(mesh, near_distance_mm(mesh.box_mm), progress)
    eights = build_eight_boxes(ordered.corners_mm, progress)
    boxes = ordered.tree
    tree = RayTree(ordered.order, ordered.corners_mm, boxes.node_boxes, boxes.leaves, eights)
    folded = np.zeros(len(mesh.vertices_mm), bool)
    folded[mesh.faces[faults.contacts.crossing_faces]] = True
    progress.check()
    unclear = folded[mesh.faces].any(axis=1)
    progress.check()
    unclear[faults.faces.duplicate] = True
    tight = bool((faults.loops.width_mm <= fault_words.CRACK_MM).all())
    return find_near_points(
        mesh, faults.shells, tree, road_mm, progress, np.flatnonzero(unclear), tight,
        bodies_of_shells(faults.shells, faults.intersections),
    )  # fmt: skip


def _place(
    fault: FoundFault, up: np.ndarray, low_mm: float, layer_mm: float, progress: Progress
) -> Fault:
    """A fault at its heights: along `up` ((3,) unit), over the lowest point of the part."""
    heights = fault.points_mm @ up - low_mm
    progress.check()
    rows = np.ascontiguousarray(fault.rows, np.int32)  # one type, compiled but once
    low, high = _ends_of_rows(heights, rows, progress.stop_flag)
    progress.check()
    places = zip(fault.places.points_mm, fault.places.sizes_mm, strict=True)
    return Fault(
        fault.kind,
        fault.count,
        float(low.min()),
        float(high.max()),
        layers_between(low, high, layer_mm),
        fault.advice,
        fault.faces,
        fault.effect,
        fault.gravity,
        tuple(Place(point, float(point @ up - low_mm), float(size)) for point, size in places),
        fault.area_mm2,
        fault.length_mm,
    )


@compiled
def _ends_of_rows(heights, rows, stop):
    low, high = np.empty(len(rows)), np.empty(len(rows))
    for r in range(len(rows)):
        if r & LOOK_BITS == 0 and stop[0]:
            break
        low[r] = high[r] = heights[rows[r, 0]]
        for k in range(1, rows.shape[1]):
            z = heights[rows[r, k]]
            low[r], high[r] = min(low[r], z), max(high[r], z)
    return low, high


def layers_between(low_mm: np.ndarray, high_mm: np.ndarray, layer_mm: float) -> tuple[int, ...]:
    """Layers that any of the stretches `low_mm`..`high_mm` ((k,) each) reaches into.

    Layer n lies between n·layer_mm and (n + 1)·layer_mm. What ends on a border belongs to the
    layer it comes from; what is level on a border belongs to the layer above it.
    """
    little = 1e-6  # of a layer: heights such as 0.6 / 0.2 miss their whole number by rounding
    first = np.floor(low_mm / layer_mm + little).astype(np.int64).clip(0)
    last = np.maximum(np.ceil(high_mm / layer_mm - little).astype(np.int64) - 1, first)
    count = int(last.max(initial=-1)) + 1
    if count > _MOST_LAYERS:
        return ()
    change = np.zeros(count + 1, np.int64)
    np.add.at(change, first, 1)
    np.add.at(change, last + 1, -1)
    return tuple(np.flatnonzero(np.cumsum(change)[:count]).tolist())
