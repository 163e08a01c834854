"""The user's own shop: a folder of plain TOML files beside the examples the program brings.

    machines/ materials/ pairs/ processes/    one file each, named after the thing
    finished-prints.toml                      what prints really took

The folder is the one that SHOWSIDE_SHOP names (a shop's shared drive, say), or one among the
user's settings.
"""

import os
import re
import tomllib
from pathlib import Path

import msgspec
import platformdirs
import tomli_w

from viewer.errors import CannotWrite, RequestProblem, UnreadableFile
from viewer.files.atomic_write import cannot_write, replacing
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.machines import Machine
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process
from viewer.shop.shop import Shop, example_shop, read_shop
from viewer.shop.toml_text import KINDS, read_toml
from viewer.shop.toml_writing import write_toml
from viewer.words import say

Thing = Machine | Material | Pair | Process
_PRINTS = "finished-prints.toml"


def shop_folder() -> Path:
    """Where the user's own shop is kept; it need not be there yet."""
    named = os.environ.get("SHOWSIDE_SHOP")
    return Path(named) if named else platformdirs.user_config_path("showside", False) / "shop"


def read_user_shop(folder: Path | None = None) -> Shop:
    """The user's own things and then the examples; `problems` tells of files left aside."""
    return example_shop().with_own(read_shop(folder or shop_folder()))


def save_thing(thing: Thing, folder: Path | None = None) -> Path:
    """Keep a machine, material, pair or process; one of the same name is replaced.

    Returns the file. Raises CannotWrite.
    """
    place = (folder or shop_folder()) / _kind(thing)
    path = _file_of(thing, place) or _new_file(thing.name, place)
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise cannot_write(path, error) from error
    with replacing(path) as temporary:
        temporary.write_text(write_toml(thing), "utf-8")
    return path


def forget_thing(thing: Thing, folder: Path | None = None) -> bool:
    """Remove the user's own file of a thing; False where there is none. Raises CannotWrite."""
    path = _file_of(thing, (folder or shop_folder()) / _kind(thing))
    if path is None:
        return False
    try:
        path.unlink()
    except OSError as error:
        raise CannotWrite(
            say("{name} was not removed ({strerror}).", name=path.name, strerror=error.strerror)
        ) from error
    return True


def read_finished_prints(folder: Path | None = None) -> tuple[FinishedPrint, ...]:
    """The prints that were noted, oldest first. Raises UnreadableFile."""
    path = (folder or shop_folder()) / _PRINTS
    try:
        found = tomllib.loads(path.read_text("utf-8")).get("prints", [])
        return msgspec.convert(found, tuple[FinishedPrint, ...])
    except FileNotFoundError:
        return ()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, msgspec.ValidationError,
            RequestProblem) as error:  # fmt: skip
        raise UnreadableFile(
            say(
                "{name} cannot be read ({error}); correct it, or move it away to begin anew.",
                name=path.name,
                error=error,
            )
        ) from error


def note_finished_print(done: FinishedPrint, folder: Path | None = None) -> None:
    """Add a finished print to those noted. Raises UnreadableFile, CannotWrite."""
    write_finished_prints((*read_finished_prints(folder), done), folder)


def write_finished_prints(done: tuple[FinishedPrint, ...], folder: Path | None = None) -> None:
    """Note these finished prints in place of all others. Raises CannotWrite."""
    path = (folder or shop_folder()) / _PRINTS
    prints = [msgspec.to_builtins(each) for each in done]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise cannot_write(path, error) from error
    with replacing(path) as temporary:
        temporary.write_text(tomli_w.dumps({"prints": prints}), "utf-8")


def _kind(thing: Thing) -> str:
    return next(kind for kind, made in KINDS.items() if isinstance(thing, made))


def _file_of(thing: Thing, place: Path) -> Path | None:
    """The file that holds the thing of that name."""
    for path in sorted(place.glob("*.toml")):
        try:
            if read_toml(path.read_text("utf-8"), type(thing), path.name).name == thing.name:
                return path
        except (RequestProblem, OSError, UnicodeDecodeError):
            continue
    return None


def _new_file(name: str, place: Path) -> Path:
    """A file name made of the thing's name that no other file has."""
    slug = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "unnamed"
    path, count = place / f"{slug}.toml", 1
    while path.exists():
        count += 1
        path = place / f"{slug}-{count}.toml"
    return path
