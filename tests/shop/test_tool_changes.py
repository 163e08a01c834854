"""Tool changes against row 37 of the check values and against a slow count of the real sequence."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.shop.tool_changes import count_tool_changes

MODEL, SUPPORT = 0, 1
MIXED_40_OF_100 = np.column_stack([np.ones(100, bool), np.arange(100) < 40])


@pytest.mark.parametrize(
    ("order", "sequence", "expected"),
    [
        ("alternating", (MODEL, SUPPORT), 40),
        ("alternating", (SUPPORT, MODEL), 41),
        ("fixed", (SUPPORT, MODEL), 79),
    ],
)
def test_row_37(order, sequence, expected):
    """CALC: 100 layers, 1 to 40 mixed, the rest model."""
    changes = count_tool_changes(MIXED_40_OF_100, order, sequence)
    assert changes.count == expected
    assert changes.into.sum() == expected
    assert changes.by_layer[41:].sum() == 0


def counted_slowly(uses, order, sequence):
    """The whole sequence of tools, written out; a change is wherever two neighbours differ."""
    print_order: list[int] = []
    for layer in uses:
        tools = [tool for tool in sequence if layer[tool]]
        if order == "alternating" and print_order and print_order[-1] in tools:
            tools.remove(print_order[-1])
            tools.insert(0, print_order[-1])
        print_order += tools
    return [b for a, b in pairwise(print_order) if a != b]


LAYERS = st.lists(st.tuples(*[st.booleans()] * 3), min_size=1, max_size=60)
ORDERS = st.sampled_from(["alternating", "fixed"])
SEQUENCES = st.permutations([0, 1, 2])


@given(LAYERS, ORDERS, SEQUENCES)
def test_any_sequence_of_layers_is_counted_as_written_out(layers, order, sequence):
    expected = counted_slowly(layers, order, sequence)
    changes = count_tool_changes(np.array(layers), order, sequence)
    assert changes.count == len(expected)
    assert changes.into.tolist() == [expected.count(tool) for tool in range(3)]
    assert (changes.into_by_layer.sum(axis=1) == changes.by_layer).all()


@given(st.lists(st.tuples(*[st.booleans()] * 2), min_size=1, max_size=60), st.permutations([0, 1]))
def test_with_two_materials_alternating_never_changes_more_often_than_a_fixed_order(layers, order):
    """CALC: a layer that starts with what is loaded saves its first change."""
    uses = np.array(layers)
    alternating = count_tool_changes(uses, "alternating", order)
    fixed = count_tool_changes(uses, "fixed", order)
    assert alternating.count <= fixed.count


def test_one_material_is_never_changed():
    assert count_tool_changes(np.ones((50, 1), bool), "fixed").count == 0
    assert count_tool_changes(np.zeros((50, 2), bool), "fixed").count == 0
