"""The trials in stage Try: what was printed and how it came out, a row each."""

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QGridLayout,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from viewer.live.live_trials import LiveTrials
from viewer.shop.trial_steps import PIECE_NAMES, outcome_text, trial_text
from viewer.shop.trials import Trial
from viewer.window.pieces import ActionButton, column, text_label
from viewer.words import later, say

MOST_ROWS = 4  # shown without scrolling
TIP = later("Return or double click: change. Delete: remove.")
NONE_YET = later(
    "No result yet. Print a test piece, look at each of its steps, and write down how it came out: "
    "what it teaches is shown below."
)


class TrialBox(QWidget):
    """current : the chosen trial or None; chosen : it is another one."""

    chosen = Signal()

    def __init__(self, live: LiveTrials, actions: dict[str, QAction]) -> None:
        super().__init__()
        self._live, self._actions = live, actions
        self._listed: tuple[Trial, ...] = ()
        layout = column(gap=6)
        self.setLayout(layout)
        layout.addWidget(ActionButton(actions["write_trial"], say("Write down …"), leading=True))
        self.none_yet = text_label(say(NONE_YET), quiet=True)
        self.all = QCheckBox(say("Of all machines"))
        self.all.setAccessibleName(say("Trials of all machines and materials"))
        self.all.setToolTip(say("Also those of other machines and materials than this job's."))
        self.rows = TrialList(self)
        self.notes = text_label(quiet=True)
        for piece in (self.none_yet, self.all, self.rows, self.notes):
            layout.addWidget(piece)
        self._buttons = QWidget()
        grid = QGridLayout(self._buttons)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(6)
        for place, (key, text) in enumerate((
            ("change_trial", say("Change …")), ("remove_trial", say("Remove")),
            ("bring_back_trial", say("Bring back")), ("export_trials", "CSV …"),
        )):  # fmt: skip
            grid.addWidget(ActionButton(actions[key], text), *divmod(place, 2))
        layout.addWidget(self._buttons)
        self.all.toggled.connect(self.show_trials)
        self.rows.currentRowChanged.connect(lambda _: self.chosen.emit())
        self.rows.itemDoubleClicked.connect(lambda _: self.change())
        live.changed.connect(self.show_trials)
        self.show_trials()

    @property
    def current(self) -> Trial | None:
        """The chosen trial."""
        row = self.rows.currentRow()
        return self._listed[row] if 0 <= row < len(self._listed) else None

    def change(self) -> None:
        """Open the form for the chosen trial."""
        self._actions["change_trial"].trigger()

    def remove(self) -> None:
        """Forget the chosen trial."""
        self._actions["remove_trial"].trigger()

    def choose(self, key: str) -> None:
        """Choose a trial by its key."""
        keys = [each.key for each in self._listed]
        if key in keys:
            self.rows.setCurrentRow(keys.index(key))

    def show_trials(self, *_: object) -> None:
        """List what is known, the newest first."""
        known, kept = self._live.known, self.current
        self._listed = tuple(reversed(known if self.all.isChecked() else self._own(known)))
        blocker = QSignalBlocker(self.rows)
        self.rows.clear()
        for each in self._listed:
            where = "" if self._live.in_job(each.key) else say("In the shop, not in this job.")
            photo = " ▣" if each.photo else ""
            first = f"{say(PIECE_NAMES[each.kind])}{photo}"
            item = QListWidgetItem(f"{first}\n{each.day}  {outcome_text(each)}")
            item.setToolTip("\n".join(filter(None, (trial_text(each), where, say(TIP)))))
            self.rows.addItem(item)
        blocker.unblock()
        if self._listed:
            self.rows.setCurrentRow(0)
            self.choose(kept.key if kept else "")
            row_px, rows = self.rows.sizeHintForRow(0), min(len(self._listed), MOST_ROWS)
            self.rows.setFixedHeight(row_px * rows + 2 * self.rows.frameWidth() + 2)
        self.none_yet.setVisible(not self._listed)
        self.rows.setVisible(bool(self._listed))
        self.all.setVisible(len(known) > len(self._own(known)))
        self._buttons.setVisible(bool(known) or self._live.can_bring_back)
        self.notes.setText("\n".join(self._live.notes))
        self.notes.setVisible(bool(self._live.notes))
        self.chosen.emit()

    def _own(self, known: tuple[Trial, ...]) -> tuple[Trial, ...]:
        """Those of the job, and those of its machine with its material."""
        chosen = self._live.chosen()
        if chosen is None:
            return known
        here = (chosen.machine.name, chosen.materials.model.name)
        return tuple(
            each
            for each in known
            if self._live.in_job(each.key) or (each.machine, each.model) == here
        )


class TrialList(QListWidget):
    """The rows, two lines each; Return changes, Delete removes, letters stay shortcuts."""

    def __init__(self, box: TrialBox) -> None:
        super().__init__()
        self._box = box
        self.setAccessibleName(say("Trials"))
        self.setToolTip(say(TIP))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)

    def event(self, event: QEvent) -> bool:
        """Keep these keys from shortcuts of the same name while the list has them."""
        ours = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Delete)
        if event.type() == QEvent.Type.ShortcutOverride and event.key() in ours:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return changes, Delete removes."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._box.change()
        elif event.key() == Qt.Key.Key_Delete:
            self._box.remove()
        else:
            super().keyPressEvent(event)

    def keyboardSearch(self, search: str) -> None:
        """Letters are shortcuts of the window, not a search in these few rows."""
