"""The window on screens of 1.5 and 2 pixels to a point: the same tests by mouse, drawn finer.

Qt reads the scale once, when a program starts; each scale is therefore a test run of its own, on a
virtual screen with room for it.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

MOUSE, LAYOUT = "test_window_by_mouse.py", "test_window_layout.py"
OF_BOTH = (
    f"{MOUSE}::test_a_stroke_paints_a_band_of_the_brush_width_and_is_one_undo_step",
    f"{LAYOUT}::test_no_words_are_cut_off_in_any_stage[1280x800]",
    "test_high_dpi.py::test_a_point_of_the_scene_has_this_many_pixels",
)
# What does not hang on whether the scale is whole is tried at one of them.
SAME_TESTS = {
    "1.5": (
        *OF_BOTH,
        f"{MOUSE}::test_panning_carries_the_point_under_the_pointer",
        f"{LAYOUT}::test_scene_and_panels_do_not_overlap[1280x800]",
    ),
    "2": (
        *OF_BOTH,
        f"{MOUSE}::test_standing_on_a_face_by_click",
        f"{MOUSE}::test_the_scene_is_really_drawn",
    ),
}
SCALE = "QT_SCALE_FACTOR"


@pytest.mark.skipif(SCALE not in os.environ, reason="runs within the other test of this file")
def test_a_point_of_the_scene_has_this_many_pixels(opened):
    """What is drawn is as fine as the screen."""
    scale = float(os.environ[SCALE])
    canvas = opened.canvas
    assert canvas.devicePixelRatioF() == pytest.approx(scale)
    drawn_px = canvas.grab().size()
    assert drawn_px.width() == pytest.approx(canvas.width() * scale, abs=1)
    render_px = opened.window.view.interactor.render_window.GetSize()
    assert render_px[0] == pytest.approx(canvas.width() * scale, abs=1)


@pytest.mark.skipif(SCALE in os.environ, reason="a run at a scale starts no other")
@pytest.mark.parametrize("scale", SAME_TESTS)
def test_the_window_works_at_this_scale(scale):
    here = Path(__file__).parent
    tests = [str(here / name) for name in SAME_TESTS[scale]]
    screen = ["-o", "xvfb_width=2800", "-o", "xvfb_height=2000", "-o", "timeout=280"]
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *screen, *tests],
        env={**os.environ, SCALE: scale},
        cwd=here.parents[1],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-3000:]
    assert f"{len(SAME_TESTS[scale])} passed" in done.stdout
