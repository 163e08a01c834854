"""The user's own company: kept beside the shop, and what is wrong with it said in a sentence."""

import io

import numpy as np
import pytest
from PIL import Image

from viewer.errors import FileProblem, RequestProblem, UnreadableFile
from viewer.files.maker_file import read_logo, read_maker, write_maker
from viewer.shop.maker import Maker


def test_nothing_is_known_at_first(tmp_path):
    assert read_maker(tmp_path / "not there") == Maker()


def test_what_is_written_is_read_again_and_a_logo_goes_when_it_is_taken_away(tmp_path):
    Image.fromarray(np.full((500, 900, 3), 90, np.uint8)).save(tmp_path / "own.jpg")
    logo = read_logo(tmp_path / "own.jpg")
    folder = tmp_path / "shop"
    for maker in (Maker('Brook & "Prints"', "CHF", logo), Maker("Brook", "", b"")):
        write_maker(maker, folder)
        assert read_maker(folder) == maker
    with Image.open(io.BytesIO(logo)) as image:
        assert image.format == "PNG"
        assert image.width <= 600
        assert image.height <= 240
        assert image.width / image.height == pytest.approx(1.8, abs=0.02)


@pytest.mark.parametrize("text", ["company = 3", "company = [", 'company = "' + "x" * 81 + '"'])
def test_a_spoilt_file_is_told_and_left_alone(tmp_path, text):
    (tmp_path / "maker.toml").write_text(text, "utf-8")
    with pytest.raises(UnreadableFile, match=r"maker\.toml cannot be read"):
        read_maker(tmp_path)
    assert (tmp_path / "maker.toml").read_text("utf-8") == text


def test_what_is_no_picture_is_no_logo(tmp_path):
    (tmp_path / "logo.png").write_bytes(b"\x89PNG\r\n\x1a\nspoilt")
    with pytest.raises(FileProblem, match="cannot be read as a picture"):
        read_logo(tmp_path / "logo.png")
    with pytest.raises(FileProblem, match="There is no file"):
        read_logo(tmp_path / "nowhere.png")
    (tmp_path / "maker-logo.png").write_bytes(b"GIF89a")
    (tmp_path / "maker.toml").write_text('company = "Brook"', "utf-8")
    assert read_maker(tmp_path) == Maker("Brook")


@pytest.mark.parametrize("maker", [{"company": "a\nb"}, {"currency": "much too long"}])
def test_values_that_cannot_stand_on_a_sheet_are_refused(maker):
    with pytest.raises(RequestProblem, match="Your company"):
        Maker(**maker)
