"""Every direction in the window: search, map, sliders, results and spin, by mouse and keys."""

from dataclasses import replace
from functools import partial
from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QStyle, QStyleOptionViewItem

from tests import shapes
from tests.waiting import LONG_MS
from viewer.document.state import Part, State
from viewer.geometry import direction_discs
from viewer.geometry.platform_rectangle import smallest_rectangle
from viewer.geometry.pose import posed_vertices_mm, rotation
from viewer.geometry.sphere_directions import angles_deg, icosphere, spacing_deg
from viewer.geometry.spin_wish import SpinRule, SpinWish
from viewer.geometry.what_matters import WhatMatters
from viewer.live import live_search
from viewer.scene import globe_view
from viewer.window.stages import Stage

LEFT = Qt.MouseButton.LeftButton
SUBDIVISIONS = 3
DIRECTIONS = 10 * 4**SUBDIVISIONS + 2
APART_DEG = spacing_deg(DIRECTIONS)  # no direction is farther than this from one of them
_ANSWERS: dict = {}


@pytest.fixture(autouse=True)
def searched_once(monkeypatch):
    """The same question is searched once a run; the next test that asks it gets that answer.

    Fewer directions are searched, and of the best fewer measured in full than a user gets, as a
    window needs no more to be tested.
    """
    search, know_more = live_search._search, live_search._know_more
    monkeypatch.setattr(live_search, "KEPT", 3)
    fewer = partial(live_search.SearchRequest, directions=DIRECTIONS)
    monkeypatch.setattr(live_search, "SearchRequest", fewer)
    monkeypatch.setattr(direction_discs, "USUAL_SUBDIVISIONS", SUBDIVISIONS)
    direction_discs.pixels_of.cache_clear()
    monkeypatch.setattr(globe_view, "icosphere", partial(icosphere, SUBDIVISIONS))
    monkeypatch.setattr(live_search, "SETTLED_MS", 50)
    monkeypatch.setattr(live_search, "check_best", partial(live_search.check_best, by_score=2))

    def key(request):
        mesh = request.part.mesh
        return mesh.vertices_mm.tobytes(), request.face_classes.tobytes()

    def search_once(wanted, tell, progress):
        if key(wanted) not in _ANSWERS:
            _ANSWERS[key(wanted)] = search(wanted, tell, progress)
        request, table = _ANSWERS[key(wanted)]
        tell(table)
        return replace(request, part=wanted.part), table

    def know_once(request, table, closer, choice, tell, progress):
        if choice is not None:  # another one in the shop: worked out anew
            return know_more(request, table, closer, choice, tell, progress)
        asked = ("more", *key(request), tuple(request.weights.values()), request.limits)
        if asked not in _ANSWERS:
            told = []
            know_more(request, table, closer, None, lambda *known: told.append(known), progress)
            _ANSWERS[asked] = told
        for known in _ANSWERS[asked]:
            tell(*known)
        return request

    monkeypatch.setattr(live_search, "_search", search_once)
    monkeypatch.setattr(live_search, "_know_more", know_once)
    yield
    direction_discs.pixels_of.cache_clear()


@pytest.fixture
def searched(opened, tmp_path, monkeypatch):
    """A bracket whose outer corner shows, every direction searched and the best looked at."""
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path))
    mesh = shapes.l_bracket()
    classes = np.where(mesh.face_normals[:, 0] < -0.9, 1, 0).astype(np.uint8)
    opened.show(mesh, classes, "bracket")
    opened.press_keys("Shift+S")
    found(opened)
    return opened


def searching(opened):
    return opened.window.searching


def found(opened):
    live = searching(opened).live
    opened.qtbot.waitUntil(lambda: live.complete and not live.looking_closer, timeout=LONG_MS)
    QApplication.processEvents()


def the_map(opened):
    return searching(opened).pane.map


def mouse(widget, kind, place, button=Qt.MouseButton.NoButton):
    where = QPointF(place)
    pressed = button if kind == QEvent.Type.MouseButtonPress else Qt.MouseButton.NoButton
    released = button if kind == QEvent.Type.MouseButtonRelease else pressed
    held = button if kind != QEvent.Type.MouseButtonRelease else Qt.MouseButton.NoButton
    event = QMouseEvent(
        kind, where, QPointF(widget.mapToGlobal(QPoint(round(where.x()), round(where.y())))),
        released, held, Qt.KeyboardModifier.NoModifier,
    )  # fmt: skip
    QApplication.sendEvent(widget, event)
    QApplication.processEvents()


