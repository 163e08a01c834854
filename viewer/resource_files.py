"""The only door to the resources folder: checkout, wheel and frozen program alike."""

from importlib.resources import files
from pathlib import Path


def resource_file(name: str) -> Path:
    """The path of one resource, `name` relative to the resources folder (such as "icons/mark.svg").

    Raises FileNotFoundError when this installation lacks it.
    """
    inside = Path(str(files("viewer"))) / "resources"
    checkout = Path(__file__).resolve().parent.parent / "resources"
    for folder in (inside, checkout):
        if (folder / name).exists():
            return folder / name
    raise FileNotFoundError(f"{name} is missing from this installation")
