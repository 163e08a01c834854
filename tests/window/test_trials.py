"""Trials in stage Try by mouse and keys: written down, changed, removed, learnt from, undone."""

import csv

import numpy as np
import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDropEvent, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import c_bracket
from tests.shop.made_trials import trial
from tests.waiting import LONG_MS
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_shop_column import own_shop  # noqa: F401
from tests.window.test_window_layout import nameless_in
from viewer.files.mesh_files import read_part
from viewer.files.trial_store import keep_trial, read_stored_trials, store_path
from viewer.geometry.face_classes import CLASS_A
from viewer.shop.lessons import value_text

MACHINE = "One nozzle, medium"


@pytest.fixture
def bracket(opened, own_shop):  # noqa: F811
    """The bracket, all of class A, in stage Try."""
    mesh = c_bracket()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), "bracket")
    opened.press_keys("Ctrl+4")
    at_rest(opened)
    return opened


def at_rest(opened):
    """Wait until the store is written and the window is in front again."""
    opened.window.activateWindow()
    opened.qtbot.waitUntil(opened.window.isActiveWindow, timeout=LONG_MS)
    live = opened.window.trials.live
    opened.qtbot.waitUntil(lambda: not live.working, timeout=LONG_MS)
    QApplication.processEvents()


def open_form(opened, keys="Ctrl+Shift+N"):
    opened.press_keys(keys)
    form = opened.window.trials.form
    opened.qtbot.waitExposed(form)
    form.activateWindow()
    opened.qtbot.waitUntil(form.isActiveWindow, timeout=LONG_MS)
    return form


