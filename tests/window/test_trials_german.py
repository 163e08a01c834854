"""Trials, what they teach and which test pays, in German: no English word, and none cut off."""

import numpy as np
from PySide6.QtWidgets import QApplication

from tests.shapes import post_and_cap
from tests.shop.made_trials import trial
from tests.window.test_german import german  # noqa: F401
from tests.window.test_proposals import proposed
from tests.window.test_shop_column import own_shop  # noqa: F401
from tests.window.test_shop_german import left_in_english, shown
from tests.window.test_trials import MACHINE, at_rest, open_form
from tests.window.test_window_layout import cut_off
from viewer.geometry.face_classes import CLASS_A
from viewer.shop.lessons import basis_sentence, lesson_sentence
from viewer.shop.trials import MODEL_ON_SUPPORT


def test_boxes_and_form_speak_german(german, own_shop, open_window):  # noqa: F811
    opened = open_window(1280, 800)
    mesh = post_and_cap()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), "Pfosten")
    opened.press_keys("Ctrl+4")
    proposed(opened)
    desk = opened.window.trials
    for key, values, outcomes, more in (
        ("a", (32.5, 40.0), "bc", {"job": "Pfosten", "note": "gut", "photo": b"x"}),
        ("b", (5.0, 12.5), "cb", {"kind": "bridge-ladder", "unit": "mm"}),
        ("c", (10.0, 20.0), "ba", {"kind": "terrace-wedge"}),
        ("d", (0.2,), "a", {"kind": "pair-release", "unit": "mm", "row": MODEL_ON_SUPPORT}),
    ):
        desk.live.write_down(trial(key, values, outcomes, machine=MACHINE, **more))
    at_rest(opened)
    lessons = desk.live.lessons()
    assert {each.limit for each in lessons} == {
        "support_limit_deg", "bridge_mm", "visible_terrace_mm", "touch_weight",
    }  # fmt: skip
    for each in lessons:
        opened.document.take_limit(each.take())
    proposed(opened)
    opened.draw()
    opened.draw()
    assert left_in_english(shown(opened.window)) == set()
    assert cut_off(opened.window) == []
    told = {say_it(each) for each in lessons for say_it in (lesson_sentence, basis_sentence)}
    assert left_in_english(told) == set()
    form = open_form(opened)
    for at in range(form.kind.count()):
        form.kind.setCurrentIndex(at)
        form.measured.setChecked(at % 2 == 1)
        for _ in range(3):  # layouts in one another each take a turn
            QApplication.processEvents()
        assert left_in_english(shown(form)) == set()
        # A list of steps that is typed may be longer than its field.
        assert [each for each in cut_off(form) if "QLineEdit" not in each] == []
    form.write_button.click()
    assert left_in_english({form.problem.text()}) == set()
    form.close()
