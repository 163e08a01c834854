"""Shots: what was on the screen drawn in another process, still and going round once."""

import io
import pickle
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from tests.scene.scenery import SETTINGS, pose_of, tilted
from tests.shapes import box
from viewer.errors import Cancelled
from viewer.geometry.mesh import Mesh
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.scene import palettes
from viewer.scene.legends import legend
from viewer.scene.lenses import Lens
from viewer.scene.pictures import LEGEND_SHARE
from viewer.scene.shots import Shot, ShotPane, draw_still, draw_turntable, still_file
from viewer.scene.side_by_side import CAPTION_SIZE, LINE_SIZE, Caption
from viewer.scene.themes import LIGHT

SIZE = (480, 300)
LONG = box((-30, -5, -5), (30, 5, 5))


def shot(*turns: np.ndarray, mesh: Mesh = LONG, towards=(0.0, -1.0, 0.0), **changes) -> Shot:
    away = np.array(towards) / np.linalg.norm(towards)
    panes = tuple(
        ShotPane(Caption(f"{k}  pose", ("Touch: 0 mm²",)), pose_of(mesh, turn))
        for k, turn in enumerate(turns, 1)
    )
    eye = {
        "position_mm": list(np.array([0.0, 0.0, 5.0]) + 200.0 * away),
        "focal_mm": [0.0, 0.0, 5.0],
        "view_up": [0.0, 0.0, 1.0],
        "view_angle_deg": 28.0,
    }
    given = {
        "mesh": mesh,
        "face_classes": np.zeros(mesh.face_count, np.uint8),
        "settings": SETTINGS,
        "lens": Lens.CLASSES,
        "legend": legend(Lens.CLASSES, SETTINGS),
        "panes": panes,
        "eye": eye,
        "aspect": 1.5,
        "theme": LIGHT,
        "size_px": SIZE,
    }
    return Shot(**(given | changes))


def part_pixels(image: np.ndarray) -> np.ndarray:
    """Rows and columns of the part, without its legend."""
    stage = image[:, : int(image.shape[1] * (1 - LEGEND_SHARE)) - 2] / 255.0
    return np.argwhere(np.abs(stage - np.array(palettes.WARM_GREY)).max(axis=2) < 0.03)


def test_a_still_has_its_size_the_part_where_the_eye_looked_and_a_legend():
    image = draw_still(shot(np.eye(3)))
    assert image.shape == (300, 480, 3)
    middle = part_pixels(image).mean(axis=0)
    np.testing.assert_allclose(middle, [150, 480 * (1 - LEGEND_SHARE) / 2], atol=6)
    split = round(480 * (1 - LEGEND_SHARE)) + 2
    purple = np.abs(image[:, split:] / 255.0 - palettes.REDDISH_PURPLE).max(axis=2) < 0.02
    assert purple.sum() > 60


def test_a_pane_narrower_than_on_the_screen_sees_as_much_from_side_to_side():
    """The box is 60 mm long; its share of the width is that on the screen (CALC)."""
    seen_mm = 2 * 195.0 * np.tan(np.radians(14.0)) * 1.5  # at its front face, aspect 1.5
    wide = draw_still(shot(np.eye(3)))
    two = draw_still(shot(np.eye(3), np.eye(3)))
    for image, pane_px in ((wide, 480 * (1 - LEGEND_SHARE)), (two, 240 * (1 - LEGEND_SHARE))):
        columns = part_pixels(image)[:, 1]
        columns = columns[columns < pane_px - 2]
        aspect = pane_px / 300
        share = 60.0 / (seen_mm if aspect < 1.5 else seen_mm * aspect / 1.5)
        assert np.ptp(columns) / pane_px == pytest.approx(share, rel=0.05)


def test_two_poses_stand_side_by_side_in_one_picture():
    image = draw_still(shot(np.eye(3), tilted(90.0)))
    places = part_pixels(image)
    half = 240 * (1 - LEGEND_SHARE)
    left, right = places[places[:, 1] < half], places[places[:, 1] > half]
    assert np.ptp(left[:, 1]) > 3 * np.ptp(left[:, 0])  # lies
    assert np.ptp(right[:, 0]) > 3 * np.ptp(right[:, 1])  # stands


def test_a_turntable_goes_round_once_and_the_part_fits_every_picture():
    frames = draw_turntable(shot(np.eye(3)), 8)
    assert len(frames) == 8
    widths = []
    for frame in frames:
        places = part_pixels(frame)
        assert frame.shape == (300, 480, 3)
        assert places[:, 1].min() > 2
        assert places[:, 1].max() < 480 * (1 - LEGEND_SHARE) - 4
        widths.append(np.ptp(places[:, 1]))
    # A box of 60 × 10 mm: long from the front and the back, short from its ends.
    assert widths[0] > 4 * widths[2]
    assert widths[4] == pytest.approx(widths[0], abs=3)
    assert widths[6] == pytest.approx(widths[2], abs=3)


def test_a_turntable_is_no_wider_than_960_and_can_be_cancelled():
    large = shot(np.eye(3), size_px=(1920, 1200))
    assert draw_turntable(large, 1)[0].shape == (600, 960, 3)
    progress = Progress(lambda fraction, doing: progress.cancel() if fraction > 0.3 else None)
    with pytest.raises(Cancelled):
        draw_turntable(shot(np.eye(3)), 8, progress)


def test_a_shot_travels_to_another_process_and_comes_back_as_the_same_picture():
    one = shot(np.eye(3))
    assert pickle.loads(pickle.dumps(one)).size_px == SIZE
    data = run_in_own_process(still_file, one)
    read = np.asarray(Image.open(io.BytesIO(data)).convert("RGB"))
    np.testing.assert_array_equal(read, draw_still(one))


@pytest.mark.parametrize("lines", [0, 1, 5])
def test_captions_of_a_small_turntable_never_lie_on_a_tall_part(lines):
    tall = box((-4, -4, 0), (4, 4, 90))
    words = Caption("1  tall", tuple(f"Number {k}: 0 mm²" for k in range(lines)))
    with_words = shot(np.eye(3), mesh=tall)
    with_words = replace(with_words, panes=(replace(with_words.panes[0], caption=words),))
    frames = draw_turntable(with_words, 4)
    below = (LINE_SIZE * lines + CAPTION_SIZE) * 1.45 + 10
    for frame in frames:
        rows = part_pixels(frame)[:, 0]
        assert rows.min() >= min(below, 0.45 * 300) - 1
        assert rows.max() < 299
        assert np.ptp(rows) > 0.8 * (300 - below) / 1.15  # and it fills what is left
