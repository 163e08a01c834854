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


def of_solid(solid: manifold3d.Manifold) -> Mesh:
    """The surface of a solid of the modeller as a mesh."""
    made = solid.to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, np.int64))


def solid_box(low: Iterable[float], high: Iterable[float]) -> manifold3d.Manifold:
    """A box between two corners, as a solid of the modeller."""
    low, high = np.asarray(list(low), np.float64), np.asarray(list(high), np.float64)
    return manifold3d.Manifold.cube(list(high - low)).translate(list(low))


def gallows(hanging: manifold3d.Manifold) -> manifold3d.Manifold:
    """A post at x < 0 and an arm at z 30 to 35, with a solid hanging under the arm at x > 0."""
    post = solid_box([-15, -5, 0], [-5, 5, 35])
    return post + solid_box([-15, -5, 30], [15, 5, 35]) + hanging


def hanging_post() -> manifold3d.Manifold:
    """A square post of 4 × 4 whose flat end hangs at z = 12."""
    return gallows(solid_box([3, -2, 12], [7, 2, 32]))


def hanging_cone() -> manifold3d.Manifold:
    """A cone with its tip at z = 8, 4 mm wide at z = 28: its faces stand at 84°."""
    cone = manifold3d.Manifold.cylinder(20, 0.0, 2.0, 64).translate([5, 0, 8])
    return gallows(cone + solid_box([4, -1, 27], [6, 1, 32]))


def spiky_table(spikes: int = 6) -> manifold3d.Manifold:
    """A table on four legs whose underside (z = 20) bears a field of spikes of other lengths."""
    table = solid_box([0, 0, 20], [40, 40, 25])
    legs = [solid_box([x, y, 0], [x + 3, y + 3, 22]) for x in (0, 37) for y in (0, 37)]
    rng = np.random.default_rng(7)
    step = 34 / spikes
    for i in range(spikes * spikes):
        x, y = 3 + step * (i % spikes + 0.5), 3 + step * (i // spikes + 0.5)
        length = float(rng.uniform(3, 12))
        spike = manifold3d.Manifold.cylinder(length, 0.0, 0.4 * step, 12)
        legs.append(spike.translate([x, y, 20.05 - length]))
    return manifold3d.Manifold.batch_boolean([table, *legs], manifold3d.OpType.Add)


def coil(turns: float = 3.0, pitch: float = 8.0, radius: float = 12.0, wire: float = 1.5) -> Mesh:
    """A spring of round wire standing upright: it starts with a flat end, square to the wire."""
    steps, sides = int(48 * turns), 16
    along = np.linspace(0, 2 * np.pi * turns, steps + 1)
    middle = np.stack(
        [radius * np.cos(along), radius * np.sin(along), pitch * along / 2 / np.pi], 1
    )
    out = np.stack([np.cos(along), np.sin(along), 0 * along], axis=1)
    ahead = np.stack([-radius * np.sin(along), radius * np.cos(along), 0 * along], axis=1)
    ahead[:, 2] = pitch / 2 / np.pi
    ahead /= np.linalg.norm(ahead, axis=1)[:, None]
    side = np.cross(ahead, out)
    turn = 2 * np.pi * np.arange(sides) / sides
    rings = middle[:, None] + wire * (
        np.cos(turn)[:, None] * out[:, None] + np.sin(turn)[:, None] * side[:, None]
    )
    points = np.vstack([rings.reshape(-1, 3), middle[[0, -1]]])
    i = np.arange(sides)
    j = np.roll(i, -1)
    row = sides * np.arange(steps)[:, None]
    faces = [np.stack([row + i, row + sides + i, row + j], axis=-1).reshape(-1, 3)]
    faces += [np.stack([row + j, row + sides + i, row + sides + j], axis=-1).reshape(-1, 3)]
    first, last = len(points) - 2, len(points) - 1
    faces.append(np.stack([np.full(sides, first), i, j], axis=-1))
    end = sides * steps
    faces.append(np.stack([np.full(sides, last), end + j, end + i], axis=-1))
    made = Mesh(points, np.vstack(faces))
    return made if made.signed_volume_mm3 > 0 else turned_inside_out(made)


def ringed_tube(radius: float = 10.0, height: float = 30.0, rings: int = 60) -> Mesh:
    """A closed cylinder upon z = 0 whose wall is made of many rings of faces."""
    heights = np.linspace(0.0, height, rings + 1)
    wall = [(radius, float(z)) for z in heights]
    return turned_profile([(0.0, 0.0), *wall, (0.0, height)], sides=120)


def hemisphere_shell(outer: float = 20.0, inner: float = 17.0, steps: int = 90) -> Mesh:
    """Half a hollow ball, its dome up (+z) and its rim at z = 0."""
    turns = np.linspace(0, np.pi / 2, steps + 1)[:-1]
    up = [(outer * np.cos(a), outer * np.sin(a)) for a in turns]
    down = [(inner * np.cos(a), inner * np.sin(a)) for a in turns[::-1]]
    return turned_profile([(0.0, inner), *down, *up, (0.0, outer)], sides=360)


def l_bracket(leg: float = 40.0, thickness: float = 5.0, depth: float = 20.0) -> Mesh:
    """An L in the x-z plane, its legs along x and z, drawn out along y."""
    outline = [(0, 0), (leg, 0), (leg, thickness), (thickness, thickness), (thickness, leg)]
    return extruded([*outline, (0, leg)], depth)
