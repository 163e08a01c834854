"""A cancel is heard wherever it comes, nothing half made is kept, and the next try is right."""

import numpy as np
import pytest

from tests import shapes
from tests.speed.made_meshes import bumpy_ball, random_classes
from viewer.errors import Cancelled
from viewer.geometry import known_of_mesh
from viewer.geometry.edge_faults import find_edge_faults, find_open_loops
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.thin_places import NearPoints, thin_places
from viewer.geometry.unite_solids import FEW_FACES
from viewer.geometry.upright_lines import bin_faces
from viewer.geometry.weld_cracks import weld_cracks
from viewer.progress import Progress

POSE = Pose((0.3, -0.4, 0.8))


class CancelledAt(Progress):
    """Cancelled by itself when it is asked for the n-th time, its parts included."""

    def __init__(self, asked: int) -> None:
        super().__init__()
        self.left = asked

    def check(self) -> None:
        self.left -= 1
        if self.left < 0:
            self.cancel()
        super().check()

    def part(self, start: float, end: float) -> "CancelledAt":
        return _Part(self)


class _Part(CancelledAt):
    def __init__(self, whole: CancelledAt) -> None:
        super().__init__(0)
        self.stop_flag, self._whole = whole.stop_flag, whole

    def check(self) -> None:
        self._whole.check()

    def part(self, start: float, end: float) -> "CancelledAt":
        return self._whole.part(start, end)


class StoppedAtKernel(CancelledAt):
    """Its flag is set at the n-th question, but only the kernels that look at it may hear of it.

    The question itself is answered no once, as if the cancel had come a moment later.
    """

    def check(self) -> None:
        self.left -= 1
        if self.left == -1:
            self.cancel()
            return
        Progress.check(self)


def questions(job) -> int:
    """How often a job asks."""
    progress = CancelledAt(1 << 30)
    job(progress)
    return (1 << 30) - progress.left


def moments(job, many: int = 3) -> list[int]:
    """Numbers of questions, evenly spread from the first to the last but one.

    A cancel that comes after the last one finds the work done.
    """
    return sorted(set(np.linspace(0, questions(job) - 2, many).astype(int).tolist()))


def parts():
    # Small enough to be united without a process, which would ask as often as it takes long.
    ball, other = bumpy_ball(1900), bumpy_ball(1900)
    assert ball.face_count + other.face_count <= FEW_FACES
    overlapping = shapes.joined(
        ball, Mesh(other.vertices_mm + np.array([17.0, 9.3, 4.1]), other.faces)
    )
    opened = Mesh(overlapping.vertices_mm, overlapping.faces[5:])
    hollow = shapes.joined(ball, Mesh(0.5 * other.vertices_mm, other.faces[:, ::-1]))
    return {"one shell": ball, "overlapping": overlapping, "open": opened, "hollow": hollow}


PARTS = parts()


def fresh(mesh: Mesh) -> Mesh:
    return Mesh(mesh.vertices_mm.copy(), mesh.faces.copy())


def same(one, other) -> bool:
    """Whether two values hold the same numbers all the way down."""
    if isinstance(one, np.ndarray):
        return np.array_equal(one, other, equal_nan=one.dtype.kind == "f")
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if hasattr(one, "__dict__"):
        return same(vars(one), vars(other))
    return one == other or (one != one and other != other)


@pytest.mark.parametrize("name", list(PARTS))
@pytest.mark.parametrize("kind", [CancelledAt, StoppedAtKernel])
def test_preparing(name, kind):
    wanted = prepare_part(fresh(PARTS[name]))
    for moment in moments(lambda progress: prepare_part(fresh(PARTS[name]), progress)):
        mesh = fresh(PARTS[name])
        with pytest.raises(Cancelled):
            prepare_part(mesh, kind(moment))
        assert same(prepare_part(mesh), wanted)


@pytest.mark.parametrize("name", list(PARTS))
@pytest.mark.parametrize("kind", [CancelledAt, StoppedAtKernel])
def test_checking(name, kind):
    wanted = check_mesh(fresh(PARTS[name])).answer()
    for moment in moments(lambda progress: check_mesh(fresh(PARTS[name]), progress=progress), 2):
        mesh = fresh(PARTS[name])
        with pytest.raises(Cancelled):
            check_mesh(mesh, progress=kind(moment))
        assert check_mesh(mesh).answer() == wanted


