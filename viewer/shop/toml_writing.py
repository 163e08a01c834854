"""Machines, materials, pairs and processes as plain TOML that people can read and change."""

from typing import Any

import msgspec
import tomli_w

from viewer.shop.machines import Machine
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process


def write_toml(thing: Machine | Material | Pair | Process) -> str:
    """The TOML that `read_toml` makes the same thing of."""
    return tomli_w.dumps(_plain(msgspec.to_builtins(thing)), multiline_strings=False)


def _plain(value: Any) -> Any:
    """Tuples as lists: TOML knows no others."""
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(each) for each in value]
    return value
