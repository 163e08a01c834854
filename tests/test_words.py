"""Sentences and numbers in the language in force, and that nothing of German is left out."""

import ast
import importlib.util
import re
import string
import subprocess
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import numpy as np
import PySide6
import pytest
from PySide6.QtCore import QTranslator

from viewer import errors
from viewer.geometry.pose_words import share_text, with_time
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.shop.processes import Process
from viewer.shop.shop import example_shop
from viewer.window import quantities
from viewer.words import (
    ENGLISH,
    GERMAN,
    later,
    read_catalogue,
    say,
    speak,
    spoken_language,
    written,
)

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture
def german():
    speak(GERMAN)
    yield
    speak(ENGLISH)


@pytest.fixture(scope="module")
def gather():
    spec = importlib.util.spec_from_file_location("gather", ROOT / "packaging/gather_words.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def sources(gather):
    return [text for texts in gather.sentences().values() for text in texts]


def test_english_is_spoken_until_another_language_is(sources):
    assert spoken_language() == ENGLISH
    assert all(say(text) == text for text in sources)


def test_every_sentence_has_a_finished_german_entry(sources):
    german = read_catalogue(GERMAN)
    assert [text for text in sources if text not in german] == []
    assert len(sources) > 900


def fields(sentence: str) -> list[tuple[str, str]]:
    return sorted((name, spec) for _, name, spec, _ in string.Formatter().parse(sentence) if name)


def test_a_translation_has_the_fields_of_its_sentence():
    for english, german in read_catalogue(GERMAN).items():
        assert fields(german) == fields(english), english


def test_a_translation_begins_and_ends_like_its_sentence():
    for english, german in read_catalogue(GERMAN).items():
        assert english[:1].isspace() == german[:1].isspace(), english
        assert english[-1:].isspace() == german[-1:].isspace(), english
        for sign in ".…?:":
            assert english.endswith(sign) == german.endswith(sign), english


def test_the_catalogue_is_up_to_date(gather, capsys):
    assert gather.main(["--check"]) == 0, capsys.readouterr().out


def test_qt_linguist_takes_the_catalogue(tmp_path):
    """Its own tool makes a binary catalogue of ours, from which Qt reads the same words."""
    release = Path(PySide6.__file__).parent / "lrelease"
    if not release.exists():
        pytest.skip("this installation of Qt lacks lrelease")
    made = tmp_path / "de.qm"
    words = [str(release), "-silent", str(ROOT / "resources/words/de.ts"), "-qm", str(made)]
    subprocess.run(words, check=True, timeout=60)
    translator = QTranslator()
    assert translator.load(str(made))
    assert translator.translate("viewer/window/notice_bar.py", "Notice") == "Hinweis"
    speak(GERMAN)
    root = ElementTree.parse(ROOT / "resources/words/de.ts").getroot()
    for context in root.iter("context"):
        for message in context.iter("message"):
            english = message.findtext("source")
            assert translator.translate(context.findtext("name"), english) == say(english)
    speak(ENGLISH)


@pytest.mark.parametrize(
    ("value", "spec", "expected"),
    [
        (1234567.891, ",.2f", "1.234.567,89"),
        (0.5, "g", "0,5"),
        (-1234, "+,d", "-1.234"),
        (12, "", "12"),
        (np.float64(2.25), ".1f", "2,2"),
        (np.int32(4321), ",", "4.321"),
    ],
)
def test_numbers_are_written_in_the_german_manner(german, value, spec, expected):
    # DIN 5008 and DIN 1333: decimal comma; points between groups of three are customary.
    assert written(value, spec) == expected
    assert say("{x:" + spec + "}", x=value) == expected


def test_quantities_follow_the_language(german):
    assert quantities.number_text(1234.5) == "1.234"
    assert quantities.number_text(-12.34) == "−12,3"
    assert quantities.error_text(0.25, 3.0) == "±0,25"
    assert quantities.difference_text(3.5, 1.25) == "+2,25"
    assert quantities.size_text((125.0, 38.0, 4.5)) == "125 × 38,0 × 4,50 mm"
    assert quantities.count_text(1200, "face") == "1.200 Flächen"
    assert quantities.count_text(1, "face") == "1 Fläche"


def test_words_filled_in_are_left_as_they_are(german):
    assert say("Saved as {name}.", name="v1.5,b.stl") == "Gespeichert als v1.5,b.stl."


def test_a_sentence_that_the_catalogue_lacks_stays_english(german):
    assert say("No such sentence, {x:.1f}", x=1.5) == "No such sentence, 1,5"
    assert later("No such sentence") == "No such sentence"


def test_an_unknown_language_is_english():
    speak("xx")
    assert spoken_language() == ENGLISH


def say_there(progress: Progress) -> str:
    return say("Stopped; nothing was changed.")


def test_a_child_process_speaks_the_language_of_its_parent(german):
    assert run_in_own_process(say_there) == "Angehalten; es wurde nichts geändert."


# --- no literal reaches a widget without `say`
SETTERS = {
    "setText", "setToolTip", "setStatusTip", "setAccessibleName", "setAccessibleDescription",
    "setPlaceholderText", "setWindowTitle", "setInformativeText", "addItem", "addMenu",
    "addAction", "showMessage", "QLabel", "QPushButton", "QCheckBox", "QAction", "QMenu",
    "emit", "drawText", "setTitle", "setSuffix", "setPrefix", "addTab", "addRow", "setLabelText",
    "setHorizontalHeaderLabels", "setVerticalHeaderLabels", "setHeaderLabels", "setHtml",
    "setPlainText", "setMarkdown", "setWhatsThis", "setSpecialValueText", "setDetailedText",
    "setCancelButtonText", "setButtonText", "addItems", "insertItem", "addSection", "insertMenu",
    "QGroupBox", "QRadioButton", "QToolButton", "QTableWidgetItem", "QListWidgetItem",
    "QTreeWidgetItem", "QDockWidget", "page_text",
    "getOpenFileName", "getSaveFileName", "getExistingDirectory", "getText", "getItem", "getInt",
}  # fmt: skip


def bare_words(path: Path) -> list[str]:
    """Literals with words in them that a widget is given as they are."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        name = getattr(
            getattr(node, "func", None), "id", getattr(getattr(node, "func", None), "attr", "")
        )
        if not isinstance(node, ast.Call) or name not in SETTERS:
            continue
        for arg in node.args:
            found += [f"{path.name}: {text}" for text in words_in(arg)]
    return found


def words_in(node: ast.AST) -> list[str]:
    """Literals of an expression that are words, without those inside calls."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        text = re.sub(r"<[^>]*>|Showside", "", node.value)
        letters = sum(c.isalpha() for c in text)
        return [node.value] if letters > 2 else []
    if isinstance(node, ast.JoinedStr | ast.IfExp | ast.BinOp | ast.BoolOp | ast.List | ast.Tuple):
        return [text for child in ast.iter_child_nodes(node) for text in words_in(child)]
    return []


def test_no_literal_reaches_a_widget_unsaid():
    found = [
        text for path in sorted((ROOT / "viewer/window").rglob("*.py")) for text in bare_words(path)
    ]
    assert found == []


def test_the_test_for_bare_words_sees_them(tmp_path):
    path = tmp_path / "bad.py"
    path.write_text(
        'label.setText("Some words" if x else f"{n} words")\nQLabel(say("fine"))\n'
        'table.setHorizontalHeaderLabels(["Name", say("fine")])\n'
    )
    assert bare_words(path) == ["bad.py: Some words", "bad.py:  words", "bad.py: Name"]


# --- no error reaches the user without `say`
def unsaid_errors(path: Path) -> list[str]:
    """Errors of ours raised with words that are not said; the command line speaks English."""
    names = {name for name, each in vars(errors).items() if isinstance(each, type)}
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call) or getattr(node.func, "id", "") not in names:
            continue
        found += [f"{path.name}: {text}" for arg in node.args for text in words_in(arg)]
    return found


