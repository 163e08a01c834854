"""Numbers of a piece: those of the same part as a job, and specimens by their volumes."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.specimens.catalogue import make_specimen
from viewer.shop.job_numbers import job_numbers
from viewer.shop.piece_numbers import (
    LaidBody,
    Printing,
    layers_of_bodies,
    numbers_of_bodies,
    numbers_of_cut,
)
from viewer.shop.shop import example_shop
from viewer.shop.shop_choice import ShopChoice


def laid(specimen):
    return [LaidBody(b.mesh.vertices_mm, b.mesh.faces, b.material) for b in specimen.bodies]


def test_a_piece_takes_what_the_same_part_takes_as_a_job():
    mesh, pose = shapes.post_and_cap(), Pose()
    classes = np.ones(mesh.face_count, np.uint8)
    printing = Printing(PrintSettings(), example_shop(), ShopChoice())
    found = numbers_of_cut(mesh, classes, pose, printing)
    measures = measure_pose(prepare_part(mesh), classes, pose, PrintSettings())
    whole = job_numbers(mesh, classes, pose, PrintSettings(), measures, example_shop())
    assert found.problem == ""
    assert found.estimate.time_s == whole.estimate.time_s
    assert found.estimate.cost == whole.estimate.cost
    assert found.mass_g == sum(each.likely for each in whole.estimate.material_g.values())
    assert found.touch_a_mm2 == measures.touch_area_mm2.A == pytest.approx(800, rel=0.02)


def test_layers_of_a_specimen_hold_the_volume_of_each_material():
    """Sections at the middle of layers of blocks whose heights are whole layers: exact (CALC)."""
    specimen = make_specimen("pair-release", [0.0, 0.2])
    layers = layers_of_bodies(laid(specimen), 0.1)
    for material, area in (("model", layers.area_mm2), ("support", layers.support_mm2)):
        volume = sum(b.mesh.signed_volume_mm3 for b in specimen.bodies if b.material == material)
        assert area.sum() * 0.1 == pytest.approx(volume, rel=1e-3)


def test_a_specimen_of_two_materials_needs_a_machine_that_takes_both():
    printing = Printing(PrintSettings(), example_shop(), ShopChoice())
    specimen = make_specimen("pair-release", [0.0])
    able = next(m.name for m in printing.shop.machines if m.materials > 1)
    pair = next(p.name for p in printing.shop.pairs if p.support_body != p.model)
    both = printing._replace(choice=ShopChoice(machine=able, pair=pair))
    made = numbers_of_bodies(laid(specimen), both)
    assert made.problem == ""
    assert len(made.estimate.material_g) == 2
    assert made.estimate.tool_changes.likely > 0
    single = next(m.name for m in printing.shop.machines if m.materials == 1)
    refused = numbers_of_bodies(
        laid(specimen), printing._replace(choice=ShopChoice(machine=single, pair=pair))
    )
    assert refused.estimate is None
    assert "loaded with" in refused.problem
    assert refused.mass_g == 0


def test_a_specimen_stands_without_supports_whatever_overhangs():
    printing = Printing(PrintSettings(), example_shop(), ShopChoice())
    made = numbers_of_bodies(laid(make_specimen("inclination-fan", [15, 30])), printing)
    assert made.estimate.support_g.likely == 0
    assert made.touch_a_mm2 == 0
