"""Pictures written and opened again: size, frames, duration, colours, all or nothing."""

import io

import numpy as np
import pytest
from PIL import Image, features

from viewer.errors import Cancelled, CannotWrite
from viewer.files.picture_files import still_bytes, turntable_bytes, write_picture
from viewer.progress import Progress

WIDTH, HEIGHT, COUNT, FRAME_MS = 64, 40, 12, 80


def frames() -> list[np.ndarray]:
    """A bar that moves over a shaded ground."""
    ground = np.tile(np.linspace(40, 220, WIDTH).astype(np.uint8)[None, :, None], (HEIGHT, 1, 3))
    made = []
    for k in range(COUNT):
        frame = ground.copy()
        frame[:, 4 * k : 4 * k + 4] = (213, 94, 0)
        made.append(frame)
    return made


def test_a_still_picture_comes_back_byte_for_byte():
    image = np.random.default_rng(1).integers(0, 256, (HEIGHT, WIDTH, 3), np.uint8)
    read = Image.open(io.BytesIO(still_bytes(image)))
    assert read.format == "PNG"
    np.testing.assert_array_equal(np.asarray(read.convert("RGB")), image)


@pytest.mark.parametrize(("suffix", "kind"), [(".gif", "GIF"), (".webp", "WEBP")])
def test_a_turntable_has_all_frames_their_size_and_time_and_runs_for_ever(suffix, kind):
    assert features.check("webp")
    read = Image.open(io.BytesIO(turntable_bytes(frames(), suffix, FRAME_MS)))
    assert read.format == kind
    assert read.size == (WIDTH, HEIGHT)
    assert read.n_frames == COUNT
    assert read.info["loop"] == 0
    total_ms = 0
    for k, frame in enumerate(frames()):
        read.seek(k)
        read.load()
        total_ms += read.info["duration"]
        shown = np.asarray(read.convert("RGB")).astype(int)
        assert np.abs(shown - frame).mean() < 6
        assert np.abs(shown[20, 4 * k + 1] - (213, 94, 0)).max() < 40
    assert total_ms == COUNT * FRAME_MS


def test_frames_of_a_gif_share_one_palette_so_that_what_stands_still_does_not_flicker():
    read = Image.open(io.BytesIO(turntable_bytes(frames(), ".gif", FRAME_MS)))
    still = []
    for k in range(COUNT):
        read.seek(k)
        still.append(np.asarray(read.convert("RGB"))[:, 56:].copy())
    assert all(np.array_equal(still[0], other) for other in still[1:])


def test_small_patches_of_a_gif_keep_their_colours_beside_large_shaded_grounds():
    """The colours of classes and islands (Okabe & Ito) in patches of 12 × 12 pixels."""
    colours = np.array([(213, 94, 0), (230, 159, 0), (0, 114, 178), (0, 158, 115), (204, 121, 167)])
    ramp = np.linspace(60, 250, 480 * 300).reshape(300, 480)
    frame = np.stack([ramp, 0.97 * ramp, 0.93 * ramp], axis=2).astype(np.uint8)
    for k, colour in enumerate(colours):
        frame[20 + 30 * k : 32 + 30 * k, 20:32] = colour
    read = Image.open(io.BytesIO(turntable_bytes([frame, frame[::-1].copy()], ".gif", FRAME_MS)))
    shown = np.asarray(read.convert("RGB")).astype(int)
    for k, colour in enumerate(colours):
        assert np.abs(shown[25 + 30 * k, 25] - colour).max() <= 12
    assert np.abs(shown - frame).mean() < 3


def test_another_suffix_is_refused_in_one_sentence():
    with pytest.raises(CannotWrite, match=r"cannot be written as \.mp4; choose \.gif or \.webp"):
        turntable_bytes(frames(), ".mp4", FRAME_MS)


def test_a_cancel_while_packing_stops_it():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        turntable_bytes(frames(), ".gif", FRAME_MS, progress)


def test_a_picture_takes_the_place_of_the_old_one_as_a_whole(tmp_path):
    path = tmp_path / "part.png"
    write_picture(path, still_bytes(frames()[0]))
    progress = Progress()
    progress.cancel()
    before = path.read_bytes()
    with pytest.raises(Cancelled):
        write_picture(path, still_bytes(frames()[1]), progress)
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]
    with pytest.raises(CannotWrite, match="the folder does not exist"):
        write_picture(tmp_path / "none" / "part.png", b"x")