def wheel(widget, notches):
    place = QPointF(widget.rect().center())
    event = QWheelEvent(
        place, QPointF(widget.mapToGlobal(place.toPoint())), QPoint(0, 0), QPoint(0, notches),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase,
        False,
    )  # fmt: skip
    QApplication.sendEvent(widget, event)
    QApplication.processEvents()


def hover(opened, up):
    the = the_map(opened)
    mouse(the, QEvent.Type.MouseMove, the.place_of(np.asarray(up, float)))


def click(opened, up):
    the = the_map(opened)
    place = the.place_of(np.asarray(up, float)).toPoint()
    QTest.mouseClick(the, Qt.MouseButton.LeftButton, pos=place)
    QApplication.processEvents()


def undo_steps(opened):
    return len(opened.document._history._past)


def test_a_key_searches_and_the_map_takes_the_place_of_the_height_strip(opened):
    mesh = shapes.l_bracket()
    opened.show(mesh, name="bracket")
    pane = searching(opened).pane
    assert not pane.isVisible()
    opened.press_keys("Shift+S")
    assert opened.window.choices.stage is Stage.TURN
    assert pane.isVisible()
    assert not opened.window.strip.isVisible()
    assert opened.window.view.height() >= 250  # the scene stays in sight
    assert pane.stop_button.isVisible()
    found(opened)
    assert pane.search_button.isVisible()
    assert len(searching(opened).ranking.poses) > 1
    assert pane.results.rows.count() == len(searching(opened).ranking.poses)
    opened.press_keys("Esc")
    assert not pane.isVisible()
    assert opened.window.strip.isVisible()
    opened.press_keys("Shift+D")
    assert pane.isVisible()
    opened.press_keys("Ctrl+2")  # another stage
    assert not pane.isVisible()
    opened.press_keys("Ctrl+3")
    assert pane.isVisible()


def test_escape_stops_the_search_first(opened):
    opened.show(shapes.post_and_cap())
    opened.press_keys("Shift+S")
    assert searching(opened).live.running
    opened.press_keys("Esc")
    assert not searching(opened).live.running
    assert searching(opened).pane.isVisible()


def test_hovering_shows_numbers_and_a_ghost_and_no_step(searched):
    before, steps = searched.state.pose, undo_steps(searched)
    numbers = searching(searched).pane.numbers
    hover(searched, (0, 0, -1))
    assert searched.window.view.scene.ghost_shown
    height = float(np.ptp(searched.state.part.mesh.vertices_mm[:, 2]))
    assert f"height {height:.1f} mm" in numbers.text()
    first = numbers.text()
    hover(searched, (0.6, 0.0, 0.8))
    assert numbers.text() != first
    assert searched.state.pose == before
    assert undo_steps(searched) == steps
    the = the_map(searched)
    QApplication.sendEvent(the, QEvent(QEvent.Type.Leave))
    assert not searched.window.view.scene.ghost_shown


def test_a_click_turns_the_part_there_as_one_step(searched):
    steps, up = undo_steps(searched), np.array([0.36, 0.48, -0.8])
    click(searched, up)
    found_up = np.array(searched.state.pose.up)
    assert angles_deg(found_up[None], up)[0] < APART_DEG
    table = searching(searched).ranking.table
    assert angles_deg(table.directions, found_up).min() < 1e-6  # one whose numbers are known
    assert undo_steps(searched) == steps + 1
    searched.press_keys("Ctrl+Z")
    assert searched.state.pose.up == (0, 0, 1)


