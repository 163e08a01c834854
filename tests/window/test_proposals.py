"""Which test pays, in stage Try: proposed in sentences, taken as pieces, saved on one platform."""

from types import SimpleNamespace

import numpy as np
import pytest
import trimesh
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from tests.shapes import post_and_cap, torus
from tests.waiting import LONG_MS
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_shop_column import own_shop, told  # noqa: F401
from tests.window.test_trials import at_rest, key, open_form
from tests.window.test_window_layout import nameless_in
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings


def proposed(opened):
    """Wait until it is known what pays for the present pose."""
    told(opened)
    at_rest(opened)
    desk = opened.window.trials
    opened.qtbot.waitUntil(
        lambda: desk.proposals.latest is not None and not desk.proposals.working, timeout=LONG_MS
    )
    QApplication.processEvents()
    return desk.proposals.latest


def test_what_pays_is_proposed_taken_and_saved_on_one_platform(opened, own_shop, tmp_path):  # noqa: F811
    opened.press_keys("Ctrl+4")
    box = opened.window.trials.tests
    assert "Open a part first" in box.state.text()
    mesh = post_and_cap()
    opened.show(mesh, name="post")
    assert "Mark the faces that show" in box.state.text()
    assert not opened.window.actions.by_key["take_best_test"].isEnabled()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), "post")
    known = proposed(opened)
    # Row 22: 800 mm² of level touch on class A, 10 mm out on each side: no span to bridge
    assert [each.point.kind for each in known.proposals] == ["touch_weight"]
    assert not box.state.isVisible()
    _is_not_asked_with_measures_of_other_faces(opened)
    (take,) = box.buttons
    assert take.isVisible()
    assert not nameless_in(opened.window)
    assert not tipless_in(opened.window)
    take.setFocus()
    key(take, Qt.Key.Key_Space)
    (piece,) = opened.state.pieces
    best = known.proposals[0].best
    assert piece.note == known.proposals[0].sentence
    assert piece.source == ("cut" if best.specimen is None else "specimen")
    opened.press_keys("Ctrl+Shift+P")
    assert len({each.name for each in opened.state.pieces}) == 2
    opened.press_keys("Ctrl+Z")
    opened.press_keys("Ctrl+Z")
    assert opened.state.pieces == ()
    opened.answers.path = tmp_path / "tests.3mf"
    opened.press_keys("Ctrl+Shift+F")
    opened.qtbot.waitUntil((tmp_path / "tests.3mf").exists, timeout=LONG_MS)
    opened.settle()
    scene = trimesh.load(tmp_path / "tests.3mf")
    volume = sum(body.volume for body in scene.geometry.values())
    assert volume == pytest.approx(piece.volume_mm3, rel=1e-5)
    assert scene.bounds[0, 2] == pytest.approx(0, abs=1e-6)
    form = open_form(opened)
    assert form.kind.currentData() == best.kind
    assert tuple(dict.fromkeys(r.step.value for r in form.rows.rows)) == best.values
    form.close()


def _is_not_asked_with_measures_of_other_faces(opened):
    """As for a moment after marks were cut finer, or that was undone."""
    proposals, live = opened.window.trials.proposals, opened.window.live_measures
    finer = prepare_part(torus())
    for latest, prepared in (
        (live.latest, finer),
        (
            measure_pose(finer, np.ones(len(finer.faces), np.uint8), Pose(), PrintSettings()),
            live.prepared,
        ),
    ):
        proposals._measures = SimpleNamespace(latest=latest, prepared=prepared)
        proposals._asked = None
        proposals._ask()
        assert not proposals.working
    proposals._measures = live


def test_another_pose_and_new_results_ask_anew_and_other_stages_do_not(opened, own_shop):  # noqa: F811
    mesh = post_and_cap()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), "post")
    told(opened)
    live = opened.window.trials.proposals
    assert live.latest is None
    assert not live.working
    opened.press_keys("Ctrl+4")
    first = proposed(opened)
    opened.press_keys("Ctrl+3")
    opened.press_keys("X")
    assert live.latest is None
    box = opened.window.trials.tests
    assert box.together.text() == "Working out which test pays …"
    assert not any(each.isEnabled() for each in box.buttons)  # in sight, and not to be taken
    told(opened)
    assert live.latest is None
    opened.press_keys("Ctrl+4")
    second = proposed(opened)
    assert [p.point for p in second.proposals] != [p.point for p in first.proposals]
