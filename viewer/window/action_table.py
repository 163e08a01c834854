"""Every action of the window in one table: where it stands in the menus, its keys, what it does."""

from viewer.window.action_entry import MENUS, Entry
from viewer.window.file_actions import edit_actions, file_actions, last_file_actions
from viewer.window.mark_actions import mark_actions, stage_actions
from viewer.window.piece_actions import piece_actions
from viewer.window.program_actions import program_actions
from viewer.window.sheet_actions import sheet_actions
from viewer.window.trial_actions import trial_actions
from viewer.window.turn_actions import shop_actions, turn_actions
from viewer.window.view_actions import help_actions, view_actions

__all__ = ["ENTRIES", "MENUS", "Entry"]

ENTRIES: tuple[Entry, ...] = (
    *file_actions(),
    *sheet_actions(),
    *last_file_actions(),
    *edit_actions(),
    *help_actions(),
    *program_actions(),
    *stage_actions(),
    *mark_actions(),
    *turn_actions(),
    *shop_actions(),
    *piece_actions(),
    *trial_actions(),
    *view_actions(),
)