def test_a_drag_walks_continuously_and_is_one_step(searched):
    the, steps = the_map(searched), undo_steps(searched)
    start = the.place_of(np.array([0.0, 0.0, 1.0]))
    mouse(the, QEvent.Type.MouseButtonPress, start, Qt.MouseButton.LeftButton)
    seen = []
    for k in range(1, 9):
        mouse(
            the, QEvent.Type.MouseMove, start + QPointF(4.0 * k, 3.0 * k), Qt.MouseButton.LeftButton
        )
        seen.append(searched.state.pose)
    mouse(the, QEvent.Type.MouseButtonRelease, start + QPointF(32, 24), Qt.MouseButton.LeftButton)
    assert len({pose.up for pose in seen}) == 8
    steps_deg = [angles_deg(np.array([a.up]), np.array(b.up))[0] for a, b in pairwise(seen)]
    assert max(steps_deg) < 8
    assert undo_steps(searched) == steps + 1
    assert searched.document.undo_label == "Walk over the direction map"
    searched.press_keys("Ctrl+Z")
    assert searched.state.pose.up == (0, 0, 1)


def test_escape_breaks_a_walk_off(searched):
    the, before = the_map(searched), searched.state
    start = the.place_of(np.array([0.0, 0.0, 1.0]))
    mouse(the, QEvent.Type.MouseButtonPress, start, Qt.MouseButton.LeftButton)
    mouse(the, QEvent.Type.MouseMove, start + QPointF(20, 5), Qt.MouseButton.LeftButton)
    assert searched.state.pose != before.pose
    searched.press_keys("Esc")
    assert searched.state.pose == before.pose
    mouse(the, QEvent.Type.MouseButtonRelease, start + QPointF(20, 5), Qt.MouseButton.LeftButton)
    assert searched.state.pose == before.pose


def test_arrow_keys_walk_a_cross_and_return_turns_there(searched):
    the = the_map(searched)
    the.setFocus()
    for _ in range(30):  # over the rim onto the other disc
        QTest.keyClick(the, Qt.Key.Key_Right)
    assert the.cross[2] < -0.2
    assert searched.window.view.scene.ghost_shown
    assert searched.state.pose.up == (0, 0, 1)
    cross = the.cross
    QTest.keyClick(the, Qt.Key.Key_Return)
    assert angles_deg(np.array([searched.state.pose.up]), cross)[0] < APART_DEG
    QTest.keyClick(the, Qt.Key.Key_Escape)
    assert the.cross is None
    assert not searched.window.view.scene.ghost_shown


def test_sliders_rank_anew_at_once_without_searching(searched):
    pane, live = searching(searched).pane, searching(searched).live
    directions = live.table.directions
    before = searching(searched).ranking
    pane.tabs.setCurrentIndex(1)
    QApplication.processEvents()
    searched.press(pane.aims.presets["quickest"])
    after = searching(searched).ranking
    assert after is not before
    assert not live.running
    assert pane.aims.sliders["quick"].value() == 100
    times_min = live.table.column("time_min")
    best = after.poses[0].index
    assert times_min[best] < 1.1 * times_min[after.allowed].min()
    slider = pane.aims.sliders["quick"]
    slider.setFocus()
    QTest.keyClick(slider, Qt.Key.Key_Left)
    assert searching(searched).choices.weights["quick"] == 95
    assert not any(preset.isChecked() for preset in pane.aims.presets.values())
    assert np.array_equal(live.table.directions[: len(directions)], directions)


def test_a_slider_is_one_step_to_undo_however_far_it_is_dragged(opened):
    opened.show(shapes.l_bracket(), name="bracket")
    opened.press_keys("Shift+D")
    pane, document = searching(opened).pane, opened.document
    pane.tabs.setCurrentIndex(1)
    QApplication.processEvents()
    slider, before = pane.aims.sliders["little_support"], opened.state.what_matters
    start = QPointF(slider.width() * slider.value() / 100, slider.height() / 2)
    mouse(slider, QEvent.Type.MouseButtonPress, start, Qt.MouseButton.LeftButton)
    for k in range(1, 6):
        mouse(
            slider, QEvent.Type.MouseMove, start + QPointF(8.0 * k, 0.0), Qt.MouseButton.LeftButton
        )
        assert opened.state.what_matters.weights["little_support"] == slider.value()
    mouse(slider, QEvent.Type.MouseButtonRelease, start + QPointF(40.0, 0.0), LEFT)
    dragged = opened.state.what_matters
    assert dragged.weights["little_support"] > before.weights["little_support"] + 10
    assert undo_steps(opened) == 1
    assert document.modified
    for _ in range(3):  # a key that is held, and one that is pressed again
        QTest.keyPress(slider, Qt.Key.Key_Right)
    QTest.keyRelease(slider, Qt.Key.Key_Right)
    assert undo_steps(opened) == 2
    wheel(slider, -120)  # the page scrolls, nothing else
    assert opened.state.what_matters.weights["little_support"] == slider.value()
    assert undo_steps(opened) == 2
    QTest.mouseClick(pane.aims.limits["stands"], LEFT, pos=QPoint(8, 8))
    assert "stands" not in opened.state.what_matters.limits
    assert undo_steps(opened) == 3
    opened.press_keys("Ctrl+Z")
    assert pane.aims.limits["stands"].isChecked()
    opened.press_keys("Ctrl+Z")
    assert opened.state.what_matters == dragged
    assert slider.value() == dragged.weights["little_support"]
    opened.press_keys("Ctrl+Z")
    assert opened.state.what_matters == before
    assert slider.value() == before.weights["little_support"]
    assert not document.modified
    opened.press_keys("Ctrl+Shift+Z")
    assert slider.value() == dragged.weights["little_support"]


