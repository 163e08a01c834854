"""The shop in German: fold, dialogs, risks and cautions without an English word."""

import numpy as np
import pytest
from PySide6.QtWidgets import QListWidget, QTableWidget

from tests.shapes import c_bracket
from tests.waiting import LONG_MS
from tests.window.test_german import english_only, german, texts_of, words_of  # noqa: F401
from tests.window.test_shop_column import own_shop, pick, told  # noqa: F401
from tests.window.test_window_layout import SIZES, cut_off, needing_a_scroll
from viewer.geometry.face_classes import CLASS_A
from viewer.shop.toml_text import KINDS
from viewer.window.machine_looks import machine_look
from viewer.window.shop_rows import price_texts

# By action; their keys are tried in the tests of each.
DIALOGS = {"shop_things": "things", "compare_machines": "offers", "finished_prints": "prints"}


def shown(window):
    """Everything that is said, cells of tables and rows of lists included."""
    found = texts_of(window)
    for table in window.findChildren(QTableWidget):
        heads = [table.horizontalHeaderItem(k) for k in range(table.columnCount())]
        heads += [table.verticalHeaderItem(k) for k in range(table.rowCount())]
        cells = [
            table.item(down, across)
            for down in range(table.rowCount())
            for across in range(table.columnCount())
        ]
        for item in (*heads, *cells):
            if item is not None:
                found |= {item.text(), item.toolTip()}
    for rows in window.findChildren(QListWidget):
        found |= {rows.item(k).text() for k in range(rows.count())}
    return found


def left_in_english(texts):
    english = english_only()
    return {text for text in texts if words_of(text) & english}


@pytest.mark.parametrize("pair", ["PLA alone", "ABS with HIPS", "TPU 95A with PVA"])
def test_fold_and_dialogs_speak_german(german, pair, open_window):  # noqa: F811
    opened = open_window()
    mesh = c_bracket()
    opened.show(mesh, np.full(mesh.face_count, CLASS_A, np.uint8), name="Bügel")
    opened.press_keys("F3")
    pick(opened, "pair", pair)
    pick(opened, "machine", "Two nozzles, side by side")
    told(opened)
    window = opened.window
    assert left_in_english(shown(window)) == set()
    for key, name in DIALOGS.items():
        window.actions.by_key[key].trigger()
        dialog = getattr(window.shop, name)
        opened.qtbot.waitUntil(dialog.isVisible, timeout=LONG_MS)
        if name == "offers":
            opened.qtbot.waitUntil(lambda: window.shop.offers.pairs.columnCount() > 1,
                                   timeout=LONG_MS)  # fmt: skip
        for kind in KINDS if name == "things" else ("",):
            if kind:
                dialog.kinds.setCurrentIndex(dialog.kinds.findData(kind))
            opened.draw()
            assert left_in_english(shown(window)) == set(), (name, kind)
        dialog.close()
    machine = window.shop.live.latest.chosen.machine
    labels = [box.label for box in machine_look(machine, None, True).boxes]
    assert any("Bauraum" in label for label in labels)


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_nothing_is_cut_off_in_german(german, size, open_window):  # noqa: F811
    opened = open_window(*size)
    opened.show(c_bracket())
    opened.press_keys("P")
    opened.press_keys("X")
    numbers = told(opened)
    price = opened.window.shop.column.price.text()
    assert price in price_texts(numbers)[:-1]  # the last leaves the cost out
    assert price.endswith(numbers.estimate.currency)
    assert needing_a_scroll(opened.window) == []
    opened.press_keys("F3")
    opened.draw()
    opened.draw()
    assert cut_off(opened.window) == []
