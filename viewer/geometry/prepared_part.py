"""What does not depend on the pose, worked out once when a part is opened."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.shells import Shells, find_shells
from viewer.geometry.smooth_runs import smooth_runs
from viewer.progress import Progress


@dataclass(frozen=True, eq=False)
class PreparedPart:
    """A part made ready for `measure_pose`.

    mesh : the part as the file has it
    centre_mm : (3,) float64, centre of its box
    points_mm : (n, 3) float64, vertices less the centre, which keeps digits far from the origin
    faces : (m, 3) int32, wound so that normals point out of the material
    normals : (m, 3) float64, unit, outward; zero where a face has no area
    exposed_mm2 : (m,) float64, area of each face that lies on the surface of the union of shells
    exposed_share : (m,) float32, the same as a share of the face's area
    neighbours : (m, 3) int32
    run_of_face : (m,) int32, runs: number of smooth runs
    volume_mm3, centroid_mm : of the material, centroid in the frame of points_mm
    overlapping : some faces lie inside or against another shell
    notes : sentences for the user
    """

    mesh: Mesh
    centre_mm: np.ndarray
    points_mm: np.ndarray
    faces: np.ndarray
    normals: np.ndarray
    exposed_mm2: np.ndarray
    exposed_share: np.ndarray
    neighbours: np.ndarray
    run_of_face: np.ndarray
    runs: int
    shells: Shells
    volume_mm3: float
    centroid_mm: np.ndarray
    overlapping: bool
    notes: tuple[str, ...]


def prepare_part(mesh: Mesh, progress: Progress | None = None) -> PreparedPart:
    """Shells, winding, exposed areas and runs of a mesh."""
    progress = progress or Progress()
    centre = mesh.box_mm.mean(axis=0)
    points = mesh.vertices_mm - centre
    progress.report(0.1, "Finding neighbours")
    neighbours = face_neighbours(mesh.faces)
    progress.report(0.3, "Finding shells")
    shells = find_shells(mesh, neighbours)
    faces, normals, areas = _wind(points, mesh.faces, shells.orientation)
    progress.report(0.7, "Finding smooth runs")
    run_of_face, runs = smooth_runs(neighbours, normals)
    share = np.ones(len(faces), np.float32)
    volume, centroid = _volume_and_centroid(points, faces)
    progress.report(1.0)
    return PreparedPart(
        mesh,
        frozen(centre),
        frozen(points),
        frozen(faces),
        frozen(normals),
        frozen(areas * share),
        frozen(share),
        frozen(neighbours),
        frozen(run_of_face),
        runs,
        shells,
        volume,
        frozen(centroid),
        bool((share < 1).any()),
        _notes(shells),
    )


@compiled
def _wind(points, faces, orientation):
    wound = faces.copy()
    normals = np.zeros(faces.shape)
    areas = np.zeros(len(faces))
    for f in range(len(faces)):
        if orientation[f] < 0:
            wound[f, 1], wound[f, 2] = faces[f, 2], faces[f, 1]
        ax, ay, az = points[wound[f, 0]]
        bx, by, bz = points[wound[f, 1]]
        cx, cy, cz = points[wound[f, 2]]
        bx, by, bz, cx, cy, cz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
        x, y, z = by * cz - bz * cy, bz * cx - bx * cz, bx * cy - by * cx
        length = np.sqrt(x * x + y * y + z * z)
        areas[f] = 0.5 * length
        if length > 0:
            normals[f, 0], normals[f, 1], normals[f, 2] = x / length, y / length, z / length
    return wound, normals, areas


@compiled
def _volume_and_centroid(points, faces):
    """Divergence theorem over tetrahedra from the origin."""
    volume = 0.0
    moment = np.zeros(3)
    for f in range(len(faces)):
        a, b, c = points[faces[f, 0]], points[faces[f, 1]], points[faces[f, 2]]
        x = b[1] * c[2] - b[2] * c[1]
        y = b[2] * c[0] - b[0] * c[2]
        z = b[0] * c[1] - b[1] * c[0]
        part = (a[0] * x + a[1] * y + a[2] * z) / 6.0
        volume += part
        for k in range(3):
            moment[k] += part * (a[k] + b[k] + c[k]) / 4.0
    if volume > 0:
        return volume, moment / volume
    return volume, np.zeros(3)


def _notes(shells: Shells) -> tuple[str, ...]:
    notes = []
    if shells.inward_shells == 1:
        notes.append("1 shell faces the wrong way in the file; it is measured as what it encloses.")
    elif shells.inward_shells:
        notes.append(
            f"{shells.inward_shells} shells face the wrong way in the file; "
            "they are measured as what they enclose."
        )
    rewound = int(np.count_nonzero(shells.rewound))
    if rewound:
        faces = "1 face is" if rewound == 1 else f"{rewound} faces are"
        notes.append(
            f"{faces} wound against the rest of the surface; measured the right way round."
        )
    open_shells = int(np.count_nonzero(~shells.closed))
    if open_shells:
        notes.append(
            "The surface is not closed everywhere; what needs an inside, such as supports and "
            "volume, is an estimate."
        )
    return tuple(notes)
