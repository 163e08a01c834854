"""Risks on made parts: each is told where it is, and not where it is not."""

import numpy as np
import pytest

from tests.shapes import (
    box,
    cube,
    cylinder,
    hanging_cone,
    joined,
    of_solid,
    post_and_cap,
    sealed_cavity,
    sheared_prism,
)
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.job_layers import layers_of
from viewer.shop.looked import Looked, runs_of
from viewer.shop.print_job import PrintJob, estimate
from viewer.shop.risk import find_risks
from viewer.shop.shop import example_shop

SHOP = example_shop()
USUAL = PrintSettings()


def looked_at(mesh, pair="PLA alone", machine=None, up=(0, 0, 1), settings=USUAL, **more):
    measures = measure_pose(
        prepare_part(mesh), np.zeros(mesh.face_count, np.uint8), Pose(up), settings
    )
    pair = SHOP.pair(pair)
    materials = SHOP.materials_of(pair)
    if machine is not None:
        job = PrintJob(SHOP.machine(machine), pair, materials)
        more["estimate"] = estimate(layers_of(measures), job)
        more["machine"] = job.machine
    return Looked(measures, pair, materials, settings, mesh=mesh, pose=Pose(up), **more)


def risks(kind, *arguments, **more):
    return [r for r in find_risks(looked_at(*arguments, **more)) if r.kind == kind]


def test_a_cube_of_pla_is_no_risk_at_all():
    assert find_risks(looked_at(cube(20))) == ()


def test_a_leaning_prism_tips_over_where_it_is_worst():
    """Row 39 (CALC): sheared by its own side, its tip angle is 0 once it is all there."""
    (risk,) = risks("tip_over", sheared_prism())
    assert risk.serious
    assert risk.from_mm == pytest.approx(60, abs=0.3)
    assert not risks("tip_over", cube(20))


def test_a_thin_tall_wall_sways():
    """CALC: 2·A/P of 40 × 0.8 mm is 0.784 mm; 100 mm are far more than 15 times that."""
    (risk,) = risks("thin_walls", box((0, 0, 0), (40, 0.8, 100)))
    assert (risk.from_mm, risk.to_mm) == pytest.approx((0, 100))
    assert "0.8 mm thick" in risk.reason
    assert risk.serious
    assert not risks("thin_walls", box((0, 0, 0), (40, 0.8, 5)))
    assert not risks("thin_walls", box((0, 0, 0), (40, 8, 100)))


def test_a_wall_on_a_block_is_thin_where_it_begins():
    block = box((-20, -20, 0), (20, 20, 10))
    wall = box((-20, -0.4, 10), (20, 0.4, 60))
    (risk,) = risks("thin_walls", joined(block, wall))
    assert (risk.from_mm, risk.to_mm) == pytest.approx((10, 60))


def block_and_finger(finger):
    """A thick block and something slender beside it, on one plate: its parts touch."""
    plate, block = box((-25, -10, 0), (25, 10, 2)), box((-25, -10, 2), (-5, 10, 62))
    return joined(plate, block, finger)


def test_a_finger_beside_a_block_sways_though_the_section_is_thick():
    """CALC: 1 × 6 mm, 60 mm high, which is more than 3 · 15 times its thickness."""
    mesh = block_and_finger(box((15, -3, 2), (16, 3, 62)))
    (risk,) = risks("thin_walls", mesh)
    assert risk.serious
    assert risk.thick_mm == pytest.approx(1.0, abs=2e-3)
    assert "of a finger or wall that is 1.0 mm thick" in risk.reason
    step = 62 / 48
    assert (risk.from_mm, risk.to_mm) == pytest.approx((2, 62), abs=step)
    x, y, z = risk.place_mm
    assert (x, y) == pytest.approx((15.5, 0), abs=1e-2)
    assert z > 62 - step
    assert not risks("thin_walls", block_and_finger(box((10, -8, 2), (18, 8, 62))))


def test_a_flexible_column_beside_a_block_wobbles():
    """CALC: 5 × 5 mm is 5.64 mm across, 60 mm more than 5 times 8; a brace at 60 %."""
    column = box((12, -2.5, 2), (17, 2.5, 62))
    (risk,) = risks("wobble", block_and_finger(column), pair="TPU 95A alone")
    assert "at most 8 mm thick" in risk.reason
    assert risk.place_mm == pytest.approx((14.5, 0, 38), abs=1.5)
    assert not risks("wobble", block_and_finger(column))


def test_a_hanging_tip_is_a_small_island():
    mesh = of_solid(hanging_cone())
    looked = looked_at(mesh)
    (place,) = looked.measures.island_places
    (risk,) = [r for r in find_risks(looked) if r.kind == "small_island"]
    assert risk.from_mm == pytest.approx(place.height_mm)
    assert risk.place_mm == pytest.approx(place.place_mm)


def test_a_large_foot_lifts_at_a_corner_sooner_in_abs_than_in_pla():
    plate = box((0, 0, 0), (120, 80, 6))
    assert not risks("lifting", plate)  # 144 mm along its diagonal, PLA up to 200
    (risk,) = risks("lifting", plate, pair="ABS alone")
    assert risk.serious
    assert "144 mm long" in risk.reason
    x, y, z = risk.place_mm
    assert (x == pytest.approx(0, abs=1e-6)) or (x == pytest.approx(120))
    assert (y == pytest.approx(0, abs=1e-6)) or (y == pytest.approx(80))
    assert z == pytest.approx(0, abs=1e-6)
    assert not risks("lifting", box((0, 0, 0), (40, 40, 6)), pair="ABS alone")


