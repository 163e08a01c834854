"""Faults that come and go with the pose: jumps of section, steps lower than a layer, loose bits."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from viewer.geometry.face_groups import places_of_groups
from viewer.geometry.fault_list import FoundFault, fault_of_faces
from viewer.geometry.fault_words import CARE, HARMLESS, WORDS
from viewer.geometry.layer_profile import MOST_LAYERS, layer_profile
from viewer.geometry.low_relief import low_steps
from viewer.geometry.mesh_faults import MeshFaults
from viewer.geometry.section_jumps import find_section_jumps
from viewer.progress import Progress
from viewer.words import later, say

_IN_AIR = later(
    "It touches nothing, so that its first layer is laid in mid-air and falls down as a loose "
    "string."
)


def faults_of_pose(
    faults: MeshFaults,
    posed_mm: np.ndarray,
    up: np.ndarray,
    layer_mm: float,
    road_mm: float,
    progress: Progress | None = None,
) -> Iterator[FoundFault]:
    """The kinds that are there, of those that depend on the pose.

    posed_mm : (3, n) float64, vertices turned and dropped onto z = 0, one row an axis
    up : (3,) float64, unit, in part coordinates
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    mesh = faults.mesh
    if not mesh.face_count:
        return
    mesh.know_areas(progress, normals=True)
    n_z = mesh.face_normals @ up
    progress.check()
    steps, group = low_steps(
        posed_mm[2], mesh.vertices_mm, mesh.faces, faults.neighbours, n_z, layer_mm, road_mm,
        progress,
    )  # fmt: skip
    if len(steps):
        count = int(group.max()) + 1
        yield fault_of_faces(mesh, "low_relief", steps, CARE, count, group, progress=progress)
    jumps = _section_jumps(faults, posed_mm, layer_mm, progress)
    if jumps is not None:
        yield jumps


def _section_jumps(
    faults: MeshFaults, posed_mm: np.ndarray, layer_mm: float, progress: Progress
) -> FoundFault | None:
    """Jumps of section; none are told for surfaces with holes, whose sections mean nothing.

    Where shells overlap, what they have in common counts twice.
    """
    mesh, shells = faults.mesh, faults.shells
    z = posed_mm[2][mesh.faces]
    progress.check()
    top_mm = float(z.max())
    if not shells.closed.all() or top_mm / layer_mm > MOST_LAYERS:
        return None
    turned = shells.orientation < 0
    faces = mesh.faces
    if turned.any():
        faces = np.where(turned[:, None], faces[:, ::-1], faces)
    progress.check()
    points = np.ascontiguousarray(posed_mm.T)
    progress.check()
    profile = layer_profile(points, faces, layer_mm, progress=progress)
    layers = find_section_jumps(profile.area_mm2)
    if not len(layers):
        return None
    # The ledge lies between the middles of the two layers: the faces that are wholly in there.
    low = np.minimum(np.minimum(z[:, 0], z[:, 1]), z[:, 2]) / layer_mm
    progress.check()
    high = np.maximum(np.maximum(z[:, 0], z[:, 1]), z[:, 2]) / layer_mm
    progress.check()
    at = (np.searchsorted(layers, low + 0.5 + 1e-6, side="right") - 1).clip(0)
    progress.check()
    inside = (low >= layers[at] - 0.5 - 1e-6) & (high <= layers[at] + 0.5 + 1e-6)
    ledges = np.flatnonzero(inside & (mesh.face_areas_mm2 > 0)).astype(np.int32)
    if not len(ledges):
        return None
    progress.check()
    group = np.unique(at[ledges], return_inverse=True)[1]
    rows = mesh.faces[ledges]
    return FoundFault(
        "section_jumps",
        len(layers),
        ledges,
        mesh.vertices_mm,
        rows,
        places_of_groups(mesh.vertices_mm, rows, group, progress=progress),
        HARMLESS,
        say(WORDS["section_jumps"].effect),
        say(WORDS["section_jumps"].advice),
    )


def grounded_bits(fault: FoundFault, up: np.ndarray, low_mm: float, layer_mm: float) -> FoundFault:
    """Loose bits with what happens to them in this pose; other faults as they are."""
    if fault.kind != "floating_bits":
        return fault
    heights = fault.places.points_mm @ up - low_mm - 0.5 * fault.places.sizes_mm
    return replace(fault, effect=say(_IN_AIR)) if (heights > layer_mm).any() else fault
