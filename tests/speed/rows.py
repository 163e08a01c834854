"""Each row of the speed table: ours and theirs, side by side, in processor time of one thread."""

import multiprocessing
import tempfile
from collections.abc import Callable
from pathlib import Path

import numpy as np
import trimesh

from tests.speed import by_libraries
from tests.speed.check_rows import check
from tests.speed.freezes import CANCEL_LIMIT_S, GAP_LIMIT_S, MOMENTS, Wait, jobs, waits, watch
from tests.speed.look_rows import look
from tests.speed.made_meshes import bumpy_ball, random_classes
from tests.speed.mark_rows import mark
from tests.speed.mend_rows import mend
from tests.speed.piece_rows import cut
from tests.speed.search_rows import search
from tests.speed.shop_rows import shop
from tests.speed.start_rows import first_picture
from tests.speed.strip_rows import strip
from tests.speed.timing import row, seconds
from viewer.files.mesh_files import read_part
from viewer.geometry.column_field import column_field
from viewer.geometry.column_grid import grid_over
from viewer.geometry.compiled import compiled
from viewer.geometry.direction_terms import direction_terms
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.face_rows import BLOCK, n_z_of_block
from viewer.geometry.layer_profile import layer_profile
from viewer.geometry.measure_pose import measure_pose, sample_cells
from viewer.geometry.mesh import Mesh
from viewer.geometry.overhang import sort_block, steepest_overhang_n_z, underside_limits
from viewer.geometry.pose import Pose, posed_vertices_mm, rotation
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.supports import measure_supports
from viewer.geometry.turned_part import turn_part
from viewer.progress import Progress

POSE = Pose((0.3, -0.4, 0.8))
SETTINGS = PrintSettings()
LIMIT = steepest_overhang_n_z(SETTINGS.support_limit_deg)
BYTES_PER_FACET = 400  # goal
FACE_PASS_BYTES = 18  # read: normal 12, area 4, class 1; written: kind 1


class Case:
    """A made mesh, prepared, with what both sides need; libraries' trees are built beforehand."""

    def __init__(self, facets: int) -> None:
        self.part = prepare_part(bumpy_ball(facets))
        self.faces = len(self.part.faces)
        self.classes = random_classes(self.faces)
        self.posed_mm = posed_vertices_mm(self.part.points_mm, POSE)
        self.solid = trimesh.Trimesh(self.posed_mm, self.part.faces, process=False)


def full_tier(case: Case, cells: int = 512, sampled: int = 64) -> list[dict]:
    """All numbers of a pose."""
    ours = seconds(lambda: _measure(case, "full"), 4)
    case.solid.ray.intersects_any([[0, 0, -1.0]], [[0, 0, 1.0]])
    theirs = seconds(
        lambda: by_libraries.face_numbers(case.solid, case.classes, LIMIT, SETTINGS), 1
    )
    rays = seconds(
        lambda: by_libraries.support_numbers(case.solid, case.classes, LIMIT, sampled), 1
    )
    theirs += rays * (cells / sampled) ** 2
    name = (
        f"trimesh + embree, {cells}² rays (from {sampled}²), tree built before; left out there: "
        "graze, islands, ways out, layers, tip angles with supports and in print, flats, errors"
    )
    return [row("full tier", case.faces, ours, name, theirs, 30)]


def face_pass(case: Case) -> list[dict]:
    """Overhang by class, against numpy and against what the memory lets through; and with terraces.

    The program takes both in one pass; the first rows leave out the terraces' block of it.
    """
    turned = turn_part(case.part.points_mm, POSE.up)
    limits = underside_limits(turned, SETTINGS.support_limit_deg)
    part, up = case.part, turned.up.astype(np.float32)
    given = (part.rows, case.classes, part.faces, part.points_mm, limits)
    _overhangs(*given)  # compiled beforehand
    alone = seconds(lambda: _overhangs(*given), 15)
    both = seconds(lambda: pass_over_faces(part, turned, case.classes, SETTINGS), 15)
    faces = (part.normals, part.exposed_mm2, case.classes)
    their_overhang = seconds(lambda: by_libraries.overhang_by_class(*faces, up, LIMIT), 7)
    their_terms = seconds(lambda: by_libraries.direction_terms(*faces, [up], LIMIT, SETTINGS), 7)
    source = np.ones(16_000_000)
    target = np.zeros_like(source)
    bandwidth = 2 * source.nbytes / seconds(lambda: np.copyto(target, source), 5)
    least = FACE_PASS_BYTES * case.faces / bandwidth
    name = f"memory at {bandwidth / 1e9:.1f} GB/s (copy)"
    return [
        row("overhang by class", case.faces, alone, "numpy", their_overhang, 4),
        row("overhang by class, memory", case.faces, alone, name, least, 0.5),
        row("with terraces, one pass", case.faces, both, "numpy", their_terms, 4),
    ]


