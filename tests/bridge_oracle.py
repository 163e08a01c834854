"""Bridged area by random points and Embree's rays, to test the fast measure against.

It shares nothing with the program but the definition: a point of an overhang with α ≤ 10° is
bridged if some level chord through the place half a layer below it meets the part at both ends and
is not longer than the limit. Chords are looked for all round, every degree or two. The part has to
be closed, wound outward, and of shells that do not overlap.
"""

import numpy as np
import trimesh
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from tests.oracle import rotation_to_z

OFF_MM = 1e-3  # off the surface: enough for float32, in which Embree counts
STEEPEST_DEG = 10.0


def bridged_by_random_points(
    vertices, faces, classes, up, limit_deg, layer_mm, bridge_mm, samples, seed, chords=90
):
    """(3,) bridged mm² by class, one standard error of each, and the area of all that may be."""
    points = np.asarray(vertices, np.float64) @ rotation_to_z(up).T
    points -= points[np.unique(faces)].min(axis=0)
    part = trimesh.Trimesh(points, faces, process=False)
    normal, corners = part.face_normals, points[faces]
    slope = np.degrees(np.arccos(np.clip(np.abs(normal[:, 2]), 0, 1)))
    under = (normal[:, 2] < 0) & (part.area_faces > 0)
    lying = under & (slope <= 0.1) & (corners[:, :, 2].max(axis=1) <= 0.001)
    level = np.flatnonzero(under & (slope < limit_deg - 0.01) & (slope <= STEEPEST_DEG) & ~lying)
    area = float(part.area_faces[level].sum())
    if not len(level):
        return np.zeros(3), np.zeros(3), 0.0
    rng = np.random.default_rng(seed)
    of_face = rng.choice(level, samples, p=part.area_faces[level] / area)
    s, t = rng.random((2, samples))
    fold = s + t > 1
    s[fold], t[fold] = 1 - s[fold], 1 - t[fold]
    a, b, c = (corners[of_face, k] for k in range(3))
    places = a + s[:, None] * (b - a) + t[:, None] * (c - a)
    scene = EmbreeScene()
    TriangleMesh(scene, corners.astype(np.float32))
    free = _first_hit(scene, places - [0, 0, OFF_MM], [0, 0, -1]) > 0.5 * layer_mm
    # What is buried or lies within half a layer of something has no air below it to span.
    free &= places[:, 2] > 0.5 * layer_mm
    found = np.zeros(samples, bool)
    middles = places[free] - [0, 0, 0.5 * layer_mm]
    found[free] = _spanned(scene, middles, bridge_mm * (1 + 2e-4), chords)
    share = np.bincount(np.asarray(classes)[of_face][found], minlength=3) / samples
    return area * share, area * np.sqrt(share * (1 - share) / samples), area


def _first_hit(scene, places, way):
    if not len(places):
        return np.zeros(0)
    ways = np.tile(np.asarray(way, np.float32), (len(places), 1))
    found = scene.run(places.astype(np.float32), ways, query="DISTANCE")
    return np.where(found < 1e30, found, np.inf)  # 1e37 is a miss


def _spanned(scene, places, longest_mm, chords):
    """(k,) whether some level chord that is not longer meets the part at both ends."""
    spanned = np.zeros(len(places), bool)
    for angle in np.pi * np.arange(chords) / chords:
        way = np.array([np.cos(angle), np.sin(angle), 0.0])
        # Only where none was found yet; the other way only where this end is near enough.
        asked = np.flatnonzero(~spanned)
        one_end = _first_hit(scene, places[asked], way)
        near = one_end <= longest_mm
        other_end = _first_hit(scene, places[asked[near]], -way)
        spanned[asked[near]] = one_end[near] + other_end <= longest_mm
    return spanned
