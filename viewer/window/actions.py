"""Makes the actions of the table, puts them into the menus, and keeps their state true."""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar

from viewer.document.document import Document
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.window.action_table import ENTRIES, MENUS
from viewer.window.choices import Choices, Extent, TurnMode
from viewer.window.document_signals import DocumentSignals

CLASS_OF = {"mark_a": CLASS_A, "mark_b": CLASS_B, "mark_erase": UNMARKED}
EXTENT_OF = {
    "extent_brush": Extent.BRUSH,
    "extent_crease": Extent.CREASE,
    "extent_patch": Extent.PATCH,
}


class Actions(QObject):
    """All actions by name in `by_key`; each calls its verb when it is triggered."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        verbs: dict[str, Callable[[], object]],
        parent: QObject,
    ) -> None:
        """`verbs` holds one function for every key of the table."""
        super().__init__(parent)
        self._document, self._choices = document, choices
        self.by_key: dict[str, QAction] = {}
        groups: dict[str, QActionGroup] = {}
        for entry in ENTRIES:
            action = QAction(entry.text, self)
            action.setObjectName(entry.key)
            action.setData(entry.menu.replace("&", "").replace("/", ", "))
            action.setShortcut(QKeySequence(entry.keys))
            action.setToolTip(entry.tip)
            action.setStatusTip(entry.tip)
            action.setCheckable(entry.checkable)
            action.triggered.connect(verbs[entry.key])
            if entry.group:
                group = groups.setdefault(entry.group, QActionGroup(self))
                group.addAction(action)
            self.by_key[entry.key] = action
        signals.changed.connect(self.refresh)
        for signal in (
            choices.stage_changed,
            choices.lens_changed,
            choices.mark_changed,
            choices.turn_mode_changed,
            choices.supports_changed,
            choices.strip_changed,
        ):
            signal.connect(self.refresh)
        self.refresh()

    def fill(self, bar: QMenuBar) -> dict[str, QMenu]:
        """Put every action into its menu; returns the menus by path."""
        menus = {title: bar.addMenu(title) for title in MENUS}
        for entry in ENTRIES:
            path = entry.menu
            if path not in menus:
                above, _, title = path.rpartition("/")
                menus[path] = menus[above].addMenu(title)
            if entry.line_before:
                menus[path].addSeparator()
            menus[path].addAction(self.by_key[entry.key])
        return menus

    def refresh(self, *_: object) -> None:
        """Enable, check and name the actions by the document and the choices."""
        document, choices, actions = self._document, self._choices, self.by_key
        has_part = document.state.part is not None
        for entry in ENTRIES:
            if entry.needs_part:
                actions[entry.key].setEnabled(has_part)
        for key, verb, step in (
            ("undo", "&Undo", document.undo_label),
            ("redo", "&Redo", document.redo_label),
        ):
            actions[key].setEnabled(bool(step))
            actions[key].setText(f"{verb}: {step}" if step else verb)
        pinned = document.state.pinned_pose
        actions["pin"].setEnabled(has_part and pinned != document.state.pose)
        actions["unpin"].setEnabled(pinned is not None)
        actions["to_pinned"].setEnabled(pinned is not None and pinned != document.state.pose)
        actions["unmark_all"].setEnabled(bool(document.state.face_classes.any()))
        actions[f"stage_{choices.stage.name.lower()}"].setChecked(True)
        actions[f"lens_{choices.lens.value}"].setChecked(True)
        actions["supports"].setChecked(choices.supports)
        actions["height_strip"].setChecked(choices.strip)
        actions["turn_rings"].setChecked(choices.turn_mode is TurnMode.RINGS)
        actions["turn_stand"].setChecked(choices.turn_mode is TurnMode.STAND)
        for key, face_class in CLASS_OF.items():
            actions[key].setChecked(choices.face_class == face_class)
        for key, extent in EXTENT_OF.items():
            actions[key].setChecked(choices.extent is extent)
