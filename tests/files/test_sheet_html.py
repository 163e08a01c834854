"""The sheet as a page: nothing but text where text belongs, nothing from anywhere else."""

import base64
import hashlib
import json
from html.parser import HTMLParser

import pytest

from tests import shapes
from tests.made_sheets import HOSTILE, facts_of, hostile_facts, kept_upside_down, made_of
from viewer.errors import CannotWrite
from viewer.files import sheet_html as module
from viewer.files.sheet_html import sheet_html, write_sheet_html
from viewer.shop.maker import Maker

KNOWN = {
    "html", "head", "meta", "link", "title", "style", "body", "header", "span", "img", "main", "h1",
    "h2", "p", "section", "canvas", "div", "button", "label", "input", "figure", "figcaption", "ul",
    "li", "table", "thead", "tbody", "tr", "th", "td", "strong", "footer", "script",
}  # fmt: skip


class Reader(HTMLParser):
    """Elements with their attributes, and the text of each kind of element."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict]] = []
        self.text: dict[str, list[str]] = {}
        self._open: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))
        if tag not in ("meta", "link", "img", "input"):
            self._open.append(tag)

    def handle_endtag(self, tag):
        assert self._open.pop() == tag  # everything is closed in its order

    def handle_data(self, data):
        if self._open and data.strip():
            self.text.setdefault(self._open[-1], []).append(data)


@pytest.fixture(scope="module")
def page() -> str:
    return sheet_html(made_of(facts_of(kept_upside_down(client="Fennimore & Daughters"))))


def test_names_stay_text_however_hostile():
    read = Reader(sheet_html(made_of(hostile_facts())))
    assert {tag for tag, _ in read.elements} <= KNOWN
    assert all(not name.startswith("on") for _, each in read.elements for name in each)
    assert sum(tag == "script" for tag, _ in read.elements) == 2
    assert any(HOSTILE in text for text in read.text["h1"])
    assert any(HOSTILE in text for text in read.text["th"])
    assert json.loads(read.text["script"][0])["unit_mm"] > 0


def test_nothing_comes_from_elsewhere(page):
    sources = [
        value
        for _, each in Reader(page).elements
        for name, value in each.items()
        if name in ("src", "href", "srcset", "action", "data")
    ]
    assert sources
    assert all(source.startswith("data:") for source in sources)
    assert "http:" not in page
    assert "https:" not in page
    assert "@import" not in page


def test_the_policy_names_the_script_and_the_style_that_are_there(page):
    read = Reader(page)
    policy = next(
        each["content"]
        for tag, each in read.elements
        if tag == "meta" and each.get("http-equiv") == "Content-Security-Policy"
    )
    assert policy.startswith("default-src 'none'")
    for text in (read.text["script"][1], read.text["style"][0]):
        digest = base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode()
        assert f"'sha256-{digest}'" in policy
    assert "unsafe" not in policy


def test_every_picture_has_words_and_every_button_a_name(page):
    read = Reader(page)
    pictures = [each for tag, each in read.elements if tag == "img"]
    assert len(pictures) == 7
    assert sum(bool(each["alt"]) for each in pictures) == 6  # that of the legend has its label
    canvas = next(each for tag, each in read.elements if tag == "canvas")
    assert canvas["aria-label"]
    assert canvas["tabindex"] == "0"
    assert all("aria-label" in e or e["value"] == "Home" for t, e in read.elements if t == "button")
    assert ("html", {"lang": "en"}) in read.elements


def test_the_reduction_is_stated(page):
    count = shapes.post_and_cap().face_count
    assert f"Here the part has {count} of {count} faces; no place of it lies farther than" in page


def test_logo_company_and_client_stand_at_its_head():
    logo = base64.b64decode(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5E"
        "rkJggg=="
    )
    facts = facts_of(kept_upside_down(client="A & B"), Maker("C < D", "", logo))
    read = Reader(sheet_html(made_of(facts)))
    assert base64.b64encode(logo).decode() in next(e["src"] for t, e in read.elements if t == "img")
    assert "C < D" in read.text["span"]
    assert "For A & B" in read.text["span"]


def test_a_page_that_grows_too_large_is_not_written(tmp_path, monkeypatch):
    made = made_of(facts_of(kept_upside_down()))
    write_sheet_html(made, tmp_path / "sheet.html")
    before = (tmp_path / "sheet.html").read_bytes()
    monkeypatch.setattr(module, "MOST_BYTES", 1000)
    with pytest.raises(CannotWrite, match="10 MB"):
        write_sheet_html(made, tmp_path / "sheet.html")
    assert (tmp_path / "sheet.html").read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.html"]
