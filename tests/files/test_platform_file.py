"""Pieces on one platform, read back by an independent reader."""

import numpy as np
import pytest
import trimesh

from tests.files.made_files import box_state
from viewer.document.piece_state import specimen_piece
from viewer.errors import CannotWrite
from viewer.files.platform_file import placed_vertices_mm, write_platform
from viewer.geometry.specimens.catalogue import make_specimen
from viewer.live.live_proposals import footprint
from viewer.shop.packing import Placed, pack
from viewer.shop.shop import example_shop


def test_pieces_stand_apart_on_the_platform_with_their_volumes(tmp_path):
    machine = example_shop().machine("One nozzle, medium")
    kinds = ("inclination-fan", "pair-release", "bridge-ladder")
    pieces = [specimen_piece(make_specimen(kind)) for kind in kinds]
    places = pack([footprint(each) for each in pieces], machine)
    write_platform(pieces, places, tmp_path / "all.3mf")
    scene = trimesh.load(tmp_path / "all.3mf")
    assert len(scene.geometry) == sum(len(each.bodies) for each in pieces)
    volume = sum(body.volume for body in scene.geometry.values())
    assert volume == pytest.approx(sum(each.volume_mm3 for each in pieces), rel=1e-5)
    half = 0.5 * np.array(machine.build_volume_mm[:2])
    assert (np.abs(scene.bounds[:, :2]) <= half + 1e-6).all()
    assert scene.bounds[0, 2] == pytest.approx(0, abs=1e-6)
    boxes = []
    for piece, place in zip(pieces, places, strict=True):
        both = np.concatenate(placed_vertices_mm(piece, place))
        boxes.append((both.min(axis=0), both.max(axis=0)))
    for k, (low, high) in enumerate(boxes):
        for other_low, other_high in boxes[k + 1 :]:
            apart = np.maximum(other_low - high, low - other_high)[:2].max()
            assert apart >= 5.0 - 0.11  # sizes are counted in tenths


def test_a_quarter_turn_keeps_middle_and_shape():
    piece = specimen_piece(make_specimen("pair-release"))
    straight = np.concatenate(placed_vertices_mm(piece, Placed(10.0, -4.0, False)))
    turned = np.concatenate(placed_vertices_mm(piece, Placed(10.0, -4.0, True)))
    for each in (straight, turned):
        assert 0.5 * (each.min(axis=0) + each.max(axis=0))[:2] == pytest.approx([10.0, -4.0])
    assert np.ptp(turned, axis=0) == pytest.approx(np.ptp(straight, axis=0)[[1, 0, 2]])
    assert turned[:, 0] - 10 == pytest.approx(-(straight[:, 1] + 4))  # anticlockwise from above


def test_nothing_is_refused_in_a_sentence(tmp_path):
    assert box_state().pieces == ()
    with pytest.raises(CannotWrite, match="nothing to put on a platform"):
        write_platform((), (), tmp_path / "none.3mf")