@pytest.mark.parametrize("name", list(PARTS))
@pytest.mark.parametrize("kind", [CancelledAt, StoppedAtKernel])
def test_measuring(name, kind):
    mesh, settings = PARTS[name], PrintSettings()
    classes = random_classes(mesh.face_count)

    def measured(part: PreparedPart, progress: Progress | None = None):
        return measure_pose(part, classes, POSE, settings, "full", progress, columns=True)

    wanted = measured(prepare_part(mesh))
    for moment in moments(lambda progress: measured(prepare_part(mesh), progress)):
        part = prepare_part(mesh)
        with pytest.raises(Cancelled):
            measured(part, kind(moment))
        assert same(measured(part), wanted)


def test_areas_and_normals_are_kept_whole_or_not_at_all():
    mesh, progress = fresh(PARTS["one shell"]), Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        mesh.know_areas(progress, normals=True)
    assert not set(vars(mesh)) - {"vertices_mm", "faces"}
    mesh.know_areas(normals=True)
    a, b, c = mesh.vertices_mm[mesh.faces].transpose(1, 0, 2)
    doubled = np.cross(b - a, c - a)
    length = np.linalg.norm(doubled, axis=1)
    assert np.allclose(mesh.face_areas_mm2, 0.5 * length, rtol=1e-14)
    assert np.allclose(mesh.face_normals, doubled / length[:, None], rtol=0, atol=1e-14)


def _near_points() -> NearPoints:
    """Two sheets thinner than a road, one of which stands on solid ground."""
    rng = np.random.default_rng(1)
    points = rng.uniform(0, 20, (4000, 3)) * [1.0, 1.0, 0.0]
    points[2000:, 0] += 50.0
    normals = np.tile([0.0, 0.0, 1.0], (4000, 1))
    none = np.full(4000, np.inf)
    on_ground = np.arange(4000) >= 2000
    faces = np.arange(4000, dtype=np.int32)
    thin = np.full(4000, 0.3)
    return NearPoints(points, normals, faces, thin, none, on_ground, np.zeros(4000, bool), 0.1)


SOUP_MM = PARTS["one shell"].corners_mm.reshape(-1, 3)
SOUP = np.arange(len(SOUP_MM), dtype=np.int32).reshape(-1, 3)
EDGES = find_edge_faults(SOUP).open
NEAR = _near_points()
LONG_STEPS = {
    "bins": lambda progress: bin_faces(PARTS["hollow"].corners_mm, progress),
    "open loops": lambda progress: find_open_loops(SOUP_MM, EDGES, progress),
    "cracks": lambda progress: weld_cracks(SOUP_MM, SOUP, EDGES, 1e-5, progress),
    "thin places": lambda progress: thin_places(NEAR, np.array([1.0, 0, 0]), 0.2, 0.42, progress),
}


@pytest.mark.parametrize("name", LONG_STEPS)
@pytest.mark.parametrize("kind", [CancelledAt, StoppedAtKernel])
def test_steps_of_a_check(name, kind):
    job = LONG_STEPS[name]
    wanted = job(Progress())
    for moment in moments(job, 20):
        with pytest.raises(Cancelled):
            job(kind(moment))
        assert same(job(Progress()), wanted)


@pytest.mark.parametrize("name", ["ray_tree", "solid_neighbours", "sealed_faces"])
def test_what_is_worked_out_when_first_needed_is_kept_whole(name):
    part, progress = prepare_part(fresh(PARTS["overlapping"])), Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        part.get_ready(progress)
    assert not {"ray_tree", "solid_neighbours", "sealed_faces"} & set(vars(part))
    part.get_ready(Progress())
    other = prepare_part(fresh(PARTS["overlapping"]))
    assert same(vars(part)[name], getattr(other, name))


def test_neighbours_and_shells_are_forgotten_when_they_were_not_finished():
    mesh, progress = fresh(PARTS["one shell"]), Progress()
    progress.cancel()
    for ask in (known_of_mesh.neighbours_of, known_of_mesh.shells_of):
        with pytest.raises(Cancelled):
            ask(mesh, progress)
    assert (known_of_mesh.neighbours_of(mesh) >= 0).all()
    assert known_of_mesh.shells_of(mesh).closed.tolist() == [True]
