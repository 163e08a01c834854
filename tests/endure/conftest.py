"""The proof that nothing of a window is left behind, as for the tests of the window."""

from tests.window.conftest import nothing_left, own_settings

__all__ = ["nothing_left", "own_settings"]