def test_a_job_brings_its_sliders_and_limits_with_it(opened):
    mesh = shapes.cube()
    matters = WhatMatters.of({"low": 80.0}, ["fits"])
    opened.document.open(State.of_part(Part("cube", mesh), what_matters=matters))
    pane = searching(opened).pane
    assert {key: slider.value() for key, slider in pane.aims.sliders.items() if slider.value()} == {
        "low": 80
    }
    assert [key for key, box in pane.aims.limits.items() if box.isChecked()] == ["fits"]
    assert undo_steps(opened) == 0
    opened.document.open(State.of_part(Part("cube", mesh)))
    assert pane.aims.presets["show-side"].isChecked()
    assert all(box.isChecked() for box in pane.aims.limits.values())


def test_a_limit_in_the_way_is_named_with_by_how_much(opened, tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path))
    mesh = shapes.sphere(10, 2)
    opened.show(mesh, np.ones(mesh.face_count, np.uint8), "ball")
    opened.press_keys("Shift+S")
    found(opened)
    pane = searching(opened).pane
    assert "class A in every direction" in pane.results.state.text()
    assert "mm²" in pane.results.state.text()
    assert "Nothing is within every limit" in pane.results.state.text()
    assert "what comes nearest" in pane.results.state.text()
    assert not searching(opened).ranking.poses
    assert "no direction at all has less than" in pane.results.bound.text()
    pane.tabs.setCurrentIndex(1)
    QApplication.processEvents()
    for key in ("no-touch-on-a", "stands"):
        QTest.mouseClick(
            pane.aims.limits[key], Qt.MouseButton.LeftButton, pos=QPoint(8, 8)
        )  # fmt: skip
    assert "no-touch-on-a" not in searching(opened).choices.limits
    assert "Nothing is within" not in pane.results.state.text()
    assert searching(opened).ranking.poses


def test_results_say_why_and_how_sure_and_a_click_goes_there(searched):
    pane = searching(searched).pane
    rows = pane.results.rows
    first = rows.item(0).text()
    assert first.startswith("1. Score")
    assert "support" in first
    assert "Sure:" in first or "On a knife’s edge" in first
    QTest.mouseClick(
        rows.viewport(), Qt.MouseButton.LeftButton, pos=rows.visualItemRect(rows.item(0)).center()
    )  # fmt: skip
    best = searching(searched).ranking.poses[0]
    assert angles_deg(np.array([searched.state.pose.up]), np.array(best.up))[0] < 1e-6
    assert searched.document.undo_label == "Go to result 1"
    searched.press_keys("Ctrl+PageDown")
    second = searching(searched).ranking.poses[1]
    assert angles_deg(np.array([searched.state.pose.up]), np.array(second.up))[0] < 1e-6
    searched.press_keys("Ctrl+PageUp")
    assert angles_deg(np.array([searched.state.pose.up]), np.array(best.up))[0] < 1e-6


def test_a_result_is_kept_with_its_sentence_as_the_note(searched):
    results = searching(searched).pane.results
    results.rows.setCurrentRow(1)
    pose = searched.state.pose
    searched.press(results.keep_button)
    kept = searched.state.kept_poses
    assert [one.name for one in kept] == ["Result 2"]
    assert kept[0].note == searching(searched).ranking.poses[1].why
    assert searched.state.pose == pose  # keeping goes nowhere
    assert not results.keep_button.isEnabled()


