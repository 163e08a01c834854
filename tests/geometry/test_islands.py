"""Islands against the definition, by exact sections of a solid modeller, and in closed form."""

import manifold3d
import numpy as np
import pytest

from tests import shapes
from tests.island_oracle import islands_by_sections
from viewer.geometry.islands import find_islands
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.turned_part import turn_part
from viewer.progress import Progress


def islands_of(mesh, up=(0, 0, 1), layer_mm=0.2):
    part = prepare_part(mesh)
    turned = turn_part(part.points_mm, Pose(tuple(up)).up)
    return find_islands(part, turned, PrintSettings(layer_mm=layer_mm), Progress()), turned


def compare(solid: manifold3d.Manifold, up, layer_mm, mesh: Mesh | None = None, tie=False):
    """Same layers, areas and places as by sections; returns how many islands there are."""
    mesh = mesh or shapes.of_solid(solid)
    found, turned = islands_of(mesh, up, layer_mm)
    centre = mesh.box_mm.mean(axis=0)
    matrix = np.column_stack([turned.rotation, -turned.rotation @ centre])
    matrix[2, 3] -= turned.platform_mm
    true = [i for i in islands_by_sections(solid.transform(matrix), layer_mm) if not i.leaning]
    assert found.count == len(true)
    left = list(range(found.count))
    for island in true:
        same = [
            i
            for i in left
            if found.layer[i] == island.layer
            and found.area_mm2[i] == pytest.approx(island.area_mm2, rel=2e-3, abs=1e-6)
        ]
        assert same, island
        left.remove(same[0])
    assert ((found.height_mm > (found.layer - 0.5) * layer_mm)).all()
    assert (found.height_mm <= (found.layer + 0.5) * layer_mm + 1e-3).all()
    return found.count


MADE = {
    "hanging post": (shapes.hanging_post, 1),
    "hanging cone": (shapes.hanging_cone, 1),
    "spiky table": (shapes.spiky_table, 36),
    "arch": (lambda: shapes.solid_box([0, 0, 0], [30, 10, 20]) - shapes.solid_box([5, -1, -1], [25, 11, 12]), 0),
    "table": (lambda: shapes.spiky_table(1) , 1),
}


@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("layer_mm", [0.2, 0.37])
def test_made_parts_as_they_stand(name, layer_mm):
    make, count = MADE[name]
    assert compare(make(), (0, 0, 1), layer_mm) == count


@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("seed", range(3))
def test_made_parts_in_any_pose(name, seed):
    up = np.random.default_rng(seed).normal(size=3)
    compare(MADE[name][0](), up, 0.4)
