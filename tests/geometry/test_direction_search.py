"""The search on parts whose best directions are known, and how its table grows.

Exhaustive evaluation is spaced 12° in every run; 1° with SHOWSIDE_EXHAUSTIVE_DEG=1.
"""

import os
from dataclasses import replace

import numpy as np
import pytest

from tests import shapes
from tests.geometry.direction_truth import searched, true_table
from viewer.errors import Cancelled
from viewer.geometry import direction_search
from viewer.geometry.aims import LEAST_SUPPORT, QUICKEST, SHOW_SIDE
from viewer.geometry.check_directions import check_best
from viewer.geometry.direction_search import SearchRequest, search_directions
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import rank_directions
from viewer.geometry.sphere_directions import angles_deg
from viewer.progress import Progress

EXHAUSTIVE_DEG = float(os.environ.get("SHOWSIDE_EXHAUSTIVE_DEG", "12"))


def request(mesh, show=None, **more):
    """A search of 162 directions; `show` tells from normals and middles which faces are class A."""
    part = prepare_part(mesh)
    face_classes = np.zeros(mesh.face_count, np.uint8)
    if show is not None:
        middles = mesh.corners_mm.mean(axis=1)
        face_classes[show(part.normals, middles)] = CLASS_A
    given = {"settings": PrintSettings(), "directions": 162} | more
    return SearchRequest(part, face_classes, given.pop("settings"), **given)


def best(asked, weights, limits=()):
    table = searched(replace(asked, weights=weights, limits=limits))
    ranking = rank_directions(table, weights, limits)
    return table, ranking.poses[0]


def test_a_cone_stands_on_its_base():
    """CALC: a cone of 63° on its base needs nothing; no other direction does with so few layers."""
    asked = request(shapes.cone(10, 20))
    table, pose = best(asked, LEAST_SUPPORT.weights)
    assert pose.up == pytest.approx((0, 0, 1), abs=1e-3)
    assert pose.flat_standing
    row = table.row(pose.index)
    assert row["support_volume_mm3"] == 0 == row["touch_mm2"]
    assert row["platform_mm2"] == pytest.approx(np.pi * 100, rel=1e-3)
    # Row 38 (CALC) gives 45° for r 10, h 40; for h 20 it is atan(10 / 5).
    assert row["tip_angle_deg"] == pytest.approx(np.degrees(np.arctan(2)), abs=0.5)


def test_a_hemisphere_shell_with_its_outside_in_view_lies_on_its_rim():
    """CALC: dome up, nothing touches the outside; inside, volume ⅔πr³(1 − cos³45°) under a touch of
    2πr²(1 − cos 45°)."""
    mesh = shapes.hemisphere_shell(20, 17)
    # The dome down to 10° above its rim: along the rim itself every tilt touches.
    asked = request(
        mesh, lambda n, c: (np.einsum("ij,ij->i", n, c) > 0) & (c[:, 2] > 20 * np.sin(0.1745))
    )
    table, pose = best(asked, SHOW_SIDE.weights, ("no-touch-on-a", "stands"))
    assert angles_deg(np.array([pose.up]), np.array([0, 0, 1.0]))[0] < 46
    row = table.nearest(np.array([0, 0, 1.0]))
    found = table.row(row)
    assert table.directions[row] == pytest.approx((0, 0, 1), abs=1e-6)
    assert found["touch_a_mm2"] == 0
    s = np.cos(np.pi / 4)
    assert found["touch_mm2"] == pytest.approx(2 * np.pi * 17**2 * (1 - s), rel=0.02)
    assert found["support_volume_mm3"] == pytest.approx(
        2 / 3 * np.pi * 17**3 * (1 - s**3), rel=0.03
    )
    # Upside down the outside touches: 2πR²(1 − cos 45°), less nothing, as only a point stands.
    below = table.row(table.nearest(np.array([0, 0, -1.0])))
    assert below["touch_a_mm2"] == pytest.approx(2 * np.pi * 400 * (1 - s), rel=0.02)


def test_an_l_bracket_lies_on_its_side_where_layers_count_and_shows_the_face_that_is_marked():
    """CALC: on a side it is 20 high and needs nothing; on a leg 40 high, nothing either."""
    asked = request(shapes.l_bracket(), lambda n, c: n[:, 1] < -0.9)
    table, pose = best(asked, QUICKEST.weights)
    assert abs(pose.up[1]) == pytest.approx(1)
    assert table.row(pose.index)["height_mm"] == pytest.approx(20)
    assert table.row(pose.index)["support_volume_mm3"] == 0
    for up in ((0, 0, 1), (1, 0, 0), (0, 1, 0), (0, -1, 0)):
        assert table.row(table.nearest(np.array(up)))["support_volume_mm3"] == 0
    # Class A is the side y = 0: face up it is touched by nothing, not even by the platform.
    _, shown = best(asked, SHOW_SIDE.weights)
    assert shown.up == pytest.approx((0, -1, 0), abs=1e-6)
    down = table.row(table.nearest(np.array([0, 1.0, 0])))
    assert down["platform_a_mm2"] == pytest.approx(75 * 5)