def box_of(rows, place):
    """The middle of the box of a row."""
    style, index = rows.style(), rows.model().index(place, 0)
    option = QStyleOptionViewItem()
    rows.initViewItemOption(option)
    option.rect = rows.visualRect(index)
    option.features |= QStyleOptionViewItem.ViewItemFeature.HasCheckIndicator
    return style.subElementRect(
        QStyle.SubElement.SE_ItemViewItemCheckIndicator, option, rows
    ).center()  # fmt: skip


def test_ticked_results_are_compared_and_kept_together(searched):
    window, results = searched.window, searching(searched).pane.results
    poses, before = searching(searched).ranking.poses, searched.state.pose
    steps = undo_steps(searched)
    assert not results.compare_button.isEnabled()
    searched.press_keys("Shift+C")
    assert "Tick two to four" in window.notice.sentence
    rows = results.rows
    QTest.mouseClick(rows.viewport(), LEFT, pos=box_of(rows, 0))
    assert rows.item(0).checkState() is Qt.CheckState.Checked
    rows.setFocus()
    rows.setCurrentRow(1)
    QTest.keyClick(rows, Qt.Key.Key_Space)
    assert rows.item(1).checkState() is Qt.CheckState.Checked
    assert searched.state.pose == before  # a tick goes nowhere
    assert undo_steps(searched) == steps
    QTest.mouseClick(
        rows.viewport(), LEFT, pos=rows.visualItemRect(rows.item(0)).center()
    )  # fmt: skip
    assert searched.state.pose.up == pytest.approx(poses[0].up)  # the words still do
    searched.press_keys("Ctrl+Z")
    searched.press(results.compare_button)
    comparing = window.comparing
    assert comparing.on
    assert not searching(searched).pane.isVisible()
    assert [one.up for one in comparing.chosen] == [
        pytest.approx(poses[0].up), pytest.approx(poses[1].up)
    ]  # fmt: skip
    assert [caption.title for caption in comparing.captions()] == ["1  Result 1", "2  Result 2"]
    picks = window.compare_box.picks
    assert [picks[0].itemText(k) for k in range(picks[0].count())] == [
        "Present pose", "Result 1", "Result 2"
    ]  # fmt: skip
    searched.qtbot.waitUntil(
        lambda: all(known is not None and known.tier == "full" for _, known in comparing.posed()),
        timeout=LONG_MS,
    )
    table = searching(searched).ranking.table
    for pose, (_, known) in zip(poses, comparing.posed(), strict=False):
        assert known.height_mm == pytest.approx(table.row(pose.index)["height_mm"], rel=1e-3)
    assert searched.state.kept_poses == ()
    searched.press_keys("Esc")
    assert not comparing.on
    assert searching(searched).pane.isVisible()
    searched.press_keys("Ctrl+Shift+R")
    assert [one.name for one in searched.state.kept_poses] == ["Result 1", "Result 2"]
    assert undo_steps(searched) == steps + 1
    assert not results.keep_button.isEnabled()
    searched.press_keys("Shift+C")  # kept ones are compared as what they are
    assert [caption.title for caption in comparing.captions()] == ["1  Result 1", "2  Result 2"]
    assert picks[0].count() == 3
    searched.press_keys("Esc")
    searched.press_keys("Ctrl+Z")
    assert searched.state.kept_poses == ()
    for _ in range(2):  # a tick follows its direction when the order changes
        searching(searched).choices.set_weights({"low": 100.0, "clean_a": 0.0, "steps_a": 0.0})
        ticked = [
            place for place in range(rows.count())
            if rows.item(place).checkState() is Qt.CheckState.Checked
        ]  # fmt: skip
        offered = searching(searched).offered
        assert {offered[place].up for place in ticked} <= {poses[0].up, poses[1].up}