def key(widget, code, held=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(widget, code, held)
    QApplication.processEvents()


def write_fan(opened, outcomes, values="30; 35; 40; 45"):
    """A fan by keys alone: steps typed, each judged with one key, Ctrl+Return."""
    form = open_form(opened)
    form.values.setFocus()
    form.values.selectAll()
    QTest.keyClicks(form.values, values)
    key(form.values, Qt.Key.Key_Tab)
    form.rows.rows[0].take_focus()
    for outcome in outcomes:
        key(QApplication.focusWidget(), {"c": Qt.Key.Key_1, "a": Qt.Key.Key_2,
                                         "b": Qt.Key.Key_3}[outcome])  # fmt: skip
    key(form, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    at_rest(opened)


def test_a_result_is_written_changed_removed_by_keys_in_job_and_shop_and_undone(bracket, tmp_path):
    box = bracket.window.trials.box
    assert box.none_yet.isVisible()
    assert not box.rows.isVisible()
    assert not bracket.window.actions.by_key["change_trial"].isEnabled()
    write_fan(bracket, "bacc")
    (one,) = bracket.state.trials
    assert [(s.value, s.unit, s.outcome) for s in one.steps] == [
        (30, "deg", "bad"), (35, "deg", "acceptable"), (40, "deg", "clean"), (45, "deg", "clean"),
    ]  # fmt: skip
    assert (one.machine, one.model, one.pair, one.job) == (MACHINE, "PLA", "PLA alone", "bracket")
    assert (one.up, one.layer_mm) == (bracket.state.pose.up, 0.2)
    assert read_stored_trials().trials == (one,)
    assert box.rows.item(0).text() == f"Inclination fan\n{one.day}  2 ✓ 1 ~ 1 ✗"
    bracket.press_keys("Ctrl+Z")
    at_rest(bracket)
    assert bracket.state.trials == read_stored_trials().trials == ()
    assert box.none_yet.isVisible()
    bracket.press_keys("Ctrl+Shift+Z")
    at_rest(bracket)
    assert bracket.state.trials == read_stored_trials().trials == (one,)
    bracket.press_keys("Ctrl+Z")
    at_rest(bracket)
    write_fan(bracket, "bbcc")
    key(box.rows, Qt.Key.Key_Return)
    form = bracket.window.trials.form
    bracket.qtbot.waitExposed(form)
    assert [row.result().outcome for row in form.rows.rows] == ["bad", "bad", "clean", "clean"]
    bracket.press(form.measured)
    row = form.rows.rows[1]
    bracket.press(row.buttons["clean"])
    row.ra.setValue(7.5)
    row.terrace.setValue(0.21)
    bracket.press(form.rows.rows[3].buttons["clean"])  # takes the judgement back
    bracket.press(form.write_button)
    at_rest(bracket)
    (one,) = read_stored_trials().trials
    assert [(s.value, s.outcome, s.ra_um, s.terrace_mm) for s in one.steps] == [
        (30, "bad", None, None), (35, "clean", 7.5, 0.21), (40, "clean", None, None),
    ]  # fmt: skip
    bracket.answers.path = tmp_path / "trials.csv"
    bracket.press_keys("Ctrl+Shift+J")
    bracket.qtbot.waitUntil((tmp_path / "trials.csv").exists, timeout=LONG_MS)
    bracket.settle()
    with open(tmp_path / "trials.csv", encoding="utf-8-sig", newline="") as file:
        assert [row["ra_um"] for row in csv.DictReader(file)] == ["", "7.5", ""]
    key(box.rows, Qt.Key.Key_Delete)
    at_rest(bracket)
    assert bracket.state.trials == read_stored_trials().trials == ()
    bracket.press_keys("Ctrl+Z")
    at_rest(bracket)
    assert bracket.state.trials == read_stored_trials().trials == (one,)
    form = open_form(bracket)  # begins with the steps that this job tried before
    assert form.values.text() == "30; 35; 40"
    form.close()


def test_the_form_says_what_is_missing_and_keeps_a_photo_small_and_nameless(bracket, tmp_path):
    form = open_form(bracket)
    for at in range(form.kind.count()):
        form.kind.setCurrentIndex(at)
        assert form.rows.rows
        form.measured.setChecked(True)
        assert not nameless_in(form)
        assert not tipless_in(form)
    assert {row.step.row for row in form.rows.rows} == {""}
    form.kind.setCurrentIndex(form.kind.findData("pair-release"))
    assert [row.step.row for row in form.rows.rows[::4]] == ["model on support", "support on model"]
    bracket.press(form.write_button)
    assert form.isVisible()
    assert "say of at least one step how it came out" in form.problem.text()
    form.rows.rows[0].take_focus()
    key(QApplication.focusWidget(), Qt.Key.Key_1)
    assert form.problem.text() == ""
    form.day.setText("yesterday")
    bracket.press(form.write_button)
    assert "write its day as 2026-11-26" in form.problem.text()
    form.values.setText("many")
    bracket.press(form.write_button)
    assert "as numbers" in form.problem.text()
    key(form, Qt.Key.Key_Escape)
    assert bracket.state.trials == ()
    at_rest(bracket)
    picture = QImage(2400, 1200, QImage.Format.Format_RGB32)
    picture.fill(QColor("teal"))
    picture.setText("Description", "taken in my kitchen")
    picture.save(str(tmp_path / "photo.png"))
    form = open_form(bracket)
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(tmp_path / "photo.png"))])
    held, action = Qt.KeyboardModifier.NoModifier, Qt.DropAction.CopyAction
    form.dropEvent(QDropEvent(QPointF(5, 5), action, data, Qt.MouseButton.LeftButton, held))
    assert not form.thumbnail.pixmap().isNull()
    bracket.press(form.no_photo)
    assert "No photo yet" in form.thumbnail.text()
    (tmp_path / "words.txt").write_text("no picture", "utf-8")
    for name in ("words.txt", "photo.png"):
        bracket.answers.path = tmp_path / name
        bracket.press(form.photo_button)
        assert ("words.txt cannot be read as a picture" in form.problem.text()) == (
            name == "words.txt"
        )
    form.rows.rows[0].judge("clean")
    bracket.press(form.write_button)
    at_rest(bracket)
    (one,) = bracket.state.trials
    kept = QImage.fromData(one.photo)
    assert (kept.width(), kept.height()) == (1600, 800)
    assert b"kitchen" not in one.photo
    bracket.answers.path = tmp_path / "job.3mf"
    bracket.press_keys("Ctrl+S")
    bracket.qtbot.waitUntil(lambda: not bracket.document.modified, timeout=LONG_MS)
    assert read_part(tmp_path / "job.3mf").trials == (one,)


