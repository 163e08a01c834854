"""Client sheet and pack by real keys and clicks: looked at, written, printed, packed, kept."""

import io
import zipfile

import numpy as np
import pypdf
import pytest
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from tests.made_sheets import table_state
from tests.waiting import LONG_MS
from tests.window.test_names_and_tips import tipless_in
from tests.window.test_window_layout import nameless_in
from viewer.files.maker_file import read_maker, write_maker
from viewer.shop.maker import Maker
from viewer.window.sheet_preview import SheetPreview
from viewer.window.stages import Stage


@pytest.fixture
def table(opened, tmp_path, monkeypatch):
    """The table of the check values in stage Hand over, a shop of its own, no company yet."""
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))
    opened.document.open(table_state())
    opened.settle()
    opened.press_keys("Ctrl+5")
    return opened


def wait(opened) -> None:
    opened.qtbot.waitUntil(lambda: not opened.window.busy.busy, timeout=LONG_MS)
    assert not opened.window.notice.sentence


def text_of(content: bytes) -> str:
    pages = pypdf.PdfReader(io.BytesIO(content)).pages
    return "".join("".join(page.extract_text().split()) for page in pages)


def test_the_sheet_is_named_looked_at_written_and_printed(table, tmp_path):
    box = table.window.sheets.box
    box.client.setFocus()
    QTest.keyClicks(box.client, "Fennimore")
    QTest.keyClick(box.client, Qt.Key.Key_Return)
    assert table.state.client == "Fennimore"
    language = box.findChild(type(box._language))
    language.setFocus()
    QTest.keyClick(language, Qt.Key.Key_End)  # the last one, German
    assert box.language == "de"

    table.press_keys("Ctrl+J")
    assert table.window.busy.busy
    wait(table)
    preview = table.window.sheets.preview
    assert preview.isVisible()
    pages = [preview._column.itemAt(k).widget() for k in range(preview._column.count())]
    assert len(pages) == 2
    assert [page.accessibleName() for page in pages] == ["Page 1 of 2", "Page 2 of 2"]
    shades = np.array(
        [
            pages[0].pixmap().toImage().pixelColor(QPoint(x, 60)).lightness()
            for x in range(0, 500, 2)
        ]
    )
    assert shades.max() == 255
    before = pages[0].width()

    def larger() -> bool:  # without a window manager the focus may go back to the window once more
        preview.activateWindow()
        QTest.keyClick(preview, Qt.Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
        return pages[0].width() > 1.2 * before

    table.qtbot.waitUntil(larger, timeout=LONG_MS)

    table.answers.path = tmp_path / "sheet.html"
    save = next(b for b in preview.findChildren(QPushButton) if b.text().startswith("Save"))
    table.press(save)
    wait(table)
    page = (tmp_path / "sheet.html").read_text("utf-8")
    assert "<canvas" in page
    assert "Kundenblatt: Table" in page
    assert "Für Fennimore" in page

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    table.answers.path = printer
    QTest.keyClick(
        preview, Qt.Key.Key_Y,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )  # fmt: skip
    wait(table)
    table.qtbot.waitUntil(lambda: (tmp_path / "printed.pdf").exists(), timeout=LONG_MS)
    assert "FürFennimore" in text_of((tmp_path / "printed.pdf").read_bytes())
    assert table.answers.asked == ["sheet table-client-sheet.pdf", "printer Kundenblatt: Table"]
    preview.close()

    table.document.undo()
    assert box.client.text() == ""


def test_the_company_is_kept_in_its_form(table, tmp_path):
    Image.fromarray(np.full((60, 120, 3), 90, np.uint8)).save(tmp_path / "logo.png")
    table.press_keys("Ctrl+Alt+U")
    dialog = table.window.sheets.company
    QTest.keyClicks(dialog.company, "Brook Prints")
    QTest.keyClicks(dialog.currency, "CHF")
    table.answers.path = tmp_path / "nothing.png"
    table.press(dialog.choose)
    assert "There is no file" in dialog.problem.text()
    table.answers.path.write_bytes(b"no picture at all")
    table.press(dialog.choose)
    assert "cannot be read as a picture" in dialog.problem.text()
    table.answers.path = tmp_path / "logo.png"
    table.press(dialog.choose)
    assert dialog.problem.isHidden()
    assert dialog.remove.isEnabled()
    QTest.keyClick(dialog.company, Qt.Key.Key_Return)
    assert read_maker() == Maker("Brook Prints", "CHF", read_maker().logo_png)
    assert read_maker().logo_png


def test_a_pack_is_written_in_one_step_and_a_cancelled_one_leaves_nothing(table, tmp_path):
    write_maker(Maker("Brook Prints", "CHF"))
    table.answers.path = tmp_path / "out" / "table.zip"
    table.press_keys("Ctrl+Shift+K")
    table.press_keys("Esc")
    wait(table)
    assert not (tmp_path / "out").exists() or not list((tmp_path / "out").iterdir())
    (tmp_path / "out").mkdir(exist_ok=True)
    table.press_keys("Ctrl+Shift+K")
    wait(table)
    assert table.answers.asked == ["pack table-pack.zip"] * 2
    with zipfile.ZipFile(tmp_path / "out" / "table.zip") as package:
        names = set(package.namelist())
        readme = package.read("readme.txt").decode("utf-8")
        sheet = text_of(package.read("client-sheet.pdf"))
    assert "BrookPrints" in sheet
    assert "CHF" in sheet
    assert {
        "part.3mf", "part.stl", "supports.3mf", "test-piece-touch.3mf",
        "layers.csv", "client-sheet.pdf", "client-sheet.html", "job.3mf",
    } <= names  # fmt: skip
    assert all(f"  {name}: " in readme for name in names - {"readme.txt"})
    assert table.window.choices.handed_over is table.state
    assert "read back" in table.window.statusBar().currentMessage()


def test_the_dialogs_name_and_explain_every_control(opened):
    window = opened.window
    window.choices.set_stage(Stage.HAND_OVER)
    opened.press_keys("Ctrl+Alt+U")
    preview = SheetPreview(window, window.actions.by_key)
    preview.show()
    for dialog in (window, window.sheets.company, preview):
        assert not [*nameless_in(dialog), *tipless_in(dialog)]
    preview.close()
    window.sheets.company.close()
