"""Sound shapes are called sound, without a single fault, however finely and however they lie.

That each is sound is known from how it is made: solids of libraries that guarantee a closed surface
(trimesh's primitives, booleans of manifold3d), with walls and gaps of more than two roads of
0.42 mm, no edge sharper than 20°, curves closer than 0.05 mm to their circle (a quarter of a layer
of 0.2 mm), and no ledge over which the section jumps by half.
"""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests.shapes import (
    box,
    coil,
    cube,
    cylinder,
    extruded,
    of_solid,
    sealed_cavity,
    sheared_prism,
    sphere,
    torus,
)
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose

made = trimesh.creation
Solid, Section = manifold3d.Manifold, manifold3d.CrossSection
BLOCK = Solid.cube([30, 30, 30], True)
UPS = [(0, 0, 1), (1, 0, 0), (0, -1, 0), (1, 1, 1), (-0.3, 0.5, 0.8)]


def of_library(shape: trimesh.Trimesh) -> Mesh:
    return Mesh(shape.vertices, shape.faces)


def rod(height, radius, sides):
    return Solid.cylinder(height, radius, radius, sides, True)


def holed_plate():
    places = [(x, y) for x in range(-24, 25, 8) for y in range(-24, 25, 8)]
    holes = [rod(20, 2, 48).translate([x, y, 0]) for x, y in places]
    return Solid.cube([60, 60, 6], True) - Solid.batch_boolean(holes, manifold3d.OpType.Add)


def ring(sides):
    return Solid.extrude(Section.circle(12, sides) - Section.circle(9, sides), 20)


SHAPES = {
    "cube": cube,
    "long box": lambda: box((0, 0, 0), (300, 40, 25)),
    "plate of 2 mm": lambda: box((0, 0, 0), (60, 40, 2)),
    "small box": lambda: box((0, 0, 0), (3, 5, 2)),
    "eight-sided rod": lambda: of_library(made.cylinder(10, 20, sections=8)),
    "cylinder of 64": lambda: of_library(made.cylinder(10, 20, sections=64)),
    "cylinder of 720": lambda: cylinder(10, 20),
    "pin 4 mm across": lambda: of_library(made.cylinder(2, 50, sections=128)),
    "tube": lambda: of_library(made.annulus(8, 12, 10, sections=64)),
    "fine tube": lambda: of_library(made.annulus(8, 12, 10, sections=512)),
    "cone": lambda: of_library(made.cone(10, 20, sections=64)),
    "capsule": lambda: of_library(made.capsule(30, 8, count=[64, 64])),
    "icosphere of 1,280": lambda: sphere(10, 3),
    "icosphere of 20,480": lambda: sphere(10, 5),
    "ball by latitude": lambda: of_library(made.uv_sphere(10, count=[64, 64])),
    "fine ball by latitude": lambda: of_library(made.uv_sphere(10, count=[256, 256])),
    "ball of an octahedron": lambda: of_solid(Solid.sphere(10, 128)),
    "torus": lambda: torus(20, 5, 120, 60),
    "fine torus": lambda: torus(20, 5, 480, 240),
    "turned ring": lambda: of_solid(Solid.revolve(Section.circle(5, 64).translate([20, 0]), 128)),
    "extruded ring": lambda: of_solid(ring(64)),
    "twisted bar": lambda: of_solid(Solid.extrude(Section.square([12, 20], True), 40, 64, 90.0)),
    "wedge of 30°": lambda: extruded([(0, 0), (30, 0), (30, 17.32)], 20),
    "leaning prism": sheared_prism,
    "spring": coil,
    "hollow cube": sealed_cavity,
    "hollow ball": lambda: of_solid(Solid.sphere(20, 128) - Solid.sphere(16, 128)),
    "block less a ball": lambda: of_solid(BLOCK - Solid.sphere(18, 128)),
    "block less a rod": lambda: of_solid(BLOCK - rod(40, 8, 128)),
    "block and ball in common": lambda: of_solid(BLOCK ^ Solid.sphere(18, 128)),
    "crossed rods": lambda: of_solid(rod(60, 8, 128) + rod(60, 8, 128).rotate([90, 0, 0])),
    "plate with 49 holes": lambda: of_solid(holed_plate()),
}


@pytest.mark.parametrize("name", SHAPES)
def test_sound_shapes_are_called_sound(name):
    mesh = SHAPES[name]()
    for up in UPS:
        report = check_mesh(mesh, Pose(up))
        faults = [f"{fault.words}: {fault.advice}" for fault in report.faults]
        assert (report.verdict, faults) == ("sound", []), up


def test_slivers_of_a_fine_boolean_do_no_harm():
    """A ball of 512 sides less another: a thousand slivers along the rim, and nothing touches."""
    moon = Solid.sphere(10, 512) - Solid.sphere(8, 512).translate([0, 0, 6])
    report = check_mesh(of_solid(moon))
    assert {fault.kind for fault in report.faults} == {"sliver_faces"}
    assert report.verdict == "sound"


@pytest.mark.parametrize("off_mm", [0.0, 5e-7, 2e-6])
def test_what_touches_only_across_a_sliver_is_no_contact(off_mm):
    """A corner on the edge of a block, in the top but not in the side: the faces left and right
    of the sliver between them meet where it has no width."""
    block = box((0, 0, 0), (20, 30, 10))
    at = {tuple(point): k for k, point in enumerate(block.vertices_mm.round().astype(int).tolist())}
    a, b = at[0, 0, 10], at[20, 0, 10]
    top = block.corners_mm[..., 2].min(axis=1) > 9.9
    k = next(f for f in np.flatnonzero(top) if {a, b} <= set(block.faces[f]))
    third = next(v for v in block.faces[k] if v not in (a, b))
    apex = len(block.vertices_mm)
    points = np.vstack([block.vertices_mm, [(10, off_mm, 10)]])
    more = [(a, apex, third), (apex, b, third), (a, b, apex)]
    mesh = Mesh(points, np.vstack([np.delete(block.faces, k, axis=0), more]))
    assert mesh.signed_volume_mm3 == pytest.approx(6000)
    report = check_mesh(mesh)
    assert {fault.kind for fault in report.faults} <= {"sliver_faces", "degenerate_faces"}
    assert report.verdict == "sound"


def test_a_corner_that_touches_a_face_far_from_it_is_still_told():
    """A hook, free, and another whose tip is bent back onto its own shank."""
    hook = Solid.extrude(Section([[(0, 0), (30, 0), (30, 20), (10, 20), (20, 10.0), (24, 12),
                                   (24, 6), (6, 6), (6, 20), (0, 20)]]), 10)  # fmt: skip
    free = check_mesh(of_solid(hook))
    assert "edge_contacts" not in {fault.kind for fault in free.faults}
    outline = [(0, 0), (30, 0), (30, 20), (8, 20), (15, 6), (24, 16), (24, 6), (6, 6), (6, 30),
               (0, 30)]  # fmt: skip
    report = check_mesh(extruded(outline, 10))
    assert "edge_contacts" in {fault.kind for fault in report.faults}
