"""The faults of a mesh as one list, each kind with its faces, its places and its gravity."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_groups import Places, group_by_vertices, places_of_groups
from viewer.geometry.fault_words import CARE, CRACK_MM, FAILS, HARMLESS, WORDS, length, listed
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults
from viewer.geometry.thin_places import ThinKind, ThinPlaces
from viewer.geometry.unit_doubt import unit_doubt
from viewer.progress import Progress
from viewer.words import later, say

# Common practice, no source: with so much of its surface on walls too thin to print, what is left
# of a part is not the part.
MOSTLY_THIN = 0.3
LEFTOVERS = 0.01  # share of the surface up to which loose surfaces are no part of the part
MANY_SLIVERS = 0.1  # share of the faces that slows down and confuses what works on the file


@dataclass(frozen=True, eq=False)
class FoundFault:
    """One kind of fault, wherever the part lies.

    faces : int32, the faces concerned
    points_mm, rows : (n, 3) float64 and (k, j) int, points of each single fault; all together span
        its heights
    places : where to look
    gravity : HARMLESS, CARE or FAILS
    area_mm2, length_mm : of all together, None where it says nothing
    """

    kind: str
    count: int
    faces: np.ndarray
    points_mm: np.ndarray
    rows: np.ndarray
    places: Places
    gravity: str
    effect: str
    advice: str
    area_mm2: float | None = None
    length_mm: float | None = None


def fault_of_faces(
    mesh: Mesh,
    kind: str,
    faces: np.ndarray,
    gravity: str,
    count: int | None = None,
    group: np.ndarray | None = None,
    advice: str = "",
    effect: str = "",
    progress: Progress | None = None,
) -> FoundFault:
    """A fault that is told by its faces; its places are groups of faces with common corners.

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    rows = mesh.faces[faces]
    progress.check()
    group = group_by_vertices(rows, progress) if group is None else group
    return FoundFault(
        kind,
        len(faces) if count is None else count,
        faces,
        mesh.vertices_mm,
        rows,
        places_of_groups(mesh.vertices_mm, rows, group, progress=progress),
        gravity,
        effect or say(WORDS[kind].effect),
        advice or say(WORDS[kind].advice),
        area_mm2=float(mesh.face_areas_mm2[faces].sum()),
    )


def fault_of_edges(
    mesh: Mesh, kind: str, edges: np.ndarray, faces: np.ndarray, gravity: str, progress: Progress
) -> FoundFault:
    """A fault that is told by its edges ((k, 2) int32); joined edges are one place."""
    corners = mesh.vertices_mm[edges]
    long = np.linalg.norm(corners[:, 1] - corners[:, 0], axis=1)
    return FoundFault(
        kind,
        len(edges),
        faces,
        mesh.vertices_mm,
        edges,
        places_of_groups(
            mesh.vertices_mm, edges, group_by_vertices(edges, progress), progress=progress
        ),
        gravity,
        say(WORDS[kind].effect),
        say(WORDS[kind].advice),
        length_mm=float(long.sum()),
    )


def faults_of_mesh(faults: MeshFaults, progress: Progress | None = None) -> list[FoundFault]:
    """The kinds that are there, of those that depend on the mesh alone. Raises Cancelled."""
    progress = progress or Progress()
    mesh = faults.mesh
    found = [*_of_edges_and_corners(faults, progress), *_of_shells(faults, progress)]
    faces, contacts = faults.faces, faults.contacts
    same_way = np.setdiff1d(faces.duplicate, faces.opposite)
    progress.check()
    back_to_back = np.union1d(faces.opposite, contacts.opposite_faces).astype(np.int32)
    progress.check()
    many = len(faces.sliver) > MANY_SLIVERS * mesh.face_count and mesh.face_count > 100
    kinds = (
        ("self_intersecting_faces", contacts.crossing_faces, CARE),
        ("duplicate_faces", same_way, CARE),
        ("doubled_faces", contacts.doubled_faces, CARE),
        ("opposite_faces", back_to_back, CARE),
        ("edge_contacts", contacts.edge_contact_faces, CARE),
        ("sliver_faces", faces.sliver, CARE if many else HARMLESS),
        ("degenerate_faces", faces.degenerate, HARMLESS),
    )
    found += [
        fault_of_faces(mesh, kind, chosen, gravity, progress=progress)
        for kind, chosen, gravity in kinds
        if len(chosen)
    ]
    return found


