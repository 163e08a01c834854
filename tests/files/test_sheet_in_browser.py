"""The page in a real browser: silent, offline, turned by mouse, touch and keys, wide and narrow."""

import io
import shutil

import numpy as np
import pytest
from PIL import Image

from tests.made_sheets import facts_of, hostile_facts, kept_upside_down, made_of
from viewer.files.sheet_html import write_sheet_html

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
BROWSER = next(
    filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), ""
)
pytestmark = pytest.mark.skipif(not BROWSER, reason="no Chromium is installed")
# Drawing without a graphics card; the sandbox needs rights that a test machine may not have.
FLAGS = ["--no-sandbox", "--enable-unsafe-swiftshader", "--use-angle=swiftshader"]


class Visit:
    """A page that was opened, with all it said and asked for."""

    def __init__(self, context, path) -> None:
        self.page, self.said, self.asked = context.new_page(), [], []
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("dialog", lambda dialog: (self.said.append("dialog"), dialog.dismiss()))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.goto(path.as_uri())

    @property
    def canvas(self):
        return self.page.locator("canvas")

    def drawn(self) -> np.ndarray:
        """The canvas, once it was drawn anew since the last time, in (height, width, 3) float."""
        self.page.wait_for_function(
            "count => document.querySelector('canvas').dataset.drawn !== count",
            arg=getattr(self, "_count", "0"),
        )
        self._count = self.page.evaluate("document.querySelector('canvas').dataset.drawn")
        data = self.canvas.screenshot()
        return np.asarray(Image.open(io.BytesIO(data)).convert("RGB"), float)


@pytest.fixture(scope="module")
def browser():
    with playwright.sync_playwright() as started:
        launched = started.chromium.launch(executable_path=BROWSER, args=FLAGS)
        yield launched
        launched.close()


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    path = tmp_path_factory.mktemp("sheet") / "sheet.html"
    write_sheet_html(made_of(facts_of(kept_upside_down())), path)
    return path


def changed(before: np.ndarray, after: np.ndarray) -> float:
    """Share of the pixels that are another colour."""
    return float((np.abs(before - after).max(axis=2) > 8).mean())


def red_share(picture: np.ndarray) -> float:
    """Share of the pixels that show unmarked faces of the made colours."""
    return float(((picture[..., 0] > 60) & (picture[..., 1] < 20)).mean())


def test_the_part_turns_by_mouse_keys_and_buttons(browser, written):
    visit = Visit(browser.new_context(viewport={"width": 700, "height": 500}), written)
    first = visit.drawn()
    # CALC: seen from above the front, the sides of the cap and the post are unmarked (kind 0, red).
    assert red_share(first) > 0.03
    visit.canvas.scroll_into_view_if_needed()
    box = visit.canvas.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    visit.page.mouse.move(x, y)
    visit.page.mouse.down()
    visit.page.mouse.move(x + 90, y - 30)
    visit.page.mouse.up()
    dragged = visit.drawn()
    assert changed(first, dragged) > 0.01
    visit.page.keyboard.press("Home")
    assert changed(first, visit.drawn()) < 0.001
    for _ in range(9):  # from 25° above to 65° below: the underside of the cap, class A, green
        visit.page.keyboard.press("ArrowDown")
    below = visit.drawn()
    assert ((below[..., 1] > 60) & (below[..., 0] < 20)).mean() > 0.03
    visit.page.keyboard.press("+")
    assert changed(below, visit.drawn()) > 0.01
    visit.page.get_by_role("button", name="As at first").click()
    assert changed(first, visit.drawn()) < 0.001
    visit.page.get_by_label("Show where supports touch").check()
    assert changed(first, visit.drawn()) > 0.03
    assert visit.said == []
    assert [url for url in visit.asked if not url.startswith("data:")] == [written.as_uri()]


def test_the_part_turns_and_comes_nearer_by_touch(browser, written):
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    visit = Visit(context, written)
    first = visit.drawn()
    visit.canvas.scroll_into_view_if_needed()
    box = visit.canvas.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    touch = context.new_cdp_session(visit.page)

    def send(kind, *points):
        places = [{"x": px, "y": py, "id": k} for k, (px, py) in enumerate(points)]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": places})

    send("touchStart", (x, y))
    send("touchMove", (x + 60, y))
    send("touchEnd")
    turned = visit.drawn()
    assert changed(first, turned) > 0.01
    send("touchStart", (x - 20, y), (x + 20, y))
    send("touchMove", (x - 60, y), (x + 60, y))
    send("touchEnd")
    nearer = visit.drawn()
    assert red_share(nearer) > 1.5 * red_share(turned)
    assert visit.page.evaluate("scrollX") == 0
    assert visit.said == []


@pytest.mark.parametrize("width", [360, 1440])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_reads_without_scrolling_sideways(browser, written, width, scheme):
    context = browser.new_context(viewport={"width": width, "height": 740}, color_scheme=scheme)
    visit = Visit(context, written)
    assert visit.page.evaluate("document.documentElement.scrollWidth") == width
    assert float(visit.page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)")) >= 16
    colours = visit.page.evaluate(
        "[...document.querySelectorAll('p, li, h1, h2, td, th, figcaption, footer, button')]"
        ".map(e => getComputedStyle(e).color)"
    )
    ground = visit.page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert min(contrast(colour, ground) for colour in set(colours)) >= 4.5  # WCAG 2.2, READ


def contrast(colour: str, ground: str) -> float:
    """WCAG 2.2, relative luminance and contrast ratio (READ)."""

    def light(text: str) -> float:
        values = np.array([float(v) for v in text[text.index("(") + 1 : -1].split(",")[:3]]) / 255
        linear = np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
        return float(linear @ [0.2126, 0.7152, 0.0722])

    low, high = sorted((light(colour), light(ground)))
    return (high + 0.05) / (low + 0.05)


def test_without_webgl_the_still_pictures_remain(browser, written):
    context = browser.new_context(viewport={"width": 800, "height": 740})
    context.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    visit = Visit(context, written)
    assert not visit.canvas.is_visible()
    assert visit.page.locator("#stills-only").is_visible()
    assert visit.page.locator("figure img").count() == 6
    assert visit.said == []


def test_on_paper_it_has_its_pictures_and_no_buttons(browser, written):
    visit = Visit(browser.new_context(viewport={"width": 1000, "height": 740}), written)
    visit.page.emulate_media(media="print")
    assert not visit.page.locator("#turnable").is_visible()
    assert visit.page.locator("figure img").first.is_visible()


def test_a_hostile_name_does_nothing(browser, tmp_path):
    path = tmp_path / "sheet.html"
    write_sheet_html(made_of(hostile_facts()), path)
    visit = Visit(browser.new_context(viewport={"width": 360, "height": 740}), path)
    visit.drawn()
    assert visit.said == []
    assert visit.page.evaluate("document.documentElement.scrollWidth") == 360
