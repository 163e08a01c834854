"""The answer to the unit question scales the part once and settles the doubt."""

from dataclasses import replace

import numpy as np
import pytest

from tests.shapes import cube
from viewer.document.state import Part, State
from viewer.window.rescale import read_in_unit


@pytest.mark.parametrize(("unit", "factor"), [("inch", 25.4), ("m", 1000.0), ("mm", 1.0)])
def test_the_numbers_are_taken_in_the_unit(unit, factor):
    part = Part("cube", cube(0.8), unit_doubt="Inches?", suggested_unit="inch")
    state = State.of_part(part, np.ones(part.mesh.face_count, np.uint8))
    read = read_in_unit(state, unit)
    assert read.part.mesh.vertices_mm == pytest.approx(part.mesh.vertices_mm * factor)
    assert (read.part.unit, read.part.unit_doubt, read.part.suggested_unit) == (unit, "", "")
    assert read.face_classes is state.face_classes


def test_changing_ones_mind_goes_back_to_the_first_size():
    part = Part("cube", cube(0.8))
    there = read_in_unit(State.of_part(part), "inch")
    back = read_in_unit(there, "mm")
    assert back.part.mesh.vertices_mm == pytest.approx(part.mesh.vertices_mm, rel=1e-12)


def test_what_a_mended_part_was_received_as_is_scaled_with_it():
    part = replace(Part("cube", cube(0.8)), received=cube(0.7))
    read = read_in_unit(State.of_part(part), "inch")
    assert read.part.received.vertices_mm == pytest.approx(cube(0.7).vertices_mm * 25.4)
