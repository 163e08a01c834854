"""Layers of different heights against the published rule, closed forms and brute force."""

import itertools

import numpy as np
import pytest

from tests import shapes
from viewer.errors import RequestProblem
from viewer.geometry.adaptive_layers import (
    STEP_MM,
    _allowed,
    _fewest_layers,
    _largest_ahead,
    adapt_layers,
    rule_layer_mm,
)
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress


def adapted(mesh, cusp_mm, up=(0.0, 0.0, 1.0), show=None, **more):
    part = prepare_part(mesh)
    classes = np.full(mesh.face_count, CLASS_A, np.uint8)
    if show is not None:
        classes = np.where(show(part.normals), CLASS_A, 0).astype(np.uint8)
    return adapt_layers(part, classes, up, PrintSettings(), cusp_mm, **more)


def test_the_rule():
    """Row 9 (rule READ): Cmax 0.15, tmax 0.4: n_z 0.5 → 0.30; n_z 0.3 → 0.40 (clamped)."""
    assert rule_layer_mm(0.5, 0.15, 0.05, 0.4) == pytest.approx(0.30)
    assert rule_layer_mm(-0.3, 0.15, 0.05, 0.4) == pytest.approx(0.40)
    assert rule_layer_mm(1.0, 0.01, 0.05, 0.4) == pytest.approx(0.05)
    assert rule_layer_mm(0.0, 0.15, 0.05, 0.4) == pytest.approx(0.40)


def test_a_cone_has_layers_of_one_height():
    """CALC: r 10, h 20, n_z = 1/√5 = 0.447; cusp 0.1 allows 0.2236, on the grid 0.22: 91 layers."""
    found = adapted(shapes.cone(10, 20), 0.1)
    assert found.optimal.count == 91 == found.by_rule.count
    assert found.even.count == 100
    assert found.more_layers == -9
    ((start, end, layer, count),) = found.by_rule.table()
    assert (start, layer, count) == pytest.approx((0, 0.22, 91))
    assert end >= 20
    assert found.optimal.largest_cusp_mm <= 0.1
    assert found.unmet_mm == 0


def test_upright_walls_take_the_thickest_layers_and_hidden_faces_set_no_limit():
    box = adapted(shapes.box([0, 0, 0], [10, 10, 16]), 0.05)
    assert box.optimal.count == 50  # 16 / 0.32
    ball = shapes.sphere(8.0, 4)
    hidden = adapted(ball, 0.05, show=lambda n: n[:, 2] > 2)
    assert hidden.optimal.count == 50
    assert hidden.optimal.largest_cusp_mm == 0


def test_a_ball_is_thin_at_its_poles_and_thick_at_its_waist():
    found = adapted(shapes.sphere(8.0, 5), 0.1)
    layers, tops = found.optimal.layers_mm, np.cumsum(found.optimal.layers_mm)
    waist = np.abs(tops - 8) < 1
    poles = np.abs(tops - 8) > 7.5
    assert layers[waist].mean() > 2.5 * layers[poles].mean()
    assert found.optimal.largest_cusp_mm <= 0.1 * (1 + 1e-5)
    assert found.by_rule.largest_cusp_mm <= 0.1 * (1 + 1e-5)
    assert found.optimal.count <= found.by_rule.count
    assert found.optimal.visible_area_mm2.A < found.even.visible_area_mm2.A
    runs = found.optimal.table()
    assert sum(run.layers for run in runs) == found.optimal.count
    assert all(a.to_mm == pytest.approx(b.from_mm) for a, b in itertools.pairwise(runs))
    assert found.optimal.layers_mm.sum() == pytest.approx(16, abs=0.33)


def test_where_even_the_thinnest_layer_is_too_thick_it_says_so():
    """CALC: a slope of 20° has n_z 0.94; cusp 0.05 needs 0.053 mm, thinner than 0.08."""
    wedge = shapes.wedge(20.0)
    found = adapted(wedge, 0.05, show=lambda n: n[:, 2] > 0.5)
    height = 40 * np.tan(np.radians(20))
    assert found.unmet_mm == pytest.approx(height, abs=STEP_MM)
    assert found.optimal.count == np.ceil(height / 0.08)
    even, thin = found.even.visible_area_mm2.A, found.optimal.visible_area_mm2.A
    assert even == pytest.approx(800 / np.cos(np.radians(20)))  # 0.55 mm terraces, row rule (CALC)
    assert thin == 0  # 0.08 / tan 20° = 0.22 mm


@pytest.mark.parametrize("seed", range(12))
def test_no_stack_on_the_grid_has_fewer_layers_or_as_many_with_less_error(seed):
    """Every stack of a short part, one by one."""
    draw = np.random.default_rng(seed)
    steps, options = 11, np.arange(2, 5)
    steepest, raised = draw.uniform(0.2, 1.0, steps), draw.uniform(0, 5, steps)
    allowed = _allowed(steepest, options, 0.04)
    best = _fewest_layers(allowed, options, raised, Progress())

    def price(stack):
        at, error = 0, 0.0
        for count in stack:
            if at >= steps or not allowed[count - options[0], at]:
                return None
            error += raised[at : at + count].sum() * count
            at += count
        return (len(stack), error) if at >= steps else None

    prices = [
        price(stack)
        for length in range(1, 7)
        for stack in itertools.product(options, repeat=length)
    ]
    least = min(p for p in prices if p is not None)
    assert price(tuple(best)) == (least[0], pytest.approx(least[1]))


def test_the_largest_ahead_is_the_largest_of_a_window():
    values = np.random.default_rng(2).normal(size=40)
    for count in range(1, 12):
        by_hand = [values[i : i + count].max() for i in range(40)]
        np.testing.assert_array_equal(_largest_ahead(values, count), by_hand)


@pytest.mark.parametrize("wrong", [{"cusp_mm": 0}, {"cusp_mm": 0.1, "thinnest_mm": 0.5}])
def test_heights_that_make_no_sense(wrong):
    with pytest.raises(RequestProblem):
        adapted(shapes.cube(), **wrong)
