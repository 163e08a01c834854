"""A part made ready for plain measuring, in numpy alone; the definitions are `prepared_part`'s."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.plain_lines import crossings
from viewer.geometry.plain_shells import (
    CLOSED_GAP_MM,
    SKEW,
    FacePairs,
    PlainShells,
    connected,
    cross_product,
    face_pairs,
    plain_shells,
)
from viewer.progress import Progress
from viewer.words import say

RUN_ANGLE_DEG = 10.0
_POINTS = 30_000  # asked over all faces that may lie in or against another shell
_MOST_POINTS = 4_000  # on one face
# Steps of a sequence that fills a square evenly (Roberts 2018, "R2"; MEM).
_R2 = np.array([0.7548776662466927, 0.5698402909980532])


@dataclass(frozen=True, eq=False)
class PlainPart:
    """What does not depend on the pose.

    points_mm : (n, 3) float64, vertices less the centre of the part's box
    faces : (m, 3) int32, wound so that normals point out of the material
    normals : (m, 3) float64, unit, outward; zero where a face has no area
    areas_mm2 : (m,) float64, whole area
    exposed_mm2 : (m,) float64, area on the surface of the union of shells
    overlapping : some shells touch or overlap, so that exposed areas and sections are sampled
    run_starts, run_members : faces of smooth run r are run_members[run_starts[r]:run_starts[r+1]]
    centroid_mm : (3,) float64, in the frame of points_mm
    notes : sentences for the user
    """

    mesh: Mesh
    points_mm: np.ndarray
    faces: np.ndarray
    normals: np.ndarray
    areas_mm2: np.ndarray
    exposed_mm2: np.ndarray
    overlapping: bool
    run_starts: np.ndarray
    run_members: np.ndarray
    centroid_mm: np.ndarray
    notes: tuple[str, ...]


def prepare_plain_part(mesh: Mesh, progress: Progress | None = None) -> PlainPart:
    """Shells, winding, exposed areas and smooth runs of a mesh.

    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    progress.check()
    points = mesh.vertices_mm - mesh.box_mm.mean(axis=0)
    pairs = face_pairs(mesh.faces)
    progress.check()
    shells = plain_shells(points, mesh.faces, pairs)
    progress.check()
    turned = shells.orientation < 0
    faces = mesh.faces
    if turned.any():
        faces = np.where(turned[:, None], faces[:, [0, 2, 1]], faces)
    a, b, c = (points[faces[:, k]] for k in range(3))
    cross = cross_product(b - a, c - a)
    length = np.sqrt((cross * cross).sum(axis=1))
    normals = cross / np.where(length > 0, length, 1.0)[:, None]
    areas = 0.5 * length
    share = np.ones(len(faces))
    asked = _faces_near_others(points, faces, shells) & (areas > 0)
    if asked.any():
        share[asked] = _exposed_share(points, faces, normals, areas, np.flatnonzero(asked))
    progress.check()
    starts, members = _smooth_runs(normals, length > 0, pairs)
    centroid = _centroid(a, b, c, cross, share)
    notes = _notes(shells, pairs, bool(asked.any()))
    return PlainPart(
        mesh, points, faces, normals, areas, areas * share, bool(asked.any()),
        starts, members, centroid, notes,
    )  # fmt: skip


def enclosed(points_mm: np.ndarray, faces: np.ndarray, places_mm: np.ndarray) -> np.ndarray:
    """(k,) bool: the place ((k, 3) float64) lies in the material, that is its winding is above 0.

    points_mm : (n, 3) float64; faces : (m, 3) int, wound outward
    """
    met = crossings(points_mm, faces, places_mm[:, :2])
    above = met.z_mm > places_mm[met.line, 2]
    winding = np.bincount(met.line[above], -met.sign[above], len(places_mm))
    return winding > 0.5


def _faces_near_others(points, faces, shells: PlainShells):
    """(m,) bool: a face whose box comes near the box of another shell that may touch its own."""
    near = np.zeros(len(faces), bool)
    meeting = np.flatnonzero(shells.meets)
    if not len(meeting):
        return near
    own = np.flatnonzero(shells.meets[shells.shell_of_face])
    corners = points[faces[own]]
    low, high = corners.min(axis=1) - CLOSED_GAP_MM, corners.max(axis=1) + CLOSED_GAP_MM
    for shell in meeting:
        box = shells.boxes_mm[shell]
        touched = ((low <= box[1]) & (high >= box[0])).all(axis=1)
        near[own[touched & (shells.shell_of_face[own] != shell)]] = True
    return near


def _exposed_share(points, faces, normals, areas, asked):
    """Share of each asked face whose points, stepped out by the gap that is closed, lie outside."""
    wanted = _POINTS * areas[asked] / areas[asked].sum()
    count = np.clip(np.round(wanted), 1, _MOST_POINTS).astype(np.int64)
    entry = np.repeat(np.arange(len(asked)), count)
    face = asked[entry]
    rank = np.arange(len(entry)) - np.repeat(np.cumsum(count) - count, count)
    # Each face starts the sequence elsewhere: one point a face must not be the same point on all.
    u, v = ((rank[:, None] + 1 + entry[:, None] * 0.6180339887) * _R2 % 1.0).T
    over = u + v > 1
    u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
    a, b, c = (points[faces[face, k]] for k in range(3))
    places = a + u[:, None] * (b - a) + v[:, None] * (c - a) + CLOSED_GAP_MM * normals[face]
    buried = enclosed(points @ SKEW.T, faces, places @ SKEW.T)
    return 1.0 - np.bincount(entry, buried, len(asked)) / count


def _smooth_runs(normals, solid, pairs: FacePairs):
    """Faces joined where neighbours' normals differ by at most 10°; see `smooth_runs`."""
    cosine = (normals[pairs.one] * normals[pairs.other]).sum(axis=1)
    flat = ~(solid[pairs.one] & solid[pairs.other])
    smooth = flat | (cosine >= np.cos(np.radians(RUN_ANGLE_DEG + 1e-3)))
    run = connected(len(normals), pairs.one[smooth], pairs.other[smooth])
    members = np.argsort(run, kind="stable")
    ordered = run[members]
    first = np.flatnonzero(np.concatenate([[True], ordered[1:] != ordered[:-1]])[: len(ordered)])
    return np.append(first, len(members)), members


def _centroid(a, b, c, cross, share):
    """Divergence theorem over tetrahedra from the origin, faces weighed by exposed share."""
    part = share * (a * cross).sum(axis=1) / 6.0
    volume = part.sum()
    return (part @ (a + b + c)) / (4.0 * volume) if volume > 0 else np.zeros(3)


def _notes(shells: PlainShells, pairs: FacePairs, overlapping: bool) -> tuple[str, ...]:
    notes = []
    inward, rewound = int(shells.flipped.sum()), int(shells.rewound.sum())
    if inward:
        notes.append(
            say("1 shell faces the wrong way in the file; it is measured as what it encloses.")
            if inward == 1
            else say(
                "{inward} shells face the wrong way in the file; they are measured as "
                "what they enclose.",
                inward=inward,
            )
        )
    if rewound:
        whose = say("1 face is") if rewound == 1 else say("{rewound} faces are", rewound=rewound)
        notes.append(
            say(
                "{whose} wound against the rest of the surface; measured the right way round.",
                whose=whose,
            )
        )
    if pairs.bare.any():
        notes.append(
            say(
                "The surface is not closed everywhere; what needs an inside, such as supports and "
                "volume, is an estimate."
            )
        )
    if overlapping:
        notes.append(
            say("Shells touch or overlap; in these first numbers their overlap is sampled.")
        )
    return tuple(notes)