def test_what_results_teach_is_taken_measured_anew_and_put_back(bracket):
    for _ in range(3):
        write_fan(bracket, "bccc", "20; 30; 40; 50")
    box = bracket.window.trials.lessons
    (lesson,) = bracket.window.trials.live.lessons()
    assert 20 < lesson.likely < 32
    assert bracket.state.settings.support_limit_deg == 45.0  # nothing is learnt silently
    bracket.settle()
    before = bracket.window.live_measures.latest
    take = box.buttons["support_limit_deg", "take"]
    assert take.text() == f"Take {value_text('support_limit_deg', lesson.likely)}"
    bracket.press(take)
    bracket.settle()
    assert bracket.state.settings.support_limit_deg == lesson.likely
    assert bracket.window.live_measures.latest is not before
    assert bracket.document.undo_label == "Take what trials say"
    back = box.buttons["support_limit_deg", "back"]
    assert back.text() == "Back to 45°"
    back.setFocus()
    key(back, Qt.Key.Key_Space)
    assert bracket.state.settings.support_limit_deg == 45.0
    bracket.press_keys("Ctrl+Z")
    assert bracket.state.settings.support_limit_deg == lesson.likely
    bracket.press_keys("Ctrl+Z")
    assert bracket.state.settings.support_limit_deg == 45.0
    assert bracket.state.taken == ()
    bracket.press(box.buttons["support_limit_deg", "safe"])
    assert bracket.state.settings.support_limit_deg == lesson.safe
    box.good.setCurrentIndex(1)
    assert bracket.window.trials.live.lessons()[0].likely == lesson.likely  # none was acceptable


def test_the_shops_own_trials_are_there_in_every_job_and_can_be_brought_back(
    own_shop,  # noqa: F811
    open_window,
):
    own = trial("own", machine=MACHINE, model="PLA", day="2026-10-01")
    keep_trial(own)
    keep_trial(trial("far", machine="Another", day="2026-10-02"))
    opened = open_window()
    opened.press_keys("Ctrl+4")
    at_rest(opened)
    box, live = opened.window.trials.box, opened.window.trials.live
    assert [each.key for each in live.known] == ["own", "far"]
    assert box.rows.count() == 1
    assert "In the shop, not in this job" in box.rows.item(0).toolTip()
    bracket_all = box.all
    opened.press(bracket_all)
    assert box.rows.count() == 2
    box.choose("own")
    opened.press_keys("Ctrl+Shift+Backspace")
    at_rest(opened)
    assert [each.key for each in read_stored_trials().trials] == ["far"]
    assert opened.state.trials == ()
    opened.press_keys("Ctrl+Shift+B")
    at_rest(opened)
    assert own in read_stored_trials().trials
    assert not opened.window.actions.by_key["bring_back_trial"].isEnabled()
    mesh = c_bracket()
    opened.show(mesh)  # another job: nothing of the shop's is touched
    at_rest(opened)
    assert own in read_stored_trials().trials


def test_a_store_that_cannot_be_written_is_told_and_the_job_keeps_the_trial(bracket, own_shop):  # noqa: F811
    path = store_path()
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"no store " * 200)
    write_fan(bracket, "bacc")
    assert len(bracket.state.trials) == 1
    assert bracket.window.trials.box.rows.count() == 1
    assert "trials.sqlite" in bracket.window.notice.sentence
    bracket.window.notice.say("")
