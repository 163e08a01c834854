"""Made shapes with known measures, shared by the tests. All lengths in mm."""

from collections.abc import Iterable

import manifold3d
import numpy as np
import trimesh

from viewer.geometry.mesh import Mesh


def joined(*meshes: Mesh) -> Mesh:
    """Several meshes as one, shell beside shell, vertices kept apart."""
    offsets = np.cumsum([0] + [len(mesh.vertices_mm) for mesh in meshes[:-1]])
    faces = [mesh.faces + offset for mesh, offset in zip(meshes, offsets, strict=True)]
    return Mesh(np.vstack([mesh.vertices_mm for mesh in meshes]), np.vstack(faces))


def moved(mesh: Mesh, by: Iterable[float]) -> Mesh:
    """A mesh shifted by (x, y, z)."""
    return Mesh(mesh.vertices_mm + np.asarray(list(by), np.float64), mesh.faces)


def scaled(mesh: Mesh, factor: float) -> Mesh:
    """A mesh scaled about the origin."""
    return Mesh(mesh.vertices_mm * factor, mesh.faces)


def turned_inside_out(mesh: Mesh) -> Mesh:
    """The same shape with every face wound the other way round."""
    return Mesh(mesh.vertices_mm, mesh.faces[:, ::-1])


def without_faces(mesh: Mesh, faces: Iterable[int]) -> Mesh:
    """A mesh with holes where `faces` were."""
    return Mesh(mesh.vertices_mm, np.delete(mesh.faces, list(faces), axis=0))


def box(low: Iterable[float], high: Iterable[float]) -> Mesh:
    """A box of 12 triangles between two corners."""
    low, high = np.asarray(list(low), np.float64), np.asarray(list(high), np.float64)
    made = trimesh.creation.box(extents=high - low)
    return Mesh(made.vertices + (low + high) / 2, made.faces)


def cube(side: float = 20.0) -> Mesh:
    """A cube of 12 triangles about the origin."""
    return box([-side / 2] * 3, [side / 2] * 3)


def sphere(radius: float = 10.0, subdivisions: int = 6) -> Mesh:
    """An icosphere; 6 subdivisions give 81,920 faces of about 0.9°."""
    made = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius)
    return Mesh(made.vertices, made.faces)


def torus(radius: float = 20.0, tube: float = 5.0, around: int = 240, facets: int = 720) -> Mesh:
    """A torus lying flat; its section has `facets` sides, 720 of half a degree each."""
    made = trimesh.creation.torus(radius, tube, major_sections=around, minor_sections=facets)
    return Mesh(made.vertices, made.faces)


def turned_profile(radii_and_heights: list[tuple[float, float]], sides: int = 720) -> Mesh:
    """A solid of revolution about z from (radius, height) pairs, from the lower pole to the upper.

    The first and last radius may be 0 (a tip) or not (a flat end).
    """
    turns = np.linspace(0, 2 * np.pi, sides, endpoint=False)
    circle = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    low, high = radii_and_heights[0][1], radii_and_heights[-1][1]
    rings = [(r, z) for r, z in radii_and_heights if r > 0]
    vertices = [np.array([[0, 0, low], [0, 0, high]], np.float64)]
    vertices += [np.column_stack([r * circle, np.full(sides, z)]) for r, z in rings]
    i = np.arange(sides)
    j = np.roll(i, -1)
    first, last = 2, 2 + sides * (len(rings) - 1)
    faces = [np.column_stack([np.zeros(sides, int), first + j, first + i])]
    for k in range(len(rings) - 1):
        a, b = 2 + k * sides, 2 + (k + 1) * sides
        faces += [np.column_stack([a + i, a + j, b + j]), np.column_stack([a + i, b + j, b + i])]
    faces.append(np.column_stack([np.ones(sides, int), last + i, last + j]))
    return Mesh(np.vstack(vertices), np.vstack(faces))


def cylinder(radius: float, height: float) -> Mesh:
    """A cylinder standing on z = 0."""
    return turned_profile([(radius, 0.0), (radius, height)])


def cone(radius: float, height: float) -> Mesh:
    """A cone standing on its base at z = 0."""
    return turned_profile([(radius, 0.0), (0.0, height)])


def inverted_cone(radius: float, height: float) -> Mesh:
    """A cone standing on its tip at z = 0."""
    return turned_profile([(0.0, 0.0), (radius, height)])


def extruded(outline_xz: list[tuple[float, float]], depth: float) -> Mesh:
    """A profile in the x-z plane, drawn out along y from 0 to `depth`; one closed shell."""
    section = manifold3d.CrossSection([np.array(outline_xz)], manifold3d.FillRule.EvenOdd)
    # Extruding goes along z; a quarter turn about x brings profile height to z, depth to −y.
    made = section.extrude(depth).rotate([90, 0, 0]).translate([0, depth, 0]).to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, np.int64))


def wedge(inclination_deg: float, run: float = 40.0, depth: float = 20.0) -> Mesh:
    """A ramp whose upper side is inclined by the given angle from horizontal."""
    rise = run * np.tan(np.radians(inclination_deg))
    return extruded([(0, 0), (run, 0), (run, rise)], depth)


def post_and_cap() -> Mesh:
    """A post 10 × 10 × 20 that bears a cap 30 × 30 × 5, as one shell (row 22)."""
    post = manifold3d.Manifold.cube([10, 10, 20.0]).translate([10, 10, 0])
    cap = manifold3d.Manifold.cube([30, 30, 5.0]).translate([0, 0, 20])
    made = (post + cap).to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, np.int64))


def post_touching_cap() -> Mesh:
    """The same as two shells that touch (row 23)."""
    return joined(box([10, 10, 0], [20, 20, 20]), box([0, 0, 20], [30, 30, 25]))


def post_inside_cap() -> Mesh:
    """The same as two shells that overlap by 3 mm (row 23)."""
    return joined(box([10, 10, 0], [20, 20, 23]), box([0, 0, 20], [30, 30, 25]))


def c_bracket() -> Mesh:
    """A C open to one side; the gap is 35 long, 20 high, 20 deep (row 24)."""
    outline = [(0, 0), (40, 0), (40, 5), (5, 5), (5, 25), (40, 25), (40, 30), (0, 30)]
    return extruded(outline, 20)


def tunnel() -> Mesh:
    """A block with a tunnel on the platform, 20 wide, 10 high, 20 deep (row 25)."""
    outline = [(0, 0), (10, 0), (10, 10), (30, 10), (30, 0), (40, 0), (40, 20), (0, 20)]
    return extruded(outline, 20)


def shelves() -> Mesh:
    """A wall with two shelves 20 × 20 × 2, undersides at z = 20 and 40 (row 26)."""
    outline = [
        (0, 0), (5, 0), (5, 20), (25, 20), (25, 22), (5, 22),
        (5, 40), (25, 40), (25, 42), (5, 42), (5, 45), (0, 45),
    ]  # fmt: skip
    return extruded(outline, 20)


def sealed_cavity() -> Mesh:
    """A cube of 20 around a hollow of 10³, the hollow's shell facing inward (row 27)."""
    return joined(box([0, 0, 0], [20, 20, 20]), turned_inside_out(box([5] * 3, [15] * 3)))


def sheared_prism(side: float = 20.0, height: float = 60.0, shear: float = 20.0) -> Mesh:
    """A square prism whose top is shifted by `shear` along x (row 39)."""
    made = box([0, 0, 0], [side, side, height])
    vertices = made.vertices_mm.copy()
    vertices[:, 0] += shear * vertices[:, 2] / height
    return Mesh(vertices, made.faces)
