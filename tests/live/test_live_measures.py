"""Live numbers: quick while turning, full at rest, late answers dropped, nothing after closing."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QCoreApplication

from tests import shapes
from tests.waiting import LONG_MS
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.live import live_measures
from viewer.live.jobs import Jobs
from viewer.live.known_answers import MOST, KnownAnswers
from viewer.live.live_check import LiveCheck
from viewer.live.live_measures import LiveMeasures


@pytest.fixture
def live(qapp):
    document, jobs = Document(), Jobs()
    document.open(State.of_part(Part("post and cap", shapes.post_and_cap())))
    measures = LiveMeasures(document, jobs)
    yield document, measures
    measures.close()
    assert jobs.close()


def at_rest(qtbot, live_measures_):
    """Wait for the full numbers of the present state."""
    qtbot.waitUntil(
        lambda: live_measures_.latest is not None and live_measures_.latest.tier == "full",
        timeout=LONG_MS,
    )
    return live_measures_.latest


def test_full_numbers_arrive_and_equal_a_direct_call(live, qtbot):
    document, measures = live
    found = at_rest(qtbot, measures)
    state = document.state
    direct = measure_pose(
        prepare_part(state.part.mesh), state.face_classes, state.pose, state.settings, columns=True
    )
    assert found.touch_area_mm2 == direct.touch_area_mm2
    assert found.support_volume_mm3 == direct.support_volume_mm3
    assert found.columns is not None


def test_a_turn_gives_quick_numbers_first_then_full_ones(live, qtbot):
    document, measures = live
    at_rest(qtbot, measures)
    heard, pending = [], []
    measures.measured.connect(heard.append)
    measures.pending.connect(pending.append)
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: bool(heard) and heard[-1].tier == "full", timeout=LONG_MS)
    assert heard[0].tier == "quick"
    assert heard[-1].support_volume_mm3 == 0
    assert pending[0] is True
    assert pending[-1] is False


def test_numbers_of_another_job_go_at_once_and_those_of_another_mesh_of_this_one_wait(live, qtbot):
    document, measures = live
    first = at_rest(qtbot, measures)
    heard = []
    measures.measured.connect(heard.append)
    mended = State.of_part(Part("post and cap, mended", shapes.c_bracket()))
    document.replace_part(mended, "Mend the part")
    assert measures.latest is first  # shown as older than the part until there are new ones
    document.undo()
    assert measures.latest is not None
    assert None not in heard
    document.open(State.of_part(Part("cube", shapes.cube())))
    assert measures.latest is None
    assert heard[-1] is None
    assert at_rest(qtbot, measures).support_volume_mm3 == 0


def test_turning_on_and_on_never_queues_more_than_one_question(live, qtbot):
    document, measures = live
    at_rest(qtbot, measures)
    heard = []
    measures.measured.connect(heard.append)
    with document.gesture("Turn the part"):
        for degrees in range(1, 41):
            document.turn(Pose((np.sin(np.radians(degrees)), 0, np.cos(np.radians(degrees)))))
            qtbot.wait(4)
    qtbot.waitUntil(lambda: bool(heard) and heard[-1].tier == "full", timeout=LONG_MS)
    quick = [found for found in heard if found.tier == "quick"]
    assert 1 <= len(quick) <= 41
    assert sum(found.tier == "full" for found in heard) == 1
    # The last numbers belong to the last pose, not to one on the way.
    direct = measure_pose(
        measures.prepared, document.state.face_classes, document.state.pose, PrintSettings()
    )
    assert heard[-1].height_mm == pytest.approx(direct.height_mm)


def test_a_late_full_answer_to_an_old_question_is_dropped(live, qtbot, monkeypatch):
    document, measures = live
    at_rest(qtbot, measures)
    old_pose = document.state.pose

    def slow_for_the_old_pose(part, classes, pose, settings, **more):
        found = measure_pose(part, classes, pose, settings, **{**more, "progress": None})
        return replace(found, height_mm=-1.0) if pose == old_pose else found

    monkeypatch.setattr(live_measures, "measure_pose", slow_for_the_old_pose)
    heard = []
    measures.measured.connect(heard.append)
    measures._ask("full")  # a question about the old pose is now under way
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: bool(heard) and heard[-1].tier == "full", timeout=LONG_MS)
    assert all(found.height_mm > 0 for found in heard if found.tier == "full")


def test_pinning_measures_the_pinned_pose_and_keeps_it_while_turning(live, qtbot):
    document, measures = live
    at_rest(qtbot, measures)
    document.pin_pose(document.state.pose)
    qtbot.waitUntil(lambda: measures.pinned is not None, timeout=LONG_MS)
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: measures.latest.support_volume_mm3 == 0, timeout=LONG_MS)
    assert measures.pinned.support_volume_mm3 == pytest.approx(16000, rel=0.01)
    document.pin_pose(None)
    assert measures.pinned is None


def test_swapping_with_the_pinned_pose_brings_both_numbers_at_once_and_asks_nothing(live, qtbot):
    document, measures = live
    before = at_rest(qtbot, measures)
    document.pin_pose(document.state.pose)
    assert measures.pinned is before  # measured already
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: measures.latest.support_volume_mm3 == 0, timeout=LONG_MS)
    after = at_rest(qtbot, measures)
    heard, pending = [], []
    measures.measured.connect(heard.append)
    measures.pending.connect(pending.append)
    document.swap_with_pinned()
    assert heard == []  # not before everyone has heard of the swap
    QCoreApplication.processEvents()
    assert (heard, measures.pinned) == ([before], after)
    assert pending == [True, False]
    assert not measures._frame.isActive()
    assert not measures._still.isActive()
    document.swap_with_pinned()
    QCoreApplication.processEvents()
    assert (heard, measures.pinned) == ([before, after], before)
    assert all(job is None or not job.running for job in measures._running.values())


def test_what_was_known_of_another_process_or_part_is_not_shown(live, qtbot):
    document, measures = live
    at_rest(qtbot, measures)
    heard = []
    measures.measured.connect(heard.append)
    document.set_settings(PrintSettings(layer_mm=0.1))
    qtbot.waitUntil(lambda: bool(heard) and heard[-1].tier == "full", timeout=LONG_MS)
    assert (
        heard[-1].layers
        == 2
        * measures._known.find(
            document.state.with_(settings=PrintSettings(layer_mm=0.2)), document.state.pose
        ).layers
    )
    pose = document.state.pose
    assert measures._known.find(document.state, pose) is heard[-1]
    other = State.of_part(Part("cube", shapes.cube()))
    assert measures._known.find(other, pose) is None


def test_only_the_last_few_answers_are_kept():
    known, state = KnownAnswers(), State()
    poses = [Pose(spin_deg=float(k)) for k in range(MOST + 2)]
    for k, pose in enumerate(poses[:MOST]):
        known.remember(state, pose, k)
    assert known.find(state, poses[0]) == 0  # looked at again: the next to go is another one
    known.remember(state, poses[MOST], MOST)
    known.remember(state, poses[MOST + 1], MOST + 1)
    found = [known.find(state, pose) for pose in poses]
    assert found == [0, None, None, *range(3, MOST + 2)]


def test_the_check_follows_the_part_and_the_pose(qapp, qtbot):
    document, jobs = Document(), Jobs()
    check = LiveCheck(document, jobs)
    heard = []
    check.checked.connect(heard.append)
    cube = shapes.cube()
    holed = type(cube)(cube.vertices_mm, cube.faces[1:])
    document.open(State.of_part(Part("holed cube", holed)))
    assert heard == [None]
    qtbot.waitUntil(lambda: heard[-1] is not None, timeout=LONG_MS)
    assert heard[-1].open_edges == 3  # row 31, CALC
    before = len(heard)
    document.turn(Pose((1, 0, 0)))
    qtbot.waitUntil(lambda: len(heard) > before, timeout=LONG_MS)
    assert heard[-1].open_edges == 3
    check.close()
    assert jobs.close()