def test_the_spin_is_that_of_the_least_rectangle_unless_it_is_fixed(searched):
    def seen_from_above():
        return posed_vertices_mm(searched.state.part.mesh.vertices_mm, searched.state.pose)[:, :2]

    searching(searched).go_to(0)
    least = smallest_rectangle(seen_from_above())
    size = np.ptp(seen_from_above(), axis=0)
    assert size[0] * size[1] == pytest.approx(least.area_mm2, rel=1e-6)
    searched.press_keys("Z")
    searched.press_keys("Shift+T")
    spin = searched.state.pose.spin_deg
    searching(searched).go_to(1)
    assert searched.state.pose.spin_deg == pytest.approx(spin)
    fields = searched.window.panels[Stage.TURN]._angles
    fields[2].setValue(33.0)
    searched.press_keys("Shift+R")
    least = smallest_rectangle(seen_from_above())
    size = np.ptp(seen_from_above(), axis=0)
    assert size[0] * size[1] == pytest.approx(least.area_mm2, rel=1e-6)
    assert searched.document.undo_label == "Least platform rectangle"


def pick_rule(opened, rule):
    """Choose in the box as a user does with the keys."""
    picked = searching(opened).pane.spin_rule
    picked.setFocus()
    row = picked.findData(rule)
    while picked.currentIndex() != row:
        down = picked.currentIndex() < row
        QTest.keyClick(picked, Qt.Key.Key_Down if down else Qt.Key.Key_Up)


def seen_from_behind_mm2(opened):
    """Of class A, by the posed normals: CALC from the definition in `seam_and_axes`."""
    state = opened.state
    normals = state.part.mesh.face_normals @ rotation(state.pose).T
    areas = state.part.mesh.face_areas_mm2[state.face_classes == 1]
    return float((areas * np.maximum(normals[state.face_classes == 1, 1], 0.0)).sum())


def test_the_spin_follows_the_seam_or_the_axes_where_the_user_says_so(searched):
    window, pane = searched.window, searching(searched).pane
    searched.press_keys("Shift+A")
    assert searched.document.undo_label == "Seam away from class A"
    assert seen_from_behind_mm2(searched) == pytest.approx(0.0, abs=1e-6)
    back = rotation(searched.state.pose).T @ np.array([0.0, 1.0, 0.0])
    assert back == pytest.approx((1.0, 0.0, 0.0), abs=0.02)  # class A looks towards −x
    assert "Seam at the back: 0 mm² of class A" in pane.results.spin_words.text()
    searched.press_keys("Ctrl+Z")
    worst = seen_from_behind_mm2(searched)
    assert worst >= 0.0
    steps = undo_steps(searched)
    pick_rule(searched, SpinRule.WALLS)
    assert searched.state.spin_wish == SpinWish(SpinRule.WALLS)
    assert undo_steps(searched) == steps + 3  # each rule that the keys passed
    searched.press_keys("Ctrl+Z")
    assert searched.state.spin_wish.rule is SpinRule.SEAM_SIDE
    assert pane.spin_rule.currentData() is SpinRule.SEAM_SIDE
    searched.press_keys("Ctrl+Shift+Z")
    assert pane.spin_rule.currentData() is SpinRule.WALLS
    fields = window.panels[Stage.TURN]._angles
    fields[2].setValue(33.0)
    assert "Along X or Y: 0 % of its walls" in pane.results.spin_words.text()
    searched.press_keys("Shift+W")
    assert "Along X or Y: 100 % of its walls" in pane.results.spin_words.text()
    fields[2].setValue(33.0)
    place = next(k for k, one in enumerate(searching(searched).offered) if abs(one.up[0]) < 0.5)
    searching(searched).go_to(place)
    shown = searching(searched).spinning.shown()
    assert "100 % of its walls" in shown.words(searched.state.pose)
    pick_rule(searched, SpinRule.KEEP)
    assert window.actions.by_key["keep_spin"].isChecked()
    spin = searched.state.pose.spin_deg
    searching(searched).go_to(0 if place else 1)
    assert searched.state.pose.spin_deg == pytest.approx(spin)
    searched.press_keys("Shift+T")
    assert pane.spin_rule.currentData() is SpinRule.RECTANGLE
    assert searched.document.undo_label == "Change what decides the spin"


