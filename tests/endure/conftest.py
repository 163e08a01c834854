"""The proof that nothing of a window is left behind, as for the tests of the window."""

from tests.window.conftest import left, libraries_set_aside, nothing_left, own_settings

__all__ = ["left", "libraries_set_aside", "nothing_left", "own_settings"]
