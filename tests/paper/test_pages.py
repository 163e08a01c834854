"""The sheet on pages: A4, one or two, its text to be found in the file, something on each."""

import io
from dataclasses import replace

import numpy as np
import pypdf
import pytest
from PySide6.QtGui import QImage

from tests.made_sheets import (
    HOSTILE,
    UPSIDE_DOWN,
    facts_of,
    hostile_facts,
    kept_upside_down,
    made_of,
    table_state,
)
from viewer.document.state import KeptPose
from viewer.errors import CannotWrite
from viewer.geometry.pose import Pose
from viewer.paper.make_sheet import write_sheet
from viewer.paper.pages import PAGE_MM, page_images, sheet_pdf
from viewer.shop.cautions import CAUTIONS
from viewer.shop.maker import Maker

POINT_MM = 25.4 / 72.0


def pages_of(content: bytes) -> list[str]:
    """The text of each page without any spaces: lines break where they like.

    Between words there are plain spaces, as whoever searches the file types them.
    """
    reader = pypdf.PdfReader(io.BytesIO(content))
    for page in reader.pages:  # MEM: ISO 216, A4 is 210 × 297 mm
        size_mm = [float(side) * POINT_MM for side in page.mediabox[2:]]
        assert size_mm == pytest.approx([210, 297], abs=0.5)
    texts = [page.extract_text() for page in reader.pages]
    assert not any("\t" in text for text in texts)
    return [squeezed(text) for text in texts]


def squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.fixture(scope="module")
def made():
    state = kept_upside_down(client="Fennimore & Daughters")
    return made_of(facts_of(state, Maker("Brook Prints")))


def test_everything_is_to_be_found_in_the_text_of_two_pages(made, qapp):
    content = sheet_pdf(made)
    pages = pages_of(content)
    assert len(pages) == 2
    left_mm = {}  # where each text begins

    def visit(text, moved, placed, *_):
        left_mm[text.strip()] = POINT_MM * (placed[4] * moved[0] + moved[4])

    text = pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text(visitor_text=visit)
    assert "For Fennimore & Daughters" in text
    # Points of a list leave room for their dots: 12 of 96 to the inch, so some 3 mm.
    heading, point = made.sheet.shown[0].title, made.sheet.shown[0].points[0]
    starts = {key: left for key, left in left_mm.items() if key and point.startswith(key[:12])}
    assert min(starts.values()) - left_mm[heading] == pytest.approx(3.2, abs=0.6)
    sheet = made.sheet
    first, second = pages
    assert "Fennimore&Daughters" in first
    assert "BrookPrints" in first
    assert "finishedpart" in first  # as letters, no ligature
    for section in sheet.shown:
        assert all(squeezed(point) in first for point in section.points)
    for section in (*sheet.told, sheet.agreement):
        assert squeezed(section.title) in second
        assert all(squeezed(text) in second for text in (*section.sentences, *section.points))
        for row in section.table.rows if section.table else ():
            assert all(squeezed(cell) in second for cell in row)
    assert [second.count(name) for name in ("Date", "Signature")] == [2, 2]
    assert "page2of2" in second


def test_the_longest_sheet_still_has_two_pages(qapp):
    names = ("On its cap, as the designer had it in mind", "On a corner of the post", "Upright")
    kept = tuple(
        KeptPose(name, pose)
        for name, pose in zip(
            names, (UPSIDE_DOWN, Pose((1.0, 1.0, 1.0)), Pose((1.0, 0.0, 0.0))), strict=True
        )
    )
    facts = facts_of(
        table_state("A table with a name as long as they get " * 2).with_(kept_poses=kept)
    )
    numbers = replace(facts.chosen.numbers, cautions=tuple(CAUTIONS.values()))
    facts = replace(facts, chosen=replace(facts.chosen, numbers=numbers))
    for language in ("en", "de"):
        pages = pages_of(sheet_pdf(made_of(facts, language)))
        assert len(pages) == 2
        assert all(squeezed(name) in pages[1] for name in names)


def test_hostile_names_stay_text_on_paper(qapp):
    text = " ".join(pages_of(sheet_pdf(made_of(hostile_facts()))))
    assert "<script>alert('x')</script><imgsrc=x" in text
    assert squeezed(HOSTILE.split("\u202e")[0]) in text


def test_pages_as_pictures_show_text_from_edge_to_edge(made, qapp):
    images = page_images(made, 60)
    assert len(images) == 2
    for image in images:
        assert image.width() / image.height() == pytest.approx(PAGE_MM[0] / PAGE_MM[1], abs=0.01)
        shades = grey(image)
        dark = shades < 128
        assert 0.005 < dark.mean() < 0.5
        columns, rows = np.flatnonzero(dark.any(axis=0)), np.flatnonzero(dark.any(axis=1))
        margin = 60 * 12 / 25.4
        assert columns.min() > margin  # nothing lies in the margin, and the width is used
        assert columns.max() < image.width() - margin
        assert np.ptp(columns) > 0.8 * image.width()
        assert rows.min() > margin
        assert rows.max() < image.height() - 0.8 * margin


def grey(image: QImage) -> np.ndarray:
    image = image.convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1)
    return rows[:, : image.width()].astype(float)


def test_a_file_is_there_as_a_whole_or_not_at_all(made, tmp_path, qapp):
    write_sheet(made, tmp_path / "sheet.PDF")
    assert (tmp_path / "sheet.PDF").read_bytes().startswith(b"%PDF")
    with pytest.raises(CannotWrite, match=r"\.pdf, \.html"):
        write_sheet(made, tmp_path / "sheet.docx")
    with pytest.raises(CannotWrite, match="folder does not exist"):
        write_sheet(made, tmp_path / "nowhere" / "sheet.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.PDF"]
