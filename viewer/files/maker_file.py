"""Who prints, kept beside the shop: maker.toml, and the logo as maker-logo.png."""

import io
import tomllib
from pathlib import Path

import msgspec
import tomli_w
from PIL import Image

from viewer.errors import RequestProblem, UnreadableFile
from viewer.files.atomic_write import cannot_write, make_folder, replacing
from viewer.files.picture_reading import read_picture_safely
from viewer.files.shop_folder import shop_folder
from viewer.shop.maker import Maker
from viewer.words import say

LOGO_SUFFIXES = (".png", ".jpg", ".jpeg", ".webp", ".gif", ".bmp")
_NAME, _LOGO = "maker.toml", "maker-logo.png"
_MOST_LOGO_PX, _MOST_LOGO_BYTES = (600, 240), 2_000_000


class _Kept(msgspec.Struct):
    company: str = ""
    currency: str = ""


def read_maker(folder: Path | None = None) -> Maker:
    """The user's company; an empty one where none was set. Raises UnreadableFile."""
    folder = folder or shop_folder()
    try:
        text = (folder / _NAME).read_text("utf-8")
    except FileNotFoundError:
        return Maker()
    except (OSError, UnicodeDecodeError) as error:
        raise _unreadable(error) from error
    try:
        kept = msgspec.convert(tomllib.loads(text), _Kept)
        return Maker(kept.company, kept.currency, _logo(folder / _LOGO))
    except (tomllib.TOMLDecodeError, msgspec.ValidationError, RequestProblem) as error:
        raise _unreadable(error) from error


def write_maker(maker: Maker, folder: Path | None = None) -> None:
    """Keep the company; its logo is removed where it has none. Raises CannotWrite."""
    folder = folder or shop_folder()
    make_folder(folder)
    with replacing(folder / _NAME) as temporary:
        kept = {"company": maker.company, "currency": maker.currency}
        temporary.write_text(tomli_w.dumps(kept), "utf-8")
    if maker.logo_png:
        with replacing(folder / _LOGO) as temporary:
            temporary.write_bytes(maker.logo_png)
        return
    try:
        (folder / _LOGO).unlink(missing_ok=True)
    except OSError as error:
        raise cannot_write(folder / _LOGO, error) from error


def read_logo(path: Path) -> bytes:
    """A picture file as a logo: a PNG of at most 600 × 240 pixels. Raises FileProblem."""
    file = io.BytesIO()
    Image.fromarray(read_picture_safely(path, _MOST_LOGO_PX)).save(file, "PNG")
    return file.getvalue()


def _logo(path: Path) -> bytes:
    try:
        data = path.read_bytes() if path.stat().st_size <= _MOST_LOGO_BYTES else b""
    except OSError:
        return b""
    return data if data.startswith(b"\x89PNG\r\n\x1a\n") else b""


def _unreadable(error: Exception) -> UnreadableFile:
    return UnreadableFile(
        say(
            "{name} cannot be read ({error}); correct it, or move it away to begin anew.",
            name=_NAME,
            error=error,
        )
    )