def _of_edges_and_corners(faults: MeshFaults, progress: Progress) -> Iterator[FoundFault]:
    mesh, edges = faults.mesh, faults.edges
    if len(edges.open):
        yield _open_edges(faults, progress)
    if len(edges.crowded):
        yield fault_of_edges(
            mesh, "nonmanifold_edges", edges.crowded, edges.crowded_faces, CARE, progress
        )
    if len(edges.flipped):
        yield fault_of_edges(
            mesh, "flipped_edges", edges.flipped, edges.flipped_faces, CARE, progress
        )
    split = faults.split_vertices
    if len(split):
        chosen = np.zeros(len(mesh.vertices_mm), bool)
        chosen[split] = True
        yield FoundFault(
            "nonmanifold_vertices",
            len(split),
            np.flatnonzero(chosen[mesh.faces].any(axis=1)).astype(np.int32),
            mesh.vertices_mm,
            split[:, None],
            places_of_groups(
                mesh.vertices_mm, split[:, None], np.arange(len(split)), progress=progress
            ),
            CARE,
            say(WORDS["nonmanifold_vertices"].effect),
            say(WORDS["nonmanifold_vertices"].advice),
        )


def hole_widths_mm(faults: MeshFaults) -> np.ndarray:
    """(k,) float64: widths of the loops of open edges, without the rims of leftovers.

    Leftovers are loose surfaces that make up `LEFTOVERS` of the surface at most: without them the
    part is whole, so that their rims are no holes in it.
    """
    mesh, loops, edges = faults.mesh, faults.loops, faults.edges
    left = faults.loose[faults.shells.shell_of_face]
    if mesh.face_areas_mm2[left].sum() > LEFTOVERS * mesh.face_areas_mm2.sum():
        return loops.width_mm
    of_part = np.zeros(len(mesh.vertices_mm), bool)
    of_part[mesh.faces[~left]] = True
    is_hole = np.zeros(loops.count, bool)
    is_hole[loops.loop_of_edge[of_part[edges.open].any(axis=1)]] = True
    return loops.width_mm[is_hole]


def _open_edges(faults: MeshFaults, progress: Progress) -> FoundFault:
    mesh, loops, edges = faults.mesh, faults.loops, faults.edges
    widths = hole_widths_mm(faults)
    widest = float(widths.max(initial=0.0))
    where = say("{count:,} place" if len(widths) == 1 else "{count:,} places", count=len(widths))
    if not len(widths):
        advice = say(
            "They are the rims of loose surfaces: take those away, and the part is closed."
        )
    elif widest <= CRACK_MM:
        advice = say(
            "Sew the surface together in {where}: the gap is about {widest} wide.",
            where=where,
            widest=length(widest),
        )
    else:
        advice = say(
            "Close the surface in {where}, the widest about {widest} wide.",
            where=where,
            widest=length(widest),
        )
    return FoundFault(
        "open_edges",
        len(edges.open),
        edges.open_faces,
        mesh.vertices_mm,
        edges.open,
        places_of_groups(
            mesh.vertices_mm, edges.open, loops.loop_of_edge, loops.length_mm, progress
        ),
        FAILS if widest > CRACK_MM else CARE,
        say(WORDS["open_edges"].effect),
        advice,
        length_mm=float(loops.length_mm.sum()),
    )


def _of_shells(faults: MeshFaults, progress: Progress) -> Iterator[FoundFault]:
    mesh, shells, contacts = faults.mesh, faults.shells, faults.contacts
    pairs = (
        ("overlapping_shells", contacts.overlapping_faces, contacts.overlapping, CARE),
        ("touching_shells", contacts.touching_faces, contacts.touching, HARMLESS),
    )
    for kind, faces, count, gravity in pairs:
        if count:
            yield fault_of_faces(mesh, kind, faces, gravity, count, progress=progress)
    kinds = (
        ("inward_shells", shells.flipped),
        ("loose_surfaces", faults.loose),
        ("zero_thickness_sheets", faults.sheets),
        ("floating_bits", faults.is_speck & ~faults.sheets),
    )
    for kind, wanted in kinds:
        if wanted.any():
            faces = faults.faces_of_shells(wanted)
            group = (np.cumsum(wanted) - 1)[shells.shell_of_face[faces]]
            yield fault_of_faces(
                mesh, kind, faces, CARE, int(wanted.sum()), group, progress=progress
            )


