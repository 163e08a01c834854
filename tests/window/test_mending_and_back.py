"""Back and forth along the list of mending steps by keys, and back to the part as received."""

import numpy as np
import pytest

from tests.shapes import cube, joined, moved, sphere, turned_inside_out, without_faces
from tests.window.conftest import LONG_MS
from tests.window.test_mending import box_of, click, judged_sound, look, rows
from viewer.geometry.deviation import find_deviation
from viewer.scene.lenses import Lens


def three_faults():
    """A cube inside out, one that overlaps it, and a ball without two faces: three steps."""
    ball = without_faces(moved(sphere(8.0, 3), (60, 0, 0)), [3, 4])
    return joined(turned_inside_out(cube(20.0)), moved(cube(20.0), (15, 3, 4)), ball)


def signs(opened) -> list[str]:
    """How each line of the list begins, and whether its button can be pressed."""
    told = []
    for row in rows(opened):
        label = row.findChildren(type(box_of(opened).state))[0].text()
        button = row.button
        can = "take" if button.isVisible() and button.isEnabled() else "-"
        told.append(f"{label.split()[0]} {can}")
    return told


def expected(taken: int, count: int) -> list[str]:
    return [
        "✓ -" if number < taken else f"{number + 1}. {'take' if number == taken else '-'}"
        for number in range(count)
    ]


def wait_for(opened, condition) -> None:
    opened.qtbot.waitUntil(condition, timeout=2 * LONG_MS)
    opened.settle()


def test_undo_walks_back_along_the_list_and_redo_forth_again(opened):
    opened.show(three_faults())
    look(opened)
    work = opened.window.mending
    count = len(work.ways)
    assert [way.step.name for way in work.ways] == [
        "turn-outward", "fill-small-holes", "unite-shells",
    ]  # fmt: skip
    meshes = [opened.state.part.mesh]
    for number in range(count):
        click(opened, rows(opened)[number].button)
        opened.settle()
        meshes.append(opened.state.part.mesh)
    assert judged_sound(meshes[-1])
    for keys, places in (
        ("Ctrl+Z", range(count - 1, -1, -1)),
        ("Ctrl+Shift+Z", range(1, count + 1)),
        ("Ctrl+Z", range(count - 1, 0, -1)),
        ("Ctrl+Shift+Z", [2]),
    ):
        for place in places:
            opened.press_keys(keys)
            assert opened.state.part.mesh is meshes[place]
            assert work.taken == place
            opened.settle()
            assert signs(opened) == expected(place, count)
            assert box_of(opened).safe.isVisible() == (place < 2)
            assert (opened.state.part.received is None) == (place == 0)
    assert opened.window.actions.by_key["redo"].text() == "&Redo: Mend (unite-shells)"
    # A step taken after undo leads to the very mesh that redo would have brought.
    click(opened, rows(opened)[2].button)
    assert opened.state.part.mesh is meshes[3]
    assert opened.document.redo_label == ""


def test_the_harmless_steps_are_one_step_back_and_one_forth(opened):
    opened.show(three_faults())
    opened.press_keys("Ctrl+M")
    work = opened.window.mending
    wait_for(opened, lambda: work.looked)
    opened.press_keys("Ctrl+Shift+M")
    assert work.taken == 2
    opened.press_keys("Ctrl+Z")
    assert work.taken == 0
    opened.settle()
    assert signs(opened) == expected(0, 3)
    opened.press_keys("Ctrl+Shift+Z")
    assert work.taken == 2
    opened.settle()
    assert signs(opened) == expected(2, 3)


def test_a_mended_job_is_saved_closed_and_opened_again_with_what_was_received(
    open_window, tmp_path
):
    first = open_window()
    received = three_faults()
    classes = np.zeros(received.face_count, np.uint8)
    classes[12:24] = 1  # the cube that was right from the start
    first.show(received, classes)
    look(first)
    work = first.window.mending
    while work.taken < len(work.ways):
        click(first, rows(first)[work.taken].button)
        first.settle()
    mended = first.state.part.mesh
    first.answers.path = tmp_path / "job.3mf"
    first.press_keys("Ctrl+S")
    wait_for(first, lambda: first.answers.path.exists() and not first.document.modified)
    first.window.close()
    first.window = None

    second = open_window()
    second.window.open_path(tmp_path / "job.3mf")
    wait_for(second, lambda: second.state.part is not None)
    part = second.state.part
    assert np.array_equal(part.mesh.vertices_mm, mended.vertices_mm)
    assert np.array_equal(part.received.faces, received.faces)
    second.press_keys("6")
    live = second.window.live_deviation
    wait_for(second, lambda: live.latest is not None)
    assert second.window.choices.lens is Lens.DEVIATION
    assert live.latest.max_mm == pytest.approx(find_deviation(received, mended).max_mm)
    assert f"{live.latest.new.max_mm:.2g} mm off" in second.window.legend.accessibleName()

    second.press_keys("Ctrl+1")
    assert not second.document.modified
    click(second, box_of(second).back)
    wait_for(second, lambda: second.state.part.received is None)
    assert np.array_equal(second.state.part.mesh.vertices_mm, received.vertices_mm)
    assert np.array_equal(second.state.part.mesh.faces, received.faces)
    # Of the marked cube what lay inside the other one is gone; what is left brings its mark back.
    marked = second.state.face_classes[12:24] == 1
    assert marked.sum() >= 6
    assert not second.state.face_classes[24:].any()
    assert not box_of(second).back.isVisible()
    assert not second.window.actions.by_key["as_received"].isEnabled()
    second.press_keys("Ctrl+Z")
    assert second.state.part.mesh is part.mesh
    assert second.state.part.received is part.received
    second.press_keys("Ctrl+Alt+M")
    wait_for(second, lambda: second.state.part.received is None)
    assert second.document.undo_label == "Back to the part as received"