@compiled
def _overhangs(rows, face_classes, faces, points, limits):
    kinds, sums = np.zeros(len(faces), np.uint8), np.zeros((3, 3))
    n_z, room = np.empty(BLOCK, np.float32), np.empty(BLOCK, np.float32)
    up = limits.up.astype(np.float32)
    for start in range(0, len(faces), BLOCK):
        stop = min(start + BLOCK, len(faces))
        least = n_z_of_block(rows, start, stop, up[0], up[1], up[2], n_z[: stop - start])
        sort_block(
            rows, start, stop, face_classes, faces, points, limits, n_z, least, room, kinds, sums
        )
    return kinds, sums


def columns(case: Case, cells: int = 512) -> list[dict]:
    """Every crossing of a grid of upright lines."""
    turn = rotation(POSE)
    turned = case.part.points_mm @ turn.T
    low, high = turned.min(axis=0), turned.max(axis=0)
    grid = grid_over(low, high, cells, np.random.default_rng(1))
    faces = case.part.for_lines
    ours = seconds(lambda: column_field(faces, turn, grid), 4)
    scene = by_libraries.embree_scene(case.posed_mm[case.part.faces])
    origins = by_libraries.ray_origins(case.posed_mm, cells)
    theirs = seconds(lambda: by_libraries.all_hits(scene, origins), 2)
    name = "embreex, hit after hit, tree built before"
    return [row(f"support columns {cells}²", case.faces, ours, name, theirs, 5)]


def profile(case: Case, layers: int = 2000, cut: int = 6) -> list[dict]:
    """Area and perimeter of every layer."""
    height = case.posed_mm[:, 2].max()
    ours = seconds(lambda: layer_profile(case.posed_mm, case.part.faces, height / layers), 4)
    heights = height * (np.arange(cut) + 0.5) / cut
    theirs = seconds(
        lambda: trimesh.intersections.mesh_multiplane(case.solid, [0, 0, 0], [0, 0, 1], heights),
        1,
    )
    name = f"trimesh mesh_multiplane, segments only (from {cut} planes)"
    return [row(f"profile of {layers} layers", case.faces, ours, name, theirs * layers / cut, 1000)]


def directions(case: Case, count: int = 1000, looped: int = 5) -> list[dict]:
    """Overhang, wide terraces and cusp of many directions."""
    ups = np.random.default_rng(2).normal(size=(count, 3)).astype(np.float32)
    ups /= np.linalg.norm(ups, axis=1)[:, None]
    given = (case.part.normals, case.part.exposed_mm2, case.classes)
    direction_terms(ups[:2], *given, SETTINGS)  # compiled beforehand
    ours = seconds(lambda: direction_terms(ups, *given, SETTINGS), 2)
    theirs = seconds(lambda: by_libraries.direction_terms(*given, ups[:looped], LIMIT, SETTINGS), 1)
    name = f"numpy loop (from {looped} directions), our sorting of faces included"
    return [row(f"{count} directions", case.faces, ours, name, theirs * count / looped, 100)]


def neighbours(case: Case) -> list[dict]:
    """The face across each edge."""
    ours = seconds(lambda: face_neighbours(case.part.faces), 5)
    theirs = seconds(lambda: trimesh.graph.face_adjacency(mesh=case.solid), 1)
    return [row("face neighbours", case.faces, ours, "trimesh face_adjacency", theirs, 10)]


