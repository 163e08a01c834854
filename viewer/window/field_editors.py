"""One editor for each kind of value in the form; each reads and writes plain values."""

from collections.abc import Callable
from typing import Any, Protocol

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QLineEdit, QWidget

from viewer.shop.cautions import CAUTIONS
from viewer.window.pieces import NumberField, column
from viewer.window.shop_fields import CHOICE_WORDS, FormField
from viewer.words import say

AXES = ("x", "y", "z")


class Editor(Protocol):
    """What the form needs of an editor, which is a widget as well."""

    def value(self) -> Any:
        """The plain value as it stands in a TOML file."""

    def show_value(self, value: Any) -> None:
        """Show a value without telling of a change."""


class NumberEditor(NumberField):
    """A number within the range of the field."""

    def __init__(self, field: FormField, changed: Callable[[], object], name: str = "") -> None:
        decimals = 0 if field.kind == "count" else field.decimals
        self._count = field.kind == "count"
        super().__init__(
            name or say(field.title), field.unit, field.low, field.high, decimals,
            1 if decimals == 0 else 10.0**-decimals, lambda _: changed(), field.told_tip,
        )  # fmt: skip
        self._shown: float | None = None

    def value(self) -> float:
        """As it was given where it was not changed, even if it has more digits than are shown."""
        typed = super().value()
        if self._shown is not None and round(self._shown, self.decimals()) == typed:
            return self._shown
        return int(typed) if self._count else typed

    def show_value(self, value: float) -> None:
        """Show a number without telling of a change."""
        blocker = QSignalBlocker(self)
        self.setValue(value)
        blocker.unblock()
        self._shown = value


class CornersEditor(QWidget):
    """Two or three numbers side by side."""

    def __init__(self, field: FormField, changed: Callable[[], object]) -> None:
        super().__init__()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        axes = AXES[:2] if field.kind == "place" else AXES
        self._fields = [NumberEditor(field, changed, f"{say(field.title)}, {a}") for a in axes]
        for each in self._fields:
            layout.addWidget(each)

    def value(self) -> list[float]:
        """(x, y) or (x, y, z)."""
        return [each.value() for each in self._fields]

    def show_value(self, value: list[float]) -> None:
        """Show numbers without telling of a change."""
        for each, number in zip(self._fields, value, strict=True):
            each.show_value(number)


class TextEditor(QLineEdit):
    """A line of words."""

    def __init__(self, field: FormField, changed: Callable[[], object]) -> None:
        super().__init__()
        self.setAccessibleName(say(field.title))
        self.setToolTip(field.told_tip)
        self.textEdited.connect(lambda _: changed())

    def value(self) -> str:
        """Without blanks at its ends."""
        return self.text().strip()

    def show_value(self, value: str) -> None:
        """Show words without telling of a change."""
        self.setText(value)
        self.setCursorPosition(0)


class YesEditor(QCheckBox):
    """Yes or no."""

    def __init__(self, field: FormField, changed: Callable[[], object]) -> None:
        super().__init__(say("yes"))
        self.setAccessibleName(say(field.title))
        self.setToolTip(field.told_tip)
        self.clicked.connect(lambda _: changed())

    def value(self) -> bool:
        """Whether it is checked."""
        return self.isChecked()

    def show_value(self, value: bool) -> None:
        """Show yes or no."""
        self.setChecked(value)


class ChoiceEditor(QComboBox):
    """One of a few words, or the name of a material; a name that is not there is kept."""

    def __init__(
        self, field: FormField, changed: Callable[[], object], names: tuple[str, ...] = ()
    ) -> None:
        super().__init__()
        self.setAccessibleName(say(field.title))
        self.setToolTip(field.told_tip)
        for word in field.choices or names:
            self.addItem(say(CHOICE_WORDS.get(word, word)), word)
        self.activated.connect(lambda _: changed())

    def value(self) -> str:
        """The word or name."""
        return self.currentData() or ""

    def show_value(self, value: str) -> None:
        """Show a word or name."""
        if self.findData(value) < 0:
            self.addItem(value, value)
        self.setCurrentIndex(self.findData(value))


class ChoicesEditor(QWidget):
    """Any of a few words, or of the cautions, each with its check box."""

    def __init__(self, field: FormField, changed: Callable[[], object]) -> None:
        super().__init__()
        layout = column(gap=2)
        self.setLayout(layout)
        self._boxes: dict[str, QCheckBox] = {}
        for key in field.choices or CAUTIONS:
            box = self._boxes[key] = QCheckBox(say(CHOICE_WORDS.get(key, key)))
            if key in CAUTIONS:
                caution = CAUTIONS[key]
                box.setText(_short(say(caution.text)))
                box.setToolTip(f"{say(caution.text)}\n({say(caution.source)})")
            box.clicked.connect(lambda _: changed())
            layout.addWidget(box)
        self._shown: list[str] = []

    def value(self) -> list[str]:
        """What is checked, what was shown first in its order, and what is not known here."""
        checked = {key for key, box in self._boxes.items() if box.isChecked()}
        kept = [key for key in self._shown if key in checked or key not in self._boxes]
        return [*kept, *(key for key in self._boxes if key in checked and key not in kept)]

    def show_value(self, value: list[str]) -> None:
        """Check what is chosen."""
        for key, box in self._boxes.items():
            box.setChecked(key in value)
        self._shown = list(value)


def _short(text: str) -> str:
    """The beginning of a long sentence; all of it stands in the tooltip."""
    return text if len(text) < 60 else text[: text.rindex(" ", 0, 60)] + " …"


def editor_of(
    field: FormField, changed: Callable[[], object], materials: tuple[str, ...]
) -> QWidget:
    """The editor for a field that is no list of parts."""
    made: dict[str, Callable[..., QWidget]] = {
        "number": NumberEditor, "count": NumberEditor, "text": TextEditor, "yes": YesEditor,
        "choice": ChoiceEditor, "choices": ChoicesEditor, "place": CornersEditor,
        "size": CornersEditor,
    }  # fmt: skip
    if field.kind == "material":
        return ChoiceEditor(field, changed, materials)
    return made[field.kind](field, changed)
