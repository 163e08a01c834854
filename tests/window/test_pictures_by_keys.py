"""Pictures and turntables by real keys: name proposed, size chosen, progress, cancel, files."""

import io

import numpy as np
import pytest
from PIL import Image

from tests.shapes import post_and_cap
from tests.waiting import LONG_MS
from viewer.scene import shots
from viewer.scene.pictures import LEGEND_SHARE


@pytest.fixture
def kept(opened):
    """A small part with two kept poses, laid in the second, and small pictures."""
    opened.show(post_and_cap(), name="post and cap")
    opened.press_keys("Ctrl+3")
    opened.press_keys("K")
    opened.press_keys("X")
    opened.press_keys("K")
    opened.window.document.rename_kept(1, "On its side")
    opened.window.choices.set_picture_size((480, 300))
    opened.settle()
    return opened


def saved(opened, keys, path):
    """Press the key, answer with the path, wait until the file is there."""
    opened.answers.path = path
    opened.press_keys(keys)
    assert opened.window.busy.busy
    opened.qtbot.waitUntil(lambda: not opened.window.busy.busy, timeout=LONG_MS)
    assert not opened.window.notice.sentence
    return Image.open(io.BytesIO(path.read_bytes()))


def test_f6_writes_what_the_scene_shows_under_a_proposed_name(kept, tmp_path):
    read = saved(kept, "F6", tmp_path / "a.png")
    assert kept.answers.asked == ["picture post-and-cap-on-its-side-touch.png"]
    assert read.size == (480, 300)
    image = np.asarray(read.convert("RGB")).astype(int)
    # The same picture as on the screen: the part in the middle of its pane, in its own colours.
    stage = image[:, : int(480 * (1 - LEGEND_SHARE))]
    assert len(np.unique(stage.reshape(-1, 3), axis=0)) > 200
    assert "a.png" in kept.window.statusBar().currentMessage()
    assert list(tmp_path.iterdir()) == [tmp_path / "a.png"]


def test_in_front_of_a_client_with_poses_side_by_side(kept, tmp_path):
    kept.press_keys("C")
    kept.press_keys("F5")
    kept.qtbot.waitUntil(lambda: not kept.window.live_compare.pending, timeout=LONG_MS)
    told = []
    kept.window.picturing.progressed.connect(
        lambda *_: told.append(kept.window.pictures._words.text())
    )
    read = saved(kept, "F6", tmp_path / "b.png")
    assert kept.answers.asked == ["picture post-and-cap-compared-touch.png"]
    assert read.size == (480, 300)
    assert told
    assert told[0].endswith("Escape stops it.")
    assert not kept.window.pictures._words.isVisible()
    assert kept.window.choices.presenting
    shot = kept.window.pictures.shot()
    assert [pane.caption.title for pane in shot.panes] == [
        "1  Pose 1", "2  Present pose (On its side)",
    ]  # fmt: skip
    assert shot.panes[0].caption.lines[0].startswith("Touch: ")
    assert all(pane.measures.tier == "full" for pane in shot.panes)


def test_f7_writes_a_turntable_with_all_its_frames(kept, tmp_path):
    read = saved(kept, "F7", tmp_path / "c.gif")
    assert kept.answers.asked == ["turntable post-and-cap-on-its-side-touch.gif"]
    assert read.size == (480, 300)
    total_ms = 0
    for k in range(read.n_frames):
        read.seek(k)
        total_ms += read.info["duration"]
    assert total_ms == shots.FRAMES * shots.FRAME_MS
    assert read.n_frames <= shots.FRAMES
    assert read.n_frames > shots.FRAMES / 2  # frames that are alike are packed as one
    assert read.info["loop"] == 0


def test_escape_stops_a_turntable_and_leaves_no_file_and_the_presentation_goes_on(kept, tmp_path):
    kept.press_keys("F5")
    kept.answers.path = tmp_path / "d.webp"
    kept.press_keys("F7")
    assert kept.window.busy.busy
    frames = []
    kept.window.picturing.progressed.connect(lambda *_: frames.append(1))
    kept.qtbot.waitUntil(lambda: bool(frames), timeout=LONG_MS)  # the window lives meanwhile
    kept.press_keys("Escape")
    assert not kept.window.busy.busy
    assert kept.window.choices.presenting
    kept.press_keys("Escape")
    assert not kept.window.choices.presenting
    assert list(tmp_path.iterdir()) == []


def test_sizes_are_chosen_by_keys_and_a_bad_place_is_told(kept, tmp_path):
    kept.press_keys("Shift+F6")
    assert kept.window.choices.picture_px == (1280, 800)
    assert kept.window.actions.by_key["picture_small"].isChecked()
    kept.window.choices.set_picture_size((240, 150))
    kept.answers.path = tmp_path / "none" / "e.png"
    kept.press_keys("F6")
    kept.qtbot.waitUntil(lambda: not kept.window.busy.busy, timeout=LONG_MS)
    assert "the folder does not exist" in kept.window.notice.sentence


def test_a_change_of_mind_writes_nothing(kept, tmp_path):
    kept.answers.path = None
    kept.press_keys("F6")
    assert not kept.window.busy.busy