def faults_of_roads(mesh: Mesh, thin: ThinPlaces, road_mm: float) -> list[FoundFault]:
    """The kinds that depend on the width of the road, in a pose."""
    surface = float(mesh.face_areas_mm2.sum())
    # A part in metres taken for millimetres is thin all over: that is asked elsewhere.
    in_doubt = bool(unit_doubt(mesh.box_mm[1] - mesh.box_mm[0])[0])
    mostly = thin.walls.area_mm2 > MOSTLY_THIN * surface and not in_doubt
    road = length(road_mm)
    least = {name: length(getattr(thin, name).least_mm) for name in vars(thin)}
    relief = [
        say("{kind} ones measure {least} at the finest", kind=say(name), least=least[name])
        for name in (later("raised"), later("sunk"))
        if getattr(thin, name).count
    ]
    kinds = (
        (
            "thin_walls", (thin.walls,), FAILS if mostly else CARE,
            say("Make them at least one road ({road}) thick, better two; the thinnest is "
                "{least}.",                road=road, least=least["walls"]),
        ),
        (
            "one_road_walls", (thin.one_road_walls,), HARMLESS,
            say("Walls hold best at whole numbers of roads ({road} each); the thinnest of these "
                "is {least}.", road=road, least=least["one_road_walls"]),
        ),
        (
            "narrow_gaps", (thin.gaps,), CARE,
            say("Widen them to more than a road ({road}) if they are to stay open; the narrowest "
                "is {least}.", road=road, least=least["gaps"]),
        ),
        (
            "fine_relief", (thin.raised, thin.sunk), CARE,
            say("Make lines at least a road ({road}) wide; {relief}.", road=road,
                relief=listed(relief)),
        ),
    )  # fmt: skip
    return [
        _of_points(kind, parts, gravity, advice)
        for kind, parts, gravity, advice in kinds
        if any(part.count for part in parts)
    ]


def _of_points(kind: str, parts: tuple[ThinKind, ...], gravity: str, advice: str) -> FoundFault:
    """A fault that is told by sampled points; each place spans the heights of its points."""
    parts = tuple(part for part in parts if part.count)
    first = np.cumsum([0] + [part.count for part in parts])
    points = np.concatenate([part.points_mm for part in parts])
    group = np.concatenate([part.group + n for part, n in zip(parts, first[:-1], strict=True)])
    # Each point with the first of its place: together they span the place without a gap.
    leader = np.unique(group, return_index=True)[1][group]
    return FoundFault(
        kind,
        int(first[-1]),
        np.unique(np.concatenate([part.faces for part in parts])).astype(np.int32),
        points,
        np.stack([np.arange(len(group)), leader], axis=1),
        places_of_groups(points, np.arange(len(group))[:, None], group),
        gravity,
        say(WORDS[kind].effect),
        advice,
        area_mm2=float(sum(part.area_mm2 for part in parts)),
    )


def fault_of_curves(
    faults: MeshFaults, layer_mm: float, progress: Progress | None = None
) -> FoundFault | None:
    """Faces further from the curve they stand for than a quarter of a layer. Raises Cancelled."""
    errors = faults.chord_errors_mm
    coarse = np.flatnonzero(errors > 0.25 * layer_mm).astype(np.int32)
    if not len(coarse):
        return None
    return fault_of_faces(
        faults.mesh,
        "coarse_facets",
        coarse,
        HARMLESS,
        advice=say(
            "Ask for a file with finer facets if this side shows: these lie up to "
            "{max} inside the curve.",
            max=length(float(errors[coarse].max())),
        ),
        progress=progress,
    )
