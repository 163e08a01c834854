"""Where the program keeps what it needs between runs and the user never asked for as a file."""

import os
from pathlib import Path

import platformdirs


def data_folder() -> Path:
    """The folder that SHOWSIDE_DATA names, or the user's data folder; it need not be there yet."""
    named = os.environ.get("SHOWSIDE_DATA")
    return Path(named) if named else platformdirs.user_data_path("showside", False)
