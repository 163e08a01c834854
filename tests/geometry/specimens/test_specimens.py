"""Specimens: closed, as large as their closed form, with faces inclined as their labels say."""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests.solids import assert_closed_by_two_libraries
from viewer.errors import RequestProblem
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.specimens.bridge_ladder import bridge_ladder
from viewer.geometry.specimens.catalogue import KINDS, make_specimen
from viewer.geometry.specimens.inclination_fan import inclination_fan
from viewer.geometry.specimens.nozzle_offset import nozzle_offset
from viewer.geometry.specimens.pair_release import pair_release
from viewer.geometry.specimens.relief import GLYPHS, RELIEF_MM, label, label_width_mm
from viewer.geometry.specimens.slender_fins import slender_fins
from viewer.geometry.specimens.specimen import block, united
from viewer.geometry.specimens.terrace_wedge import terrace_wedge


def inclinations(mesh):
    """Inclination from horizontal and area of each face, and whether it looks down."""
    n_z = mesh.face_normals[:, 2]
    return np.degrees(np.arccos(np.clip(np.abs(n_z), 0, 1))), mesh.face_areas_mm2, n_z < -1e-9


@pytest.mark.parametrize("kind", KINDS)
def test_every_body_is_closed_and_all_stand_on_the_platform(kind):
    specimen = make_specimen(kind)
    for body in specimen.bodies:
        assert_closed_by_two_libraries(body.mesh)
    assert min(body.mesh.box_mm[0, 2] for body in specimen.bodies) == 0.0
    assert specimen.question.endswith("?")
    assert len({step.label for step in specimen.steps}) >= 4
    for one in specimen.bodies:
        for other in specimen.bodies:
            if one is not other:
                pair = [
                    manifold3d.Manifold(
                        manifold3d.Mesh64(
                            vert_properties=np.array(body.mesh.vertices_mm),
                            tri_verts=body.mesh.faces.astype(np.uint64),
                        )
                    )
                    for body in (one, other)
                ]
                assert (pair[0] ^ pair[1]).volume() == pytest.approx(0, abs=1e-6)


def test_fan_volume_and_undersides():
    """CALC: a blade holds width · length · thickness; its underside is length × width."""
    angles = [15, 30, 45, 75]
    fan = inclination_fan(angles, blade_mm=(20.0, 10.0, 3.0), labels=False)
    feet = [3.0 / np.sin(np.radians(angle)) for angle in angles]
    base = (max(feet) + 8.0) * (4 * 13 + 3) * 3.0
    assert fan.volume_mm3 == pytest.approx(base + 4 * 20 * 10 * 3, rel=1e-9)
    alpha, area, down = inclinations(fan.bodies[0].mesh)
    for angle in angles:
        found = area[down & (np.abs(alpha - angle) < 1e-6)].sum()
        assert found == pytest.approx(20 * 10)


@pytest.mark.parametrize("limit_deg", [20.5, 44.5, 60.5])
def test_the_fan_overhangs_where_its_labels_say(limit_deg):
    """What is measured as overhang are the blades labelled below the limit, and nothing else."""
    fan = inclination_fan(labels=True)
    part = prepare_part(fan.bodies[0].mesh)
    classes = np.zeros(len(part.faces), np.uint8)
    found = measure_pose(
        part, classes, Pose(), PrintSettings(support_limit_deg=limit_deg), tier="quick"
    )
    below = sum(step.value < limit_deg for step in fan.steps)
    assert found.overhang_area_mm2.total == pytest.approx(200 * below, rel=1e-6)


def test_ladder_volume_and_spans():
    """CALC: base, two posts of 4 mm and a beam over posts and span for each gate."""
    spans = [5, 12.5, 40]
    ladder = bridge_ladder(spans, 8.0, 8.0, 2.0, 4.0, labels=False)
    base = (10 + 48) * (3 * 12 + 4) * 1.0
    gates = sum(8 * (2 * 4 * 8 + (span + 8) * 2) for span in spans)
    assert ladder.volume_mm3 == pytest.approx(base + gates, rel=1e-9)
    part = prepare_part(ladder.bodies[0].mesh)
    classes = np.zeros(len(part.faces), np.uint8)
    for limit, bridged in ((5, 5), (13, 17.5), (40, 57.5)):
        found = measure_pose(
            part, classes, Pose(), PrintSettings(bridge_mm=limit), tier="quick"
        ).bridged_area_mm2
        assert found.total == pytest.approx(8 * bridged, rel=0.02)


def test_wedge_volume_and_terraces():
    """CALC: a strip of labels, and under each ramp a box and half a box."""
    angles = [3, 10, 45]
    wedge = terrace_wedge(angles, 24.0, 9.0, 2.0, labels=False)
    rises = [24 * np.tan(np.radians(angle)) for angle in angles]
    assert wedge.volume_mm3 == pytest.approx(
        9 * sum(35 * 2 + 24 * rise / 2 for rise in rises), rel=1e-9
    )
    alpha, area, down = inclinations(wedge.bodies[0].mesh)
    for angle in angles:
        found = area[~down & (np.abs(alpha - angle) < 1e-6)].sum()
        assert found == pytest.approx(9 * 24 / np.cos(np.radians(angle)))


