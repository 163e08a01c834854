"""Leaves matplotlib.pyplot unloaded until something is drawn with it, which the window never does.

pyvista imports it for its charts; loading it takes a sixth of the time to the first picture.
"""

import importlib
import sys
from importlib.util import find_spec
from types import ModuleType
from typing import Any

NAME = "matplotlib.pyplot"


class _Later(ModuleType):
    """Stands in for the module, and becomes it with the first use."""

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):  # what Python itself asks of modules
            raise AttributeError(name)
        sys.modules.pop(NAME, None)
        real = importlib.import_module(NAME)
        self.__dict__.update(vars(real))
        return getattr(real, name)


def leave_pyplot_for_later() -> None:
    """To be called before pyvista is imported; without effect once pyplot is loaded."""
    spec = None if NAME in sys.modules else find_spec(NAME)
    if spec is not None:
        later = _Later(NAME)
        later.__spec__ = spec
        sys.modules[NAME] = later