def test_a_wedge_stands_up_for_the_sake_of_its_slope():
    """CALC: on its base a slope of 20° has terraces 0.2 / tan 20° = 0.55 mm wide, on its back
    (slope at 70°) 0.07 mm; the road is 0.42 mm."""
    mesh = shapes.wedge(20.0)
    asked = request(mesh, lambda n, c: n[:, 2] > 0.5)
    table, pose = best(asked, {"clean_a": 100, "steps_a": 100, "off_platform": 100, "firm": 20})
    assert table.row(pose.index)["terrace_a_mm2"] == 0
    base = table.row(table.nearest(np.array([0, 0, 1.0])))
    slope = 20 * 40 / np.cos(np.radians(20))
    assert base["terrace_a_mm2"] == pytest.approx(slope)
    back = table.row(table.nearest(np.array([-1.0, 0, 0])))
    assert back["terrace_a_mm2"] == 0 == back["touch_a_mm2"]
    assert back["cusp_a_mm"] == pytest.approx(0.2 * np.cos(np.radians(70)))


def test_nothing_that_an_exhaustive_look_finds_is_better():
    """Every direction so many degrees apart by the full tier, against the checked best."""
    asked = request(shapes.of_solid(shapes.hanging_cone()), directions=642, limits=())
    asked = replace(asked, weights={"little_support": 1.0})
    table = searched(asked)
    *_, last = check_best(asked, table, keep=3)
    ours = last.table.column("support_volume_mm3")[last.table.checked].min()
    count = int(4 * np.pi / np.radians(EXHAUSTIVE_DEG) ** 2)
    every = searched(replace(asked, directions=count, refine=False))
    true = true_table(asked, every, np.arange(len(every)))
    assert ours <= true.column("support_volume_mm3").min() + 1e-6


def test_the_table_grows_and_rows_keep_their_place():
    asked = request(shapes.of_solid(shapes.hanging_post()))
    told = []
    progress = Progress(lambda fraction, doing: told.append(fraction))
    tables = list(search_directions(asked, progress))
    fractions = [table.fraction for table in tables]
    assert fractions == sorted(fractions)
    assert fractions[-1] == 1.0 == told[-1]
    assert told == sorted(told)
    first, last = tables[0], tables[-1]
    assert np.isfinite(first.column("touch_mm2")[: first.spread]).all()
    assert not first.complete.any()
    assert last.complete.all()
    assert len(last) > len(first)
    np.testing.assert_array_equal(last.directions[: len(first)], first.directions)
    assert not last.values.flags.writeable
    np.testing.assert_allclose(np.linalg.norm(last.directions, axis=1), 1, rtol=1e-9)


def test_the_same_question_has_the_same_answer():
    asked = request(shapes.of_solid(shapes.hanging_post()))
    one, other = searched(asked), searched(asked)
    np.testing.assert_array_equal(one.values, other.values)


def test_a_search_can_be_stopped_at_any_moment(monkeypatch):
    monkeypatch.setattr(direction_search, "_SHOWN_EVERY_S", -1.0)  # a table after every batch
    asked = request(shapes.of_solid(shapes.spiky_table()))
    whole = len(list(search_directions(asked)))
    for stop_at in range(whole):
        progress = Progress()
        looked = search_directions(asked, progress)
        for _ in range(stop_at):
            next(looked)
        progress.cancel()
        with pytest.raises(Cancelled):
            list(looked)
    abandoned = search_directions(asked)
    next(abandoned)
    abandoned.close()


def test_a_platform_cuts_what_is_too_large():
    """CALC: a bar of 100 × 10 × 10 stands 100 high, or lies 100 long, or across 80 × 80."""
    mesh = shapes.box([0, 0, 0], [100, 10, 10])
    asked = request(mesh, platform_mm=(80.0, 80.0, 50.0))
    table = searched(asked)
    assert table.row(table.nearest(np.array([1.0, 0, 0])))["over_mm"] == pytest.approx(50)
    assert table.row(table.nearest(np.array([0, 0, 1.0])))["over_mm"] == 0
    small = searched(replace(asked, platform_mm=(60.0, 60.0, 50.0)))
    assert small.row(small.nearest(np.array([0, 0, 1.0])))["over_mm"] == pytest.approx(
        110 / 2**0.5 - 60
    )
    assert {each.limit for each in rank_directions(small).in_the_way} == {"fits"}


def test_a_sealed_hollow_is_unreachable_in_every_direction():
    """Row 27 (CALC): 1000 mm³ beneath the hollow's ceiling; rays find all of it stuck."""
    table = searched(request(shapes.sealed_cavity()))
    upright = table.row(table.nearest(np.array([0, 0, 1.0])))
    assert upright["support_volume_mm3"] == pytest.approx(1000, rel=1e-3)
    assert upright["unreachable_mm3"] == pytest.approx(1000, rel=1e-3)
    stuck = table.column("unreachable_mm3") > 1
    hangs = table.column("support_volume_mm3") > 1
    assert stuck[hangs].sum() > 0.9 * hangs.sum()


def test_bridges_are_looked_for_where_the_part_lies_flat():
    """Row 25 (CALC): the tunnel's ceiling spans 20 mm."""
    asked = request(shapes.tunnel(), settings=PrintSettings(bridge_mm=20.0))
    upright = np.array([0, 0, 1.0])
    bridged, table = searched(asked), searched(replace(asked, settings=PrintSettings()))
    assert bridged.row(bridged.nearest(upright))["support_volume_mm3"] == pytest.approx(0, abs=1)
    assert bridged.row(bridged.nearest(upright))["touch_mm2"] == pytest.approx(0, abs=1)
    assert table.row(table.nearest(upright))["support_volume_mm3"] == pytest.approx(4000, rel=0.01)