def test_fins_volume():
    fins = slender_fins([0.8, 2.0], 60.0, 12.0, 12.0, 2.0, labels=False)
    # CALC: base of 12 + 0.8 + 12 + 2 + 4 by 16, fins 12 wide.
    assert fins.volume_mm3 == pytest.approx(30.8 * 16 * 2 + 12 * 60 * 2.8, rel=1e-9)


def test_release_volume_orders_and_gaps():
    """CALC: blocks 16 × 12 × 4; the tab bridges 0.6 mm and stands 6 mm long on the platform."""
    gaps = [0.0, 0.15, 0.4]
    piece = pair_release(gaps, labels=False)
    lower, upper = 16 * 12 * 4.0, [12 * (22.6 * 4 + 6 * (4 + gap)) for gap in gaps]
    assert piece.volume_mm3 == pytest.approx(2 * (3 * lower + sum(upper)), rel=1e-9)
    assert {(body.material, body.name.split(", ")[1]) for body in piece.bodies} == {
        ("model", "support on model"),
        ("support", "support on model"),
        ("support", "model on support"),
        ("model", "model on support"),
    }
    assert [step.value for step in piece.steps] == gaps * 2
    tall = {body.name: body.mesh for body in piece.bodies}["support, support on model"]
    undersides = {
        round(float(z), 6)
        for z, n in zip(tall.corners_mm[:, :, 2].mean(axis=1), tall.face_normals, strict=True)
        if n[2] < -0.9
    }
    assert undersides == {0.0, 4.0, 4.15, 4.4}


def test_offset_combs_line_up_where_the_label_says():
    check = nozzle_offset(0.05, 5, 4.0, labels=False)
    bases, bars = 2 * (2 * 12.0) * (8 + 7 + 9) * 0.6, 2 * 5 * 1.2 * 8 * 1.2
    assert check.bodies[0].mesh.signed_volume_mm3 == pytest.approx(bases + bars, rel=1e-9)
    assert check.bodies[1].mesh.signed_volume_mm3 == pytest.approx(bars, rel=1e-9)
    bodies = trimesh.Trimesh(
        check.bodies[1].mesh.vertices_mm, check.bodies[1].mesh.faces, process=False
    ).split()
    middles = sorted(body.bounds.mean(axis=0)[0] for body in bodies if body.bounds[0, 1] < 1)
    assert middles[:2] == pytest.approx([-7.9, -3.95])
    assert [step.value for step in check.steps] == pytest.approx([-0.1, -0.05, 0, 0.05, 0.1])


@pytest.mark.parametrize("kind", KINDS)
def test_labels_only_add_material_on_top(kind):
    makers = {
        "inclination-fan": inclination_fan, "bridge-ladder": bridge_ladder,
        "terrace-wedge": terrace_wedge, "slender-fins": slender_fins,
        "pair-release": pair_release, "nozzle-offset": nozzle_offset,
    }  # fmt: skip
    bare, labelled = makers[kind](labels=False), make_specimen(kind)
    for one, other in zip(bare.bodies, labelled.bodies, strict=True):
        more = other.mesh.signed_volume_mm3 - one.mesh.signed_volume_mm3
        assert more >= -1e-9
        np.testing.assert_allclose(one.mesh.box_mm[:, :2], other.mesh.box_mm[:, :2], atol=1e-9)
        assert other.mesh.box_mm[1, 2] <= one.mesh.box_mm[1, 2] + RELIEF_MM + 1e-9
    assert labelled.volume_mm3 > bare.volume_mm3 + 5


def test_every_glyph_differs_and_keeps_within_its_width():
    seen = set()
    for glyph in GLYPHS:
        mesh = united([block((-1, -1, -1), (9, 9, 0)), *label(glyph, 0, 0, 0)])
        top = mesh.vertices_mm[mesh.vertices_mm[:, 2] > 0.1]
        assert top[:, 0].max() == pytest.approx(label_width_mm(glyph))
        assert top[:, 2].max() == RELIEF_MM
        seen.add(round(mesh.signed_volume_mm3, 6) + sum(top[:, 0] + 3 * top[:, 1]))
    assert len(seen) == len(GLYPHS)


def test_steps_out_of_range_are_refused():
    for kind, steps in (
        ("inclination-fan", [5]), ("bridge-ladder", []), ("terrace-wedge", [90]),
        ("pair-release", [-1]), ("slender-fins", [99]), ("nozzle-offset", [0.1, 0.2]),
        ("nozzle-offset", [9]), ("pyramid", None),
    ):  # fmt: skip
        with pytest.raises(RequestProblem):
            make_specimen(kind, steps)
