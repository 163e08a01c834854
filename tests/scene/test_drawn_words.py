"""Words in pictures: no sign is left out, those of the legends least of all."""

import numpy as np
import pytest
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkTextActor

from viewer.geometry.print_settings import PrintSettings
from viewer.scene.drawn_words import (
    fuller_face,
    in_own_face,
    set_words,
    shortened,
    width_px,
)
from viewer.scene.legends import legend
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.words import GERMAN, read_catalogue


def ink(text: str, bold: bool = False) -> np.ndarray:
    """Rows and columns of the pixels that a text of 40 px blackens."""
    with off_screen_window((400, 80)) as window:
        renderer, actor = vtkRenderer(), vtkTextActor()
        renderer.SetBackground(1.0, 1.0, 1.0)
        set_words(actor, text, bold)
        look = actor.GetTextProperty()
        look.SetFontSize(40)
        look.SetColor(0.0, 0.0, 0.0)
        actor.SetPosition(10, 20)
        renderer.AddViewProp(actor)
        window.AddRenderer(renderer)
        return np.argwhere(drawn(window).max(axis=2) < 100)


def test_vtks_own_face_is_known_to_lack_signs():
    assert all(map(in_own_face, "Aß −²…„° "))
    assert not any(map(in_own_face, "▲■Жβ→"))
    assert fuller_face(False).name == "DejaVuSans.ttf"


def test_a_triangle_and_a_square_have_their_shapes():
    triangle, square = ink("▲"), ink("■")
    for sign in (triangle, square):
        assert len(sign) > 200
    widths = [np.ptp(triangle[triangle[:, 0] == row, 1]) for row in np.unique(triangle[:, 0])]
    assert widths[0] < 0.2 * widths[-1]
    assert len(square) > 0.95 * np.prod(np.ptp(square, axis=0) + 1)  # full to its corners


@pytest.mark.parametrize("bold", [False, True])
def test_each_letter_of_a_greek_or_russian_name_is_drawn(bold):
    for name in ("Λαβή", "Рукоятка"):
        assert np.ptp(ink(name, bold)[:, 1]) > np.ptp(ink(name[:-1], bold)[:, 1]) + 8


@pytest.mark.parametrize("lens", list(Lens))
def test_every_sign_of_every_legend_can_be_drawn(lens):
    for entry in legend(lens, PrintSettings()).entries:
        assert not entry.letter or len(ink(entry.letter)) > 20


def test_what_is_said_in_german_needs_no_other_face_than_english():
    """A line with one strange sign would change its face; only those named here do."""
    strange = {
        sign
        for pair in read_catalogue(GERMAN).items()
        for text in pair
        for sign in text
        if sign.isprintable() and not in_own_face(sign)
    }
    assert all(len(ink(sign)) > 10 for sign in strange), strange


@pytest.mark.parametrize("text", ["2  As in the file", "1  Рукоятка с очень длинным именем"])
def test_what_is_too_long_ends_in_three_dots_within_its_room(text):
    assert shortened(text, 15, True, 1_000) == text
    for room in (50, 90):
        short = shortened(text, 15, True, room)
        assert width_px(short, 15, True) <= room
        assert short.endswith("…")
        one_more = text[: len(short)] + "…"
        assert width_px(one_more, 15, True) > room - 12  # nothing left out that would have fitted
