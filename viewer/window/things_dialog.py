"""Machines and materials: a list at the left, a form at the right, plain TOML files behind."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QCloseEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QListWidget,
    QScrollArea,
    QWidget,
)

from viewer.errors import ShowsideError
from viewer.files.shop_folder import shop_folder
from viewer.shop.toml_text import KINDS
from viewer.window.pieces import ChoiceBox, button, column, text_label
from viewer.window.shop_fields import TITLES
from viewer.window.thing_drafts import Listed, ThingDrafts, problem_of
from viewer.window.thing_form import ThingForm
from viewer.words import say


class ThingsDialog(QDialog):
    """saved : a file of the shop was written or removed."""

    saved = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Machines and materials"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(1020, 660)
        self.drafts = ThingDrafts()
        self._removed: tuple[str, Listed] | None = None
        self._form: ThingForm | None = None
        self._warned = False
        layout = QHBoxLayout(self)
        layout.addLayout(self._left())
        layout.addLayout(self._right(), 1)
        self._kind_chosen()

    # --- building
    def _left(self) -> QWidget:
        left = column(gap=6)
        self.kinds, self.rows = ChoiceBox(), QListWidget()
        self.kinds.setAccessibleName(say("Kind"))
        self.kinds.setToolTip(say("What the list shows"))
        for kind, title in TITLES.items():
            self.kinds.addItem(say(title), kind)
        self.rows.setAccessibleName(say("Things of the shop"))
        self.rows.setToolTip(say("A star marks what is not saved; examples can be copied only."))
        self.rows.setMinimumWidth(290)
        self.new = button(say("New"), self._new, say("A new one with usual values"))
        self.copy = button(say("Copy"), self._copy, say("A copy of this one, to be changed"))
        self.remove = button(say("Remove"), self._remove, say("Remove it and its file"))
        self.back = button(say("Bring back"), self._bring_back, say("Undo the removal"))
        buttons = QGridLayout()
        buttons.setSpacing(6)
        for place, made in enumerate((self.new, self.copy, self.remove, self.back)):
            buttons.addWidget(made, place // 2, place % 2)
        left.addWidget(self.kinds)
        left.addWidget(self.rows, 1)
        left.addLayout(buttons)
        self.kinds.currentIndexChanged.connect(self._kind_chosen)
        self.rows.currentRowChanged.connect(self._show_chosen)
        return left

    def _right(self) -> QWidget:
        right = column(gap=6)
        self.note, self.problem = text_label(quiet=True), text_label(heading=True)
        self.problem.setAccessibleName(say("What is wrong"))
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.save = button(say("Save"), self._save, say("Write it into its file"), leading=True)
        QShortcut(QKeySequence.StandardKey.Save, self, self._save)
        self.revert = button(say("Let go of the changes"), self._revert,
                             say("Back to what was saved"))  # fmt: skip
        self.done = button(say("Close"), self.close)
        bottom = QHBoxLayout()
        bottom.addStretch(1)
        for made in (self.revert, self.save, self.done):
            made.setAutoDefault(False)
            bottom.addWidget(made)
        for made in (self.new, self.copy, self.remove, self.back):
            made.setAutoDefault(False)
        right.addWidget(self.note)
        right.addWidget(self._scroll, 1)
        right.addWidget(self.problem)
        right.addLayout(bottom)
        return right

    # --- what is chosen
    @property
    def kind(self) -> str:
        """Which list is shown: "machines", "materials", "pairs" or "processes"."""
        return self.kinds.currentData()

    @property
    def chosen(self) -> Listed | None:
        """The thing in the form."""
        row, listed = self.rows.currentRow(), self.drafts.of(self.kind)
        return listed[row] if 0 <= row < len(listed) else None

    @property
    def form(self) -> ThingForm:
        """The form of the kind that is shown."""
        return self._form

    def show_thing(self, kind: str, name: str) -> None:
        """Go to a thing by its name."""
        self.kinds.setCurrentIndex(self.kinds.findData(kind))
        names = [one.name for one in self.drafts.of(kind)]
        if name in names:
            self.rows.setCurrentRow(names.index(name))

    def _kind_chosen(self, *_: object) -> None:
        materials = tuple(one.name for one in self.drafts.of("materials"))
        self._form = ThingForm(KINDS[self.kind], materials, self._edited)
        self._scroll.setWidget(self._form)  # the form before goes with it
        self._list_anew(0)

    def _list_anew(self, row: int) -> None:
        blocker = QSignalBlocker(self.rows)
        self.rows.clear()
        for one in self.drafts.of(self.kind):
            self.rows.addItem(_row_text(one))
        blocker.unblock()
        self.rows.setCurrentRow(min(row, self.rows.count() - 1))
        self._show_chosen()

    def _show_chosen(self, *_: object) -> None:
        one = self.chosen
        if one is not None:
            self._form.show_values(one.values, read_only=not one.own)
        self._show_state()

    def _show_state(self) -> None:
        one = self.chosen
        own, changed = one is not None and one.own, one is not None and one.draft is not None
        self.note.setText(_note(one, self.drafts.problems))
        self.problem.setText(problem_of(self.kind, one.draft) if changed else "")
        self.save.setEnabled(changed)
        self.revert.setEnabled(changed and one.saved is not None)
        self.copy.setEnabled(one is not None)
        self.remove.setEnabled(own)
        self.back.setEnabled(self._removed is not None)

    # --- what the user does
    def _edited(self) -> None:
        one = self.chosen
        if one is None or not one.own:
            return
        one.draft, self._warned = self._form.values(), False
        self.rows.currentItem().setText(_row_text(one))
        self._show_state()

    def _new(self) -> None:
        self.drafts.add(self.kind, None)
        self._start_naming()

    def _copy(self) -> None:
        if self.chosen is not None:
            self.drafts.add(self.kind, self.chosen)
            self._start_naming()

    def _start_naming(self) -> None:
        self._list_anew(0)
        name = self._form.editors["name"]
        name.setFocus()
        name.selectAll()

    def _save(self) -> None:
        one = self.chosen
        if one is None or one.draft is None:
            return
        if self._try(lambda: self.drafts.save(self.kind, one)):
            self._list_anew(self.rows.currentRow())
            self.saved.emit()

    def _revert(self) -> None:
        if self.chosen is not None and self.chosen.saved is not None:
            self.chosen.draft = None
            self._list_anew(self.rows.currentRow())

    def _remove(self) -> None:
        one, row = self.chosen, self.rows.currentRow()
        if one is None or not one.own:
            return
        if self._try(lambda: self.drafts.remove(self.kind, one)):
            self._removed = (self.kind, one)
            self._list_anew(row)
            self.saved.emit()

    def _bring_back(self) -> None:
        if self._removed is None:
            return
        kind, one = self._removed
        if self._try(lambda: self.drafts.bring_back(kind, one)):
            self._removed = None
            self.kinds.setCurrentIndex(self.kinds.findData(kind))
            self._list_anew(0)
            self.saved.emit()

    def _try(self, step) -> bool:
        try:
            step()
        except ShowsideError as problem:
            self.problem.setText(str(problem))
            return False
        return True

    # --- leaving
    def closeEvent(self, event: QCloseEvent) -> None:
        """What is not saved is told once; closing again lets go of it."""
        count = self.drafts.unsaved()
        if count and not self._warned:
            self._warned = True
            self.problem.setText(
                say("Not saved yet: {count}, marked with a star. Save, or close once more to let "
                    "go of it.", count=count)
            )  # fmt: skip
            event.ignore()
            return
        super().closeEvent(event)

    def reject(self) -> None:
        """Escape closes as the button does."""
        self.close()


def _row_text(one: Listed) -> str:
    name = one.name if one.own else say(one.name)
    if one.draft is not None:
        return f"* {name}"
    return name if one.own else say("{name} (example)", name=name)


def _note(one: Listed | None, problems: tuple[str, ...]) -> str:
    told = list(problems)
    if one is not None and not one.own:
        told.append(say("An example that comes with the program: copy it to change it."))
    elif one is not None:
        told.append(say("Your own; kept in {folder}.", folder=shop_folder()))
    return "\n".join(told)
