"""A folder that is filled as a whole or not at all, whether it was there before or not."""

import contextlib
import hashlib
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from viewer.files.atomic_write import cannot_write, make_folder


@contextlib.contextmanager
def filling(path: Path, readme: str) -> Iterator[Path]:
    """A folder to fill; when the block ends well, its files stand in `path`.

    readme : name of the file that lists each file's SHA-256: what an older one lists, and what is
        still as it was written then, does not stay beside the new files
    Raises CannotWrite for system errors; any exception leaves `path` as it was.
    """
    make_folder(path.parent)
    if path.exists():
        make_folder(path)  # says so where it is a file
    beside = path if path.is_dir() else path.parent
    try:
        made = Path(tempfile.mkdtemp(prefix=".pack-", dir=beside))
    except OSError as error:
        raise cannot_write(path, error) from error
    try:
        yield made
        if not path.exists():
            made.chmod(0o777 & ~_mask())
            os.replace(made, path)
            return
        _drop_older(path, readme)
        for file in sorted(made.iterdir()):
            os.replace(file, path / file.name)
    except OSError as error:
        raise cannot_write(path, error) from error
    finally:
        shutil.rmtree(made, ignore_errors=True)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _drop_older(folder: Path, readme: str) -> None:
    try:
        listed = set((folder / readme).read_text("utf-8").split())
    except (OSError, UnicodeDecodeError):
        return
    for file in folder.iterdir():
        if f"{file.name}:" in listed and file.is_file():
            with file.open("rb") as stream:
                ours = hashlib.file_digest(stream, "sha256").hexdigest() in listed
            if ours:
                file.unlink()