def test_what_is_sealed_in_stays_whatever_dissolves():
    """Row 27 (CALC): the cavity's 1000 mm³ are sealed."""
    for pair in ("PLA alone", "PLA with PVA"):
        (risk,) = risks("unreachable", sealed_cavity(), pair=pair)
        assert "1000 mm³ of support are sealed in" in risk.reason


def test_a_needle_has_too_small_a_foot():
    """CALC: 4 × 4 × 100: 16 mm² hold 100 mm."""
    (risk,) = risks("small_foot", box((0, 0, 0), (4, 4, 100)))
    assert "16 mm² hold a print of 100 mm" in risk.reason
    assert risk.serious
    assert not risks("small_foot", cube(20))


def test_a_flexible_column_wobbles_and_a_stiff_one_does_not():
    """CALC: 8 mm across and 80 mm long; a brace at 60 % of its length."""
    column = cylinder(3.9, 80)
    (risk,) = risks("wobble", column, pair="TPU 95A alone")
    assert (risk.from_mm, risk.to_mm) == pytest.approx((0, 80))
    assert "at most 8 mm thick" in risk.reason
    assert "about 48 mm" in risk.reason
    assert not risks("wobble", column)
    # The brace holds it at its axis, however it lies in its file.
    turn = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    moved = Mesh(column.vertices_mm @ turn.T + [50.0, -7.0, 3.0], column.faces)
    (risk,) = risks("wobble", moved, pair="TPU 95A alone", up=(1, 0, 0))
    assert risk.place_mm == pytest.approx((50.0 + 48.0, -7.0, 3.0), abs=0.05)
    assert not risks("wobble", cylinder(15, 80), pair="TPU 95A alone")


def test_ooze_marks_class_a_only_where_it_lies_beside_supports():
    """Post and cap of row 22: supports reach from the platform to 20 mm."""
    (risk,) = risks("ooze", post_and_cap(), pair="PLA with PVA", class_a_mm=(5, 25))
    assert (risk.from_mm, risk.to_mm) == pytest.approx((5, 20), abs=0.21)
    assert not risks("ooze", post_and_cap(), pair="PLA with PVA", class_a_mm=(21, 25))
    assert not risks("ooze", post_and_cap(), pair="PLA with PVA")
    assert not risks("ooze", post_and_cap(), pair="PLA alone", class_a_mm=(5, 25))


def two_floors():
    """Overhangs near the foot and near the top of a thick pillar, none for 75 mm between."""
    pillar = box((-30, -30, 0), (30, 30, 100))
    low = box((30, -5, 4), (40, 5, 8))
    return joined(
        pillar, low, box((-40, -40, 97), (-30, 40, 100)), box((-40, -40, 12), (-30, 40, 20))
    )


def test_a_support_that_waits_long_chars():
    looked = looked_at(two_floors(), "PLA, PVA contact layers", None)
    assert not [r for r in find_risks(looked) if r.kind == "idle"]  # no machine, no times
    looked = looked_at(two_floors(), "PLA with PVA", "Two nozzles, large")
    used = looked.measures.profile.support_area_mm2 > 1e-6
    gaps = [(a, b) for a, b in runs_of(~used) if b < len(used)]
    (risk,) = [r for r in find_risks(looked) if r.kind == "idle" and "chars" in r.reason]
    assert risk.from_mm == pytest.approx((gaps[0][0] - 1) * 0.2)
    assert risk.to_mm == pytest.approx((gaps[0][1] + 1) * 0.2)
    shared = looked_at(two_floors(), "PLA with PVA", "Shared nozzle, four materials")
    assert not [r for r in find_risks(shared) if r.kind == "idle"]


def test_what_material_and_machine_do_not_give_is_told():
    """TPU leans up to 50° and spans 4 mm; a nozzle of 0.4 lays layers up to 0.8 × 0.4 = 0.32."""
    asked = PrintSettings(layer_mm=0.34, bridge_mm=6.0)
    found = risks("limits", cube(20), "TPU 95A alone", "Two nozzles, large", settings=asked)
    told = " ".join(risk.reason for risk in found)
    assert len(found) == 3
    for words in ("below 50°", "spans 4 mm", "0.08 to 0.3 mm", "0.34 mm"):
        assert words in told
    within = PrintSettings(layer_mm=0.3, bridge_mm=4.0, support_limit_deg=50.0)
    assert not risks("limits", cube(20), "TPU 95A alone", "Two nozzles, large", settings=within)


def test_serious_risks_come_first():
    found = find_risks(looked_at(box((0, 0, 0), (4, 4, 100)), pair="TPU 95A alone"))
    assert len(found) > 2
    serious = [risk.serious for risk in found]
    assert serious == sorted(serious, reverse=True)
    assert all(risk.reason.endswith(".") for risk in found)


def test_runs():
    assert runs_of(np.array([True, True, False, True])) == [(0, 2), (3, 4)]
    assert runs_of(np.zeros(3, bool)) == []
