"""The health report of a part: its faults, the heights they sit at, and what that means."""

from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

import numpy as np

from viewer.geometry import fault_words
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults, find_mesh_faults
from viewer.geometry.pose import Pose, rotation
from viewer.progress import Progress

_MOST_LAYERS = 1_000_000  # more layers than any machine prints are not listed one by one

# Faults do not depend on the pose, so turning a part does not look for them again.
_known_faults: WeakKeyDictionary[Mesh, MeshFaults] = WeakKeyDictionary()


@dataclass(frozen=True, eq=False)
class Fault:
    """One kind of fault and where it sits in the posed part.

    from_mm, to_mm : lowest and highest height over the platform
    layers : numbers of the layers it reaches into, 0 for the first on the platform
    faces : int32, the faces concerned
    """

    kind: str
    count: int
    from_mm: float
    to_mm: float
    layers: tuple[int, ...]
    advice: str
    faces: np.ndarray

    @property
    def words(self) -> str:
        """Count and kind in plain words, such as "112 open edges"."""
        return fault_words.counted(self.kind, self.count)


@dataclass(frozen=True, eq=False)
class HealthReport:
    """What `check` answers. `size_mm` is (3,) in the posed frame."""

    size_mm: np.ndarray
    shells: int
    cavities: int
    open_edges: int
    nonmanifold_edges: int
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
        listed = ("kind", "count", "from_mm", "to_mm", "layers", "advice")
        values = {key: value for key, value in vars(self).items() if key != "size_mm"}
        values["faults"] = [
            {key: getattr(fault, key) for key in listed} | {"layers": list(fault.layers)}
            for fault in self.faults
        ]
        return values


def check_mesh(
    mesh: Mesh,
    pose: Pose | None = None,
    layer_mm: float = 0.2,
    progress: Progress | None = None,
) -> HealthReport:
    """The health of a mesh, its faults at their heights in a pose.

    Raises Cancelled through `progress`. The second call for the same mesh is quick.
    """
    faults = _known_faults.get(mesh)
    if faults is None:
        faults = find_mesh_faults(mesh, progress)
        _known_faults[mesh] = faults
    # One row for each axis: sums along a row are several times quicker than down columns.
    turned = np.stack([mesh.vertices_mm @ axis for axis in rotation(pose or Pose())])
    standing = turned if faults.used is None else turned[:, faults.used]
    low, high = (
        (standing.min(axis=1), standing.max(axis=1)) if mesh.face_count else (np.zeros(3),) * 2
    )
    size = high - low
    listed = _listed(mesh, faults, turned[2] - low[2], layer_mm)
    verdict, reason = fault_words.verdict(mesh, faults)
    return HealthReport(
        size_mm=size,
        shells=faults.shells.count,
        cavities=faults.shells.cavities,
        open_edges=len(faults.edges.open),
        nonmanifold_edges=len(faults.edges.crowded),
        flipped_edges=len(faults.edges.flipped),
        degenerate_faces=len(faults.faces.degenerate),
        duplicate_faces=len(faults.faces.duplicate),
        self_intersecting_faces=len(faults.crossing_faces),
        inward_shells=faults.shells.inward_shells,
        faults=listed,
        verdict=verdict,
        reason=reason,
    )


def _listed(
    mesh: Mesh, faults: MeshFaults, heights_mm: np.ndarray, layer_mm: float
) -> tuple[Fault, ...]:
    """Faults of each kind that is there, with heights ((n,) over the platform, by vertex)."""
    edges, faces, shells = faults.edges, faults.faces, faults.shells
    inward = np.flatnonzero(shells.flipped[shells.shell_of_face]).astype(np.int32)
    # kind, count, faces, vertices of each single fault (rows)
    found = (
        ("open_edges", len(edges.open), edges.open_faces, edges.open),
        ("nonmanifold_edges", len(edges.crowded), edges.crowded_faces, edges.crowded),
        ("flipped_edges", len(edges.flipped), edges.flipped_faces, edges.flipped),
        ("self_intersecting_faces", len(faults.crossing_faces), faults.crossing_faces, None),
        ("inward_shells", shells.inward_shells, inward, None),
        ("duplicate_faces", len(faces.duplicate), faces.duplicate, None),
        ("floating_bits", faults.specks, faults.speck_faces, None),
        ("touching_shells", len(faults.touching_faces), faults.touching_faces, None),
        ("degenerate_faces", len(faces.degenerate), faces.degenerate, None),
    )
    listed = []
    for kind, count, face_list, vertices in found:
        if not count:
            continue
        z = heights_mm[mesh.faces[face_list] if vertices is None else vertices]
        low, high = z.min(axis=1), z.max(axis=1)
        listed.append(
            Fault(
                kind,
                count,
                float(low.min()),
                float(high.max()),
                layers_between(low, high, layer_mm),
                fault_words.advice(kind, faults),
                face_list,
            )
        )
    return tuple(listed)


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
