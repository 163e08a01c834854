"""Makes the actions of the table, puts them into the menus, and keeps their state true."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QMenuBar

from viewer.document.document import Document
from viewer.document.kept_poses import place_of
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.window.action_table import ENTRIES, MENUS
from viewer.window.choices import PICTURE_SIZES, Choices, Extent, TurnMode
from viewer.window.document_signals import DocumentSignals
from viewer.window.kept_keys import all_keys
from viewer.window.language import language_choice
from viewer.words import say

CLASS_OF = {"mark_a": CLASS_A, "mark_b": CLASS_B, "mark_erase": UNMARKED}
EXTENT_OF = {
    "extent_brush": Extent.BRUSH,
    "extent_crease": Extent.CREASE,
    "extent_patch": Extent.PATCH,
    "extent_band": Extent.BAND,
    "extent_lasso": Extent.LASSO,
    "extent_seen_here": Extent.SEEN_HERE,
    "extent_seen_in_use": Extent.SEEN_IN_USE,
    "extent_change": Extent.CHANGE,
}


class Actions(QObject):
    """All actions by name in `by_key`; each calls its verb when it is triggered.

    refreshed : they fit document and choices; who knows more about some of them goes on from here
    """

    refreshed = Signal()

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
        keys = all_keys()
        for entry in ENTRIES:
            action = QAction(say(entry.text), self)
            action.setObjectName(entry.key)
            action.setData(_place(entry.menu))
            action.setShortcut(keys[entry.key])
            action.setToolTip(say(entry.tip))
            action.setStatusTip(say(entry.tip))
            action.setCheckable(entry.checkable)
            action.setIconVisibleInMenu(not entry.checkable)  # it would hide the check mark
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
            choices.volumes_changed,
            choices.own_triangles_changed,
            choices.presenting_changed,
            choices.comparing_changed,
            choices.picture_size_changed,
        ):
            signal.connect(self.refresh)
        self.by_key[f"language_{language_choice()}"].setChecked(True)
        self.refresh()

    def fill(self, bar: QMenuBar) -> dict[str, QMenu]:
        """Put every action into its menu; returns the menus by path."""
        menus = {title: bar.addMenu(say(title)) for title in MENUS}
        for entry in ENTRIES:
            path = entry.menu
            if path not in menus:
                above, _, title = path.rpartition("/")
                menus[path] = menus[above].addMenu(say(title))
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
            actions[key].setText(f"{say(verb)}: {say(step)}" if step else say(verb))
        actions["as_received"].setEnabled(has_part and document.state.part.received is not None)
        pinned = document.state.pinned_pose
        actions["pin"].setEnabled(has_part and pinned != document.state.pose)
        actions["unpin"].setEnabled(pinned is not None)
        actions["to_pinned"].setEnabled(pinned is not None and pinned != document.state.pose)
        actions["swap_pinned"].setEnabled(actions["to_pinned"].isEnabled())
        kept = document.state.kept_poses
        is_kept = place_of(kept, document.state.pose) is not None
        actions["keep_pose"].setEnabled(has_part and not is_kept)
        poses = {document.state.pose, pinned, *(one.pose for one in kept)} - {None}
        actions["compare"].setEnabled(choices.comparing or (has_part and len(poses) > 1))
        for key in ("next_kept", "previous_kept"):
            actions[key].setEnabled(bool(kept) and not (is_kept and len(kept) == 1))
        for key in ("rename_kept", "note_kept", "remove_kept"):
            actions[key].setEnabled(is_kept)
        for key in ("kept_earlier", "kept_later"):
            actions[key].setEnabled(is_kept and len(kept) > 1)
        actions["export_kept"].setEnabled(bool(kept))
        actions["unmark_all"].setEnabled(bool(document.state.face_classes.any()))
        actions[f"stage_{choices.stage.name.lower()}"].setChecked(True)
        actions[f"lens_{choices.lens.value}"].setChecked(True)
        actions["supports"].setChecked(choices.supports)
        actions["height_strip"].setChecked(choices.strip)
        actions["machine_volumes"].setChecked(choices.volumes)
        actions["own_triangles"].setChecked(choices.own_triangles)
        actions["present"].setChecked(choices.presenting)
        for key, size_px in PICTURE_SIZES.items():
            actions[key].setChecked(size_px == choices.picture_px)
        actions["compare"].setChecked(choices.comparing)
        actions["turn_rings"].setChecked(choices.turn_mode is TurnMode.RINGS)
        actions["turn_stand"].setChecked(choices.turn_mode is TurnMode.STAND)
        for key, face_class in CLASS_OF.items():
            actions[key].setChecked(choices.face_class == face_class)
        for key, extent in EXTENT_OF.items():
            actions[key].setChecked(choices.extent is extent)
        self.refreshed.emit()


def _place(menu: str) -> str:
    """Where an action stands, for the finder: "View, Camera"."""
    return ", ".join(say(title).replace("&", "") for title in menu.split("/"))
