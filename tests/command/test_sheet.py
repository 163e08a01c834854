"""`showside sheet`: both kinds of file from one command, in the contract's words."""

import json

import jsonschema
import numpy as np
import pypdf
import pytest

from tests.files.test_sheet_html import Reader
from tests.made_sheets import kept_upside_down
from viewer.app import main
from viewer.files.job_file import write_job
from viewer.files.mesh_files import read_part
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.prepared_part import prepare_part
from viewer.resource_files import resource_file
from viewer.scene import sheet_pictures


@pytest.fixture(autouse=True)
def small_pictures(monkeypatch, tmp_path):
    monkeypatch.setattr(sheet_pictures, "WIDE_PX", (160, 120))
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.3mf"
    write_job(kept_upside_down(client="Fennimore & Daughters"), path)
    return path


def test_a_job_becomes_a_page_and_a_pdf(job, tmp_path, capsys, qapp):
    page, paper = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    assert main(["sheet", str(job), "--out", str(page), "--json", "--company", "Brook"]) == 0
    answer = json.loads(capsys.readouterr().out)
    schema = json.loads(resource_file("schema/sheet.json").read_text("utf-8"))
    jsonschema.validate(answer, schema)
    assert answer["bytes"] == page.stat().st_size < 10_000_000
    read = Reader(page.read_text("utf-8"))
    assert "For Fennimore & Daughters" in read.text["span"]
    assert "Brook" in read.text["span"]
    words = ["sheet", str(job), "--out", str(paper), "--language", "de", "--client", "Amsel"]
    assert main(words) == 0
    assert capsys.readouterr().out.startswith("Wrote ")
    text = " ".join(" ".join(p.extract_text().split()) for p in pypdf.PdfReader(paper).pages)
    assert "Amsel" in text
    assert "Klasse A" in text
    assert "0,2 mm" in text


def purple_share(image: np.ndarray) -> float:
    """CC79A7 keeps more red and blue than green in any light; nothing else in the pictures does."""
    red, green, blue = np.moveaxis(image, 2, 0)
    return float(((red > green + 25) & (blue > green + 12)).mean())


def test_pictures_show_what_they_say(job):
    """CALC: class A, the underside of the cap, is drawn in reddish purple in a view from below."""
    state = read_part(job)
    measures = measure_pose(
        prepare_part(state.part.mesh), state.face_classes, state.pose, state.settings, columns=True
    )
    drawn = sheet_pictures.sheet_pictures(state, measures)
    assert {name.split("-")[0] for name in drawn} == {"marked", "printed", "supports"}
    assert len(drawn) == 6
    near = {name: purple_share(image.astype(int)) for name, image in drawn.items()}
    assert near["marked-1"] > 0.02
    assert near["printed-1"] < 0.1 * near["marked-1"]
    labels = [one.label for one in sheet_pictures.sheet_legend(state, measures)]
    assert "touch on class A" in labels
    assert "touch on class B" not in labels  # there is none
    assert drawn["marked-1"].shape == (120, 160, 3)


@pytest.mark.parametrize(
    ("more", "code", "sentence"),
    [
        (["--out", "sheet.docx"], 1, "end its name in one of .pdf, .html"),
        (["--out", "sheet.pdf", "--machine", "No such"], 1, "No such"),
        (["--out", "sheet.pdf", "--language", "xx"], 2, "invalid choice"),
        ([], 2, "--out"),
    ],
)
def test_what_cannot_be_done_is_one_sentence(job, tmp_path, capsys, more, code, sentence):
    words = [str(tmp_path / word) if word.startswith("sheet.") else word for word in more]
    try:
        ended = main(["sheet", str(job), *words])
    except SystemExit as left:
        ended = left.code
    said = capsys.readouterr()
    assert ended == code
    assert sentence in said.err
    assert said.err.count("\n") == 1
    assert said.out == ""
    assert not list(tmp_path.glob("sheet.*"))
