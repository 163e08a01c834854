"""Pictures from strangers: upright, small enough, or one sentence, whatever the decoder does."""

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from viewer.errors import UnreadableFile
from viewer.files import picture_reading
from viewer.files.picture_reading import decoded, read_picture_safely
from viewer.progress import Progress


def picture(kind: str, width: int = 6, height: int = 4, **more) -> bytes:
    colours = np.zeros((height, width, 3), np.uint8)
    colours[0, 0] = 255, 0, 0
    stream = io.BytesIO()
    Image.fromarray(colours).save(stream, kind, **more)
    return stream.getvalue()


def pixels(content: bytes, most_px=None) -> np.ndarray:
    """What the child makes of it, here, since a process for each would take long."""
    return decoded("a.png", np.frombuffer(content, np.uint8), most_px, Progress())


@pytest.mark.parametrize("kind", ["PNG", "BMP", "GIF", "WEBP", "JPEG"])
def test_each_kind_is_read(kind):
    more = {"lossless": True} if kind == "WEBP" else {"quality": 100, "subsampling": 0}
    found = pixels(picture(kind, **(more if kind in ("WEBP", "JPEG") else {})))
    assert found.shape == (4, 6, 4)
    assert (found[..., 3] == 255).all()
    if kind != "JPEG":
        assert found[0, 0].tolist() == [255, 0, 0, 255]
        assert not found[..., :3].reshape(-1, 3)[1:].any()


def test_a_photo_taken_on_its_side_stands_upright():
    exif = Image.Exif()
    exif[0x0112] = 6  # EXIF 2.3, orientation: the right side is at the top (MEM)
    stream = io.BytesIO()
    Image.fromarray(np.zeros((4, 6, 3), np.uint8)).save(stream, "PNG", exif=exif)
    assert pixels(stream.getvalue()).shape == (6, 4, 4)


def test_a_large_one_is_made_smaller_and_keeps_its_shape():
    assert pixels(picture("PNG", 400, 200), (100, 100)).shape == (50, 100, 4)
    assert pixels(picture("PNG", 40, 20), (100, 100)).shape == (20, 40, 4)


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few bytes that claims to be so large."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(b"")), (b"IEND", b""))
    body = b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize("content", [bomb(60_000, 60_000), bomb(9_000, 9_000)])
def test_a_bomb_is_refused_before_it_is_unpacked(content):
    with pytest.raises(UnreadableFile):
        pixels(content)


@pytest.mark.parametrize(
    "content",
    [
        b"\x89PNG\r\n\x1a\nspoilt",
        b"GIF89a",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",  # would start an interpreter
        picture("PNG")[:-30],
        picture("JPEG")[:200],
        picture("TIFF"),
    ],
)
def test_what_is_none_of_these_is_refused(content):
    with pytest.raises(UnreadableFile, match=r"a\.png cannot be read as a picture"):
        pixels(content)


def test_it_is_read_in_a_process_of_its_own_with_limits(tmp_path, monkeypatch):
    path = tmp_path / "logo.png"
    path.write_bytes(picture("PNG"))
    assert read_picture_safely(path).shape == (4, 6, 4)
    monkeypatch.setattr(picture_reading, "MEMORY_LIMIT_BYTES", 50_000_000)  # too little to live
    with pytest.raises(UnreadableFile, match=r"logo\.png"):
        read_picture_safely(path)
    monkeypatch.setattr(picture_reading, "MOST_FILE_BYTES", 10)
    with pytest.raises(UnreadableFile, match="too large"):
        read_picture_safely(path)
    with pytest.raises(UnreadableFile, match="There is no file"):
        read_picture_safely(tmp_path / "nowhere.png")
