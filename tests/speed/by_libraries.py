"""The same numbers as one scripts them with general libraries: numpy, trimesh, Embree."""

import numpy as np
import trimesh
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

STEP_MM = 1e-4  # past a hit, so that the next query does not find it again


def embree_scene(corners_mm: np.ndarray) -> EmbreeScene:
    """Scene over (m, 3, 3) corners, its tree built."""
    scene = EmbreeScene()
    TriangleMesh(scene, corners_mm.astype(np.float32))
    scene.run(np.zeros((1, 3), np.float32), np.array([[0, 0, 1]], np.float32))
    return scene


def all_hits(scene: EmbreeScene, origins: np.ndarray) -> int:
    """Crossings of upward rays: hit, step on, ask again; returns how many there are."""
    origins = origins.astype(np.float32)
    count = 0
    while len(origins):
        up = np.tile(np.array([[0, 0, 1]], np.float32), (len(origins), 1))
        found = scene.run(origins, up, output=True)
        hit = found["primID"] >= 0
        count += int(hit.sum())
        origins = origins[hit]
        origins[:, 2] += found["tfar"][hit] + STEP_MM
    return count


def ray_origins(points_mm: np.ndarray, cells: int) -> np.ndarray:
    """(cells², 3): below the box of the points, at the middle of each cell."""
    low, high = points_mm.min(axis=0), points_mm.max(axis=0)
    x, y = (low[k] + (high[k] - low[k]) * (np.arange(cells) + 0.5) / cells for k in range(2))
    x, y = np.meshgrid(x, y, indexing="ij")
    return np.stack([x.ravel(), y.ravel(), np.full(cells * cells, low[2] - 1.0)], axis=1)


def overhang_by_class(normals, areas, face_classes, up, limit):
    """Per-face pass in numpy."""
    n_z = normals @ up
    return np.bincount(face_classes, weights=areas * (n_z < limit), minlength=3)


def direction_terms(normals, areas, face_classes, directions, limit, settings):
    """Overhang, wide terraces and cusp in numpy, one direction after the other."""
    terms = []
    for up in directions:
        size = np.abs(normals @ up)
        stepped = size < np.cos(np.radians(0.5))
        width = settings.layer_mm * size / np.sqrt(np.maximum(1 - size * size, 1e-12))
        wide = stepped & (width > settings.road_mm)
        terms.append(
            (
                overhang_by_class(normals, areas, face_classes, up, limit),
                np.bincount(face_classes, weights=areas * wide, minlength=3),
                settings.layer_mm * (areas * size)[stepped].sum() / areas[stepped].sum(),
            )
        )
    return terms


def face_numbers(solid: trimesh.Trimesh, face_classes, limit, settings):
    """What a pose's numbers need apart from rays: faces, section, hull. No graze, no bridges."""
    posed = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
    up = np.array([[0.0, 0.0, 1.0]])
    terms = direction_terms(posed.face_normals, posed.area_faces, face_classes, up, limit, settings)
    low = posed.bounds[0, 2]
    cuts = trimesh.intersections.mesh_plane(posed, up[0], [0, 0, low + settings.layer_mm / 2])
    hull = trimesh.convex.hull_points(np.asarray(cuts).reshape(-1, 3)[:, :2])
    return terms, hull, posed.center_mass


def support_numbers(solid: trimesh.Trimesh, face_classes, limit, cells):
    """Support volume, touch and landing from trimesh's list of hits on a grid of rays."""
    origins = ray_origins(np.asarray(solid.vertices), cells)
    up = np.tile([[0.0, 0.0, 1.0]], (len(origins), 1))
    places, rays, faces = solid.ray.intersects_location(origins, up, multiple_hits=True)
    order = np.lexsort((places[:, 2], rays))
    z, rays, faces = places[order, 2], rays[order], faces[order]
    n_z = solid.face_normals[faces, 2]
    first = np.diff(rays, prepend=-1) != 0
    below = np.where(first, solid.bounds[0, 2], np.roll(z, 1))
    needs = n_z < limit
    cell = np.prod(solid.extents[:2]) / cells**2
    volume = cell * (z - below)[needs].sum()
    touch = np.bincount(face_classes[faces[needs]], weights=cell / np.abs(n_z[needs]), minlength=3)
    lands = needs & ~first
    under = np.roll(faces, 1)[lands]
    slope = np.maximum(np.abs(solid.face_normals[under, 2]), 0.05)
    return volume, touch, np.bincount(face_classes[under], weights=cell / slope, minlength=3)
