"""Grazed area by random points and Embree's rays, to test the fast measure against.

It shares nothing with the program but the definition: a point of the surface that is neither touch
nor landing is grazed if a support stands at some place on its outer side less than the clearance
away, horizontally. Places are tried on a fan of rings; a support stands at a place if the first
face above it bears on one. The part has to be closed and wound outward.
"""

import numpy as np
import trimesh
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from tests.oracle import rotation_to_z

OFF_MM = 1e-3  # off the surface: enough for float32, in which Embree counts
RINGS = (0.02, 0.35, 0.7, 0.985)
ASIDE_DEG = (0, 15, -15, 30, -30, 45, -45, 60, -60, 75, -75, 83, -83, 88.5, -88.5)
AROUND_DEG = tuple(range(0, 360, 15))


def graze_by_random_points(vertices, faces, classes, up, limit_deg, clearance_mm, samples, seed):
    """(3,) grazed mm² by class, and one standard error."""
    points = np.asarray(vertices, np.float64) @ rotation_to_z(up).T
    points -= points[np.unique(faces)].min(axis=0)
    part = trimesh.Trimesh(points, faces, process=False)
    normal, corners = part.face_normals, points[faces]
    slope = np.degrees(np.arccos(np.clip(np.abs(normal[:, 2]), 0, 1)))
    under = normal[:, 2] < 0
    lying = under & (slope <= 0.1) & (corners[:, :, 2].max(axis=1) <= 0.001)
    bears = under & (slope < limit_deg - 0.01) & ~lying
    scene = EmbreeScene()
    TriangleMesh(scene, corners.astype(np.float32))

    def supported(places):
        """Whether the first face above each place bears on a support."""
        straight_up = np.tile(np.float32([[0, 0, 1]]), (len(places), 1))
        first = scene.run(places.astype(np.float32), straight_up)
        return (first >= 0) & bears[first]

    places, of_face = trimesh.sample.sample_surface(part, samples, seed=seed)
    free = ~(bears | lying)[of_face]
    places, of_face_free = places[free] + OFF_MM * normal[of_face[free]], of_face[free]
    n = normal[of_face_free]
    landing = (n[:, 2] > 0.01) & supported(places)
    side = np.hypot(n[:, 0], n[:, 1])
    grazed = np.zeros(len(places), bool)
    for of_kind, angles in ((side > 0.1, ASIDE_DEG), (side <= 0.1, AROUND_DEG)):
        asked = np.flatnonzero(of_kind & ~landing)
        for angle in np.radians(angles):
            asked = asked[~grazed[asked]]
            # From the horizontal part of the normal, or from any direction where there is none.
            start = np.where(side[asked] > 0.1, np.arctan2(n[asked, 1], n[asked, 0]), 0.0)
            way = np.column_stack([np.cos(start + angle), np.sin(start + angle), 0 * start])
            for share in RINGS:
                grazed[asked] |= supported(places[asked] + share * clearance_mm * way)
    each = part.area / samples
    counts = np.bincount(np.asarray(classes)[of_face_free][grazed], minlength=3)
    return each * counts, each * np.sqrt(counts * (1 - counts / samples))