def test_no_error_is_raised_unsaid():
    rooms = [
        path for path in sorted((ROOT / "viewer").rglob("*.py")) if "command" not in path.parts
    ]
    assert [text for path in rooms for text in unsaid_errors(path)] == []


def test_the_test_for_unsaid_errors_sees_them(tmp_path):
    path = tmp_path / "bad.py"
    path.write_text('raise CannotWrite(f"{x} is full")\nraise CannotWrite(say("fine"))\n')
    assert unsaid_errors(path) == ["bad.py:  is full"]


def test_what_the_shop_refuses_is_said_in_german(german):
    with pytest.raises(errors.RequestProblem) as refused:
        example_shop().machine("One nozle, medium")
    assert str(refused.value).startswith("Maschine „One nozle, medium“ gibt es nicht; meinten Sie")
    with pytest.raises(errors.RequestProblem) as refused:
        Process(name="Thin", walls=-1)
    assert str(refused.value) == "Prozess „Thin“: er muss zwischen 0 und 100 Wände haben."


def test_a_pose_is_told_in_german(german):
    assert with_time("Gar keine Stützen.", 5430.0) == (
        "Gar keine Stützen; 1 h 30 min länger als die schnellste von diesen."
    )
    assert share_text(1.26, 4000.0) == "1,3 mm²"