def stl_read(case: Case) -> list[dict]:
    """An indexed mesh from a binary STL."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "made.stl"
        case.solid.export(path)
        ours = seconds(lambda: read_part(path), 3)
        theirs = seconds(lambda: trimesh.load_mesh(path), 1)
    return [row("indexed STL read", case.faces, ours, "trimesh", theirs, 10)]


def tiers(case: Case) -> list[dict]:
    """Both tiers against the time they may take at a million facets, more in proportion."""
    share = max(case.faces / 1e6, 1.0)
    limits = (
        ("quick tier, time allowed", 0.020, lambda: _measure(case, "quick")),
        ("volume, touch and landing", 0.150, lambda: _supports(case)),
        ("full tier, time allowed", 0.500, lambda: _measure(case, "full")),
    )
    return [
        row(
            name, case.faces, seconds(work, 5), f"limit {1000 * limit * share:.0f} ms",
            limit * share, 1,
        )
        for name, limit, work in limits
    ]  # fmt: skip


def _supports(case: Case) -> None:
    """What the full tier does for support volume, touch and landing alone, errors included."""
    turned = turn_part(case.part.points_mm, POSE.up)
    under, _ = pass_over_faces(case.part, turned, case.classes, SETTINGS)
    cells = sample_cells(case.part, SETTINGS, "full")
    measure_supports(case.part, turned, under, case.classes, SETTINGS, cells)


def memory(case: Case) -> list[dict]:
    """Peak of a fresh process that prepares and measures, per facet; seconds do not apply."""
    context = multiprocessing.get_context("spawn")
    with context.Pool(1) as pool:
        grown = pool.apply(_peak_growth_bytes, (case.part.mesh.vertices_mm, case.part.mesh.faces))
    each = grown / case.faces
    name = f"limit {BYTES_PER_FACET} bytes per facet besides the file's mesh, {each:.0f} used"
    line = row("peak memory", case.faces, 1.0, name, BYTES_PER_FACET / max(each, 1e-9), 1)
    return [{**line, "ours_s": None, "theirs_s": None}]


def _peak_growth_bytes(vertices_mm: np.ndarray, faces: np.ndarray) -> int:
    small = prepare_part(bumpy_ball(500))  # loads the compiled code
    measure_pose(small, random_classes(len(small.faces)), POSE, SETTINGS, "full")
    before = _own_memory_bytes("VmRSS")
    part = prepare_part(Mesh(vertices_mm, faces))
    measure_pose(part, random_classes(len(part.faces)), POSE, SETTINGS, "full")
    return _own_memory_bytes("VmHWM") - before


def _own_memory_bytes(key: str) -> int:
    """From Linux's own account; getrusage would hand the parent's peak on to the child."""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith(key + ":"):
            return 1024 * int(line.split()[1])
    raise RuntimeError(f"/proc/self/status has no {key}.")


def freezes(case: Case) -> list[dict]:
    """Longest stretch without another thread, and from cancel to `Cancelled`, of each long job.

    Beside the latter stands the line in which the job gave up.
    """
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for name, job in jobs(case.part, case.classes, Path(folder)).items():
            job(Progress())  # so that all is compiled, and files are in memory
            stood = watch(job)
            rows.append(row(f"gap: {name}", case.faces, stood.gap_s, "one frame", GAP_LIMIT_S, 1))
            found = waits(job, stood.took_s, MOMENTS, len(rows)) or [Wait(1e-6, "over too soon")]
            worst = max(found)
            rows.append(
                row(f"cancel: {name}", case.faces, worst.wait_s, f"limit ({worst.place})",
                    CANCEL_LIMIT_S, 1)
            )  # fmt: skip
    return rows


def growth(rows: list[dict]) -> list[dict]:
    """The largest mesh's full tier against the mesh of a third of its facets, where both ran."""
    full = {r["faces"]: r["ours_s"] for r in rows if r["measure"].startswith("full tier, time")}
    largest = max(full, default=0)
    third = [faces for faces in full if 0.9 < 3 * faces / largest < 1.1] if largest else []
    return [
        row("full tier, 3 × the facets", largest, full[largest], "3 × the smaller mesh's time",
            3 * full[faces], 1)
        for faces in third
    ]  # fmt: skip


def _measure(case: Case, tier: str) -> None:
    measure_pose(case.part, case.classes, POSE, SETTINGS, tier)


ROWS: dict[str, Callable[[Case], list[dict]]] = {
    "full": full_tier, "face-pass": face_pass, "columns": columns, "profile": profile,
    "directions": directions, "neighbours": neighbours, "stl": stl_read, "tiers": tiers,
    "memory": memory,
    "freezes": freezes, "check": check, "mend": mend, "shop": shop, "mark": mark,
    "cut": lambda case: cut(case.part),
    "strip": lambda case: strip(case.part, case.classes), "search": search,
    "look": lambda case: look(case.part), "start": lambda case: first_picture(),
}  # fmt: skip
