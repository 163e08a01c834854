"""Numbers of a piece: those of the same part as a job, and specimens by their volumes."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.specimens.catalogue import make_specimen
from viewer.shop.beside import BesidePiece
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


def test_a_piece_beside_the_part_is_in_the_sums_of_every_machine():
    """CALC: part and piece by themselves, less one start of the machine with its money."""
    mesh, shop, settings = shapes.post_and_cap(), example_shop(), PrintSettings()
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(prepare_part(mesh), classes, Pose(), settings)
    asked = (mesh, classes, Pose(), settings, measures, shop)
    fins = laid(make_specimen("slender-fins"))
    beside = (BesidePiece("Fins", layers_of_bodies(fins, settings.layer_mm), True),)
    alone, both = job_numbers(*asked), job_numbers(*asked, beside=beside)
    assert set(both.estimates) == set(alone.estimates)
    for name, made in both.estimates.items():
        machine, before = shop.machine(name), alone.estimates[name]
        own = numbers_of_bodies(fins, Printing(settings, shop, ShopChoice(machine=name))).estimate
        start_s = machine.start_s
        assert made.time_s.likely == pytest.approx(
            before.time_s.likely + own.time_s.likely - start_s
        )
        assert sum(made.time_parts_s.values()) == pytest.approx(made.time_s.likely)
        money = start_s / 3600 * machine.hourly_rate
        assert made.cost.likely == pytest.approx(before.cost.likely + own.cost.likely - money)
        assert made.cost.likely == pytest.approx(before.cost.likely + made.beside.cost.likely)
        grams = sum(each.likely for each in made.material_g.values())
        parts = (made.model_g, made.support_g, made.purge_g)
        assert grams == pytest.approx(sum(each.likely for each in parts))
        assert made.beside.names == ("Fins",)
    assert alone.estimate.beside is None


def test_a_piece_that_the_machine_cannot_print_is_left_out_and_named():
    """A cube needs no support material; a release piece of two materials needs a second one."""
    mesh, shop, settings = shapes.cube(20), example_shop(), PrintSettings()
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(prepare_part(mesh), classes, Pose(), settings)
    single = next(each for each in shop.machines if each.materials == 1)
    choice = ShopChoice(machine=single.name, pair="PLA with PVA")
    bodies = laid(make_specimen("pair-release"))
    beside = (BesidePiece("Release", layers_of_bodies(bodies, settings.layer_mm), True),)
    given = (mesh, classes, Pose(), settings, measures, shop, choice)
    made = job_numbers(*given, beside=beside).estimate
    assert made.beside.left_out == ("Release",)
    assert made.cost == job_numbers(*given).estimate.cost
