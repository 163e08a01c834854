"""The form for one machine, material, pair or process: a row for each value, with its source."""

from collections.abc import Callable
from typing import Any

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from viewer.shop.machines import ForbiddenArea, Nozzle
from viewer.window.field_editors import editor_of
from viewer.window.pieces import button, column
from viewer.window.shop_fields import FIELDS, PARTS, FormField
from viewer.words import say

NO_SOURCE = ("name", "notes", "bond", "bond_source", "touched_face", "forbidden", "nozzles")


class ThingForm(QWidget):
    """Shows and edits the plain values of a thing, as they stand in its TOML file."""

    def __init__(
        self, kind: type, materials: tuple[str, ...], changed: Callable[[], object]
    ) -> None:
        """`materials` : names to choose from; `changed` : called after each edit."""
        super().__init__()
        self._changed = changed
        self._sources: dict[str, QLineEdit] = {}
        self.editors: dict[str, QWidget] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(4, 4, 12, 4)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(6)
        grid.setColumnStretch(1, 3)
        grid.setColumnStretch(2, 2)
        grid.addWidget(_quiet(say("Where the value is from")), 0, 2)
        for row, field in enumerate(FIELDS[kind], 1):
            label = QLabel(say(field.title))
            label.setToolTip(field.told_tip)
            if field.kind == "parts":
                editor = PartsEditor(field, self._edited, self._source_of)
            else:
                editor = editor_of(field, self._edited, materials)
                label.setBuddy(editor)
            self.editors[field.name] = editor
            grid.addWidget(label, row, 0, Qt.AlignmentFlag.AlignTop)
            wide = field.name in NO_SOURCE or field.kind == "choices"
            grid.addWidget(editor, row, 1, 1, 2 if wide else 1)
            if not wide:
                grid.addWidget(self._source_of(field.name, say(field.title)), row, 2)
        grid.setRowStretch(grid.rowCount(), 1)

    def values(self) -> dict[str, Any]:
        """The plain values of the form."""
        told = {name: line.text().strip() for name, line in self._sources.items()}
        sources = {**self._kept_sources, **told}
        return {
            **{name: editor.value() for name, editor in self.editors.items()},
            "sources": {name: text for name, text in sources.items() if text},
        }

    def show_values(self, values: dict[str, Any], read_only: bool) -> None:
        """Show a thing; an example cannot be changed."""
        for name, editor in self.editors.items():
            editor.show_value(values[name])
        self._kept_sources = dict(values.get("sources", {}))
        for name, line in self._sources.items():
            text = self._kept_sources.get(name, "")
            line.setText(text)
            line.setCursorPosition(0)
            line.setToolTip(line.text())
        for editor in (*self.editors.values(), *self._sources.values()):
            editor.setEnabled(not read_only)

    def _edited(self) -> None:
        self._changed()

    def _source_of(self, name: str, title: str) -> QLineEdit:
        """The line for the source of a value; nozzles share those of "nozzles.field"."""
        if name not in self._sources:
            line = self._sources[name] = QLineEdit()
            line.setAccessibleName(say("Source of {title}", title=title))
            line.setPlaceholderText(say("not said"))
            line.textEdited.connect(lambda _: self._edited())
        return self._sources[name]


class PartsEditor(QWidget):
    """A list of nozzles or forbidden areas, each with its own few values."""

    def __init__(
        self,
        field: FormField,
        changed: Callable[[], object],
        source_of: Callable[[str, str], QLineEdit],
    ) -> None:
        super().__init__()
        self._name, self._changed = field.name, changed
        self._rows: list[dict[str, QWidget]] = []
        self._boxes: list[QWidget] = []
        layout = column(gap=4)
        self.setLayout(layout)
        self._inner = column(gap=8)
        layout.addLayout(self._inner)
        add, one = (
            (say("Add a nozzle"), say("Nozzle"))
            if field.name == "nozzles"
            else (say("Add an area"), say("Forbidden area"))
        )
        self._one = one
        self.add_button = button(add, self._add)
        layout.addWidget(self.add_button)
        if field.name == "nozzles":
            sources = QGridLayout()
            for row, part in enumerate(PARTS["nozzles"][1][1:]):
                sources.addWidget(_quiet(say("{title}, source", title=say(part.title))), row, 0)
                key = f"nozzles.{part.name}"
                sources.addWidget(source_of(key, f"{one}, {say(part.title)}"), row, 1)
            layout.addLayout(sources)

    def value(self) -> list[dict[str, Any]]:
        """The plain values of each part."""
        return [{name: each.value() for name, each in row.items()} for row in self._rows]

    def show_value(self, value: list[dict[str, Any]]) -> None:
        """Show parts without telling of a change."""
        for box in self._boxes:
            self._inner.removeWidget(box)
            box.hide()
            box.deleteLater()
        self._rows, self._boxes = [], []
        for part in value:
            self._show_part(part)

    def _show_part(self, part: dict[str, Any]) -> None:
        box, row = QWidget(), {}
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        for down, field in enumerate(PARTS[self._name][1]):
            editor = row[field.name] = editor_of(field, self._changed, ())
            editor.show_value(part[field.name])
            title = say(field.title)
            label = QLabel(title)
            label.setToolTip(field.told_tip)
            label.setBuddy(editor)
            grid.addWidget(label, down, 0)
            grid.addWidget(editor, down, 1)
        place = len(self._rows)
        remove = button(say("Remove"), lambda: self._remove(row))
        remove.setAccessibleName(f"{say('Remove')}: {self._one} {place + 1}")
        grid.addWidget(remove, 0, 2)
        grid.setColumnStretch(1, 1)
        self._rows.append(row)
        self._boxes.append(box)
        self._inner.addWidget(box)

    def _add(self) -> None:
        """One more, like the last one, under another name."""
        parts = self.value()
        if parts:
            new = {**parts[-1], "name": f"{parts[-1]['name']} {len(parts) + 1}"}
        elif self._name == "nozzles":
            low, high = (-100.0, -100.0, 0.0), (100.0, 100.0, 200.0)
            new = msgspec.to_builtins(Nozzle(name="nozzle", reach_low_mm=low, reach_high_mm=high))
        else:
            corner = ForbiddenArea(low_mm=(-100.0, -100.0), high_mm=(-80.0, -80.0))
            new = msgspec.to_builtins(corner)
        self._show_part(new)
        self._changed()

    def _remove(self, row: dict[str, QWidget]) -> None:
        both = zip(self.value(), self._rows, strict=True)
        self.show_value([part for part, each in both if each is not row])
        self._changed()


def _quiet(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("quiet", True)
    return label