def test_the_side_in_view_comes_to_the_back(searched):
    searched.press_keys("Ctrl+1")
    searched.press_keys("Ctrl+3")
    searched.press_keys("Alt+4")  # from the right, towards −x
    seen = -np.array(searched.window.view.eye().towards)
    searched.press_keys("Shift+B")
    at = rotation(searched.state.pose) @ seen
    assert np.hypot(*(at - [0.0, 1.0, 0.0])[:2]) < 0.2
    assert at[1] > 0.9
    assert searched.state.spin_wish == SpinWish()
    pick_rule(searched, SpinRule.SEAM_SIDE)  # for every direction gone to, in the job too
    side = rotation(searched.state.pose) @ np.array(searched.state.spin_wish.side)
    assert np.hypot(side[0], side[2]) < 0.2  # what was in view then lies at the back now
    assert side[1] > 0.9
    before = searched.state.pose
    searched.press_keys("Alt+5")  # from above
    searched.press_keys("Shift+B")
    assert searched.state.pose == before
    assert "from above or below" in searched.window.notice.sentence


def test_other_marks_search_anew_and_the_map_fades_meanwhile(searched):
    live = searching(searched).live
    searched.document.set_classes(np.ones_like(searched.state.face_classes), "all A")
    assert live.outdated
    assert "Older than the marks" in searching(searched).pane.results.state.text()
    found(searched)
    assert "Older" not in searching(searched).pane.results.state.text()
    assert searching(searched).ranking.table.area_mm2.unmarked == 0


def test_the_map_is_coloured_by_any_measure_and_its_pixels_tell_best_from_worst(searched):
    pane, the = searching(searched).pane, the_map(searched)
    row = pane.colouring.findData("height_mm")
    pane.colouring.setFocus()
    pane.colouring.setCurrentIndex(row)
    pane.colouring.activated.emit(row)
    table = searching(searched).ranking.table
    spread = slice(0, table.spread)
    heights = table.column("height_mm")[spread]
    for key in ("stands", "no-touch-on-a", "fits", "no-unreachable"):  # no hatch over the pixels
        searching(searched).choices.set_limit(key, False)
    QApplication.processEvents()
    image = the.grab().toImage()
    marked = np.vstack(
        [
            table.directions[table.flat_standing],
            [pose.up for pose in searching(searched).ranking.poses],
        ]
    )
    clear = np.array(
        [
            angles_deg(marked, up).min() > 12 and 0.15 < abs(up[2]) < 0.9
            for up in table.directions[spread]
        ]
    )
    light = []
    order = np.flatnonzero(clear)[np.argsort(heights[clear])]
    for rows in (order[:10], order[-10:]):
        colours = [image.pixelColor(the.place_of(table.directions[k]).toPoint()) for k in rows]
        light.append(np.mean([colour.lightnessF() for colour in colours]))
    assert light[0] > light[1] + 0.1  # pale where it is lowest


def test_the_pane_is_made_higher_by_drag_and_keys_and_leaves_the_scene_room(searched):
    pane = searching(searched).pane
    before = pane.height()
    pane.grip.setFocus()
    QTest.keyClick(pane.grip, Qt.Key.Key_Up)
    assert pane.height() == before + 20
    grip = pane.grip
    middle = QPointF(grip.rect().center())
    mouse(grip, QEvent.Type.MouseButtonPress, middle, Qt.MouseButton.LeftButton)
    mouse(grip, QEvent.Type.MouseMove, middle - QPointF(0, 2000), Qt.MouseButton.LeftButton)
    mouse(grip, QEvent.Type.MouseButtonRelease, middle, Qt.MouseButton.LeftButton)
    assert pane.height() <= 0.6 * searched.window.height() + 1
    QApplication.processEvents()
    assert searched.window.view.height() >= 150


def test_closing_while_a_search_runs_leaves_nothing_behind(opened):
    opened.show(shapes.post_and_cap())
    opened.press_keys("Shift+S")
    opened.qtbot.waitUntil(lambda: searching(opened).live.table is not None, timeout=LONG_MS)
    opened.answers.unsaved = opened.answers.unsaved.DISCARD
    opened.window.close()


def test_the_map_stands_round_the_part_as_a_globe_while_it_is_open(searched):
    scene = searched.window.view.scene
    assert not scene.globe_shown
    searched.press_keys("Shift+G")
    assert scene.globe_shown
    assert searching(searched).pane.globe.isChecked()
    searched.press_keys("Shift+D")
    assert not scene.globe_shown
    searched.press_keys("Shift+D")
    assert scene.globe_shown
    searched.press(searching(searched).pane.close_button)
    assert not scene.globe_shown
