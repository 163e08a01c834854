"""The answer to the unit question scales the part once and settles the doubt."""

from dataclasses import replace

import numpy as np
import pytest

from tests.shapes import cube
from viewer.document.cutting import CutPlan, cut_as_planned
from viewer.document.piece_state import specimen_piece
from viewer.document.state import Part, State
from viewer.geometry.closed_part import closed_part
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.specimens.slender_fins import slender_fins
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


def test_what_was_cut_off_the_part_grows_with_it_and_specimens_do_not():
    state = State.of_part(Part("cube", cube(0.8), unit_doubt="Inches?", suggested_unit="inch"))
    solid = closed_part(prepare_part(state.part.mesh))
    plan = CutPlan("box", (-0.2, -0.2, 0.1), (0.2, 0.2, 0.3))
    pieces = (*cut_as_planned(state, solid, plan).pieces, specimen_piece(slender_fins()))
    read = read_in_unit(state.with_(pieces=pieces), "inch")
    grown, specimen = read.pieces
    # 0.4 by 0.4 by 0.2 inches of 25.4 mm each (international inch of 1959).
    assert grown.volume_mm3 == pytest.approx(0.4 * 0.4 * 0.2 * 25.4**3)
    assert grown.size_mm == pytest.approx([10.16, 10.16, 5.08])
    assert "grew or shrank with the part" in grown.note
    assert specimen is pieces[1]
    # The same plan, grown too, cuts the same piece out of the grown part.
    solid = closed_part(prepare_part(read.part.mesh))
    assert cut_as_planned(read, solid, plan.scaled(25.4)).pieces[0].volume_mm3 == pytest.approx(
        grown.volume_mm3
    )
    back = read_in_unit(read, "mm").pieces[0]
    assert back.volume_mm3 == pytest.approx(pieces[0].volume_mm3)
    assert back.note == grown.note  # said once
