"""The document: whole states swapped, one step a gesture, undo all and redo all exact."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from viewer.document.document import Changed, Document
from viewer.document.history import History
from viewer.document.state import Part, State
from viewer.errors import RequestProblem
from viewer.geometry.aims import AIM_KEYS
from viewer.geometry.hard_limits import LIMIT_KEYS
from viewer.geometry.mend.mended import MendedMesh
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.spin_wish import SpinRule, SpinWish
from viewer.shop.shop_choice import ShopChoice

TETRAHEDRON = Mesh(
    np.array([[0, 0, 0], [10, 0, 0], [0, 10, 0], [0, 0, 10.0]]),
    np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]),
)


def open_document() -> Document:
    document = Document()
    document.open(State.of_part(Part("tetrahedron", TETRAHEDRON)))
    return document


def same(one: State, other: State) -> bool:
    return (
        one.part is other.part
        and np.array_equal(one.face_classes, other.face_classes)
        and one.pose == other.pose
        and one.settings == other.settings
        and one.pinned_pose == other.pinned_pose
        and one.kept_poses == other.kept_poses
        and one.what_matters == other.what_matters
        and one.spin_wish == other.spin_wish
    )


edits = st.one_of(
    st.tuples(st.just("mark"), st.sets(st.integers(0, 3), min_size=1), st.integers(0, 2)),
    st.tuples(st.just("turn"), st.floats(-1, 1), st.floats(0, 359)),
    st.tuples(st.just("layer"), st.floats(0.05, 1.0)),
    st.tuples(st.just("pin"), st.booleans()),
    st.tuples(st.just("swap")),
    st.tuples(st.just("slide"), st.sampled_from(AIM_KEYS), st.floats(0, 100)),
    st.tuples(st.just("limit"), st.sampled_from(LIMIT_KEYS), st.booleans()),
    st.tuples(st.just("spin"), st.sampled_from(SpinRule)),
    st.tuples(st.just("keep"), st.text(max_size=5)),
    st.tuples(st.just("rename"), st.integers(0, 30), st.text(max_size=5)),
    st.tuples(st.just("remove"), st.integers(0, 30)),
    st.tuples(st.just("undo")),
    st.tuples(st.just("redo")),
)


def apply(document: Document, edit: tuple) -> None:
    match edit:
        case ("mark", faces, face_class):
            document.mark(np.array(sorted(faces)), face_class)
        case ("turn", x, spin_deg):
            document.turn(Pose((x, 0.3, 1.0), spin_deg))
        case ("layer", layer_mm):
            document.set_settings(PrintSettings(layer_mm=layer_mm))
        case ("pin", wanted):
            document.pin_pose(document.state.pose if wanted else None)
        case ("swap",):
            document.swap_with_pinned()
        case ("slide", key, weight):
            matters = document.state.what_matters.with_weights({key: weight})
            document.set_what_matters(matters, "slide")
        case ("limit", key, on):
            document.set_what_matters(document.state.what_matters.with_limit(key, on), "limit")
        case ("spin", rule):
            document.set_spin_wish(SpinWish(rule, (0.0, 1.0, 0.0)), "spin")
        case ("keep", name):
            document.keep_pose(name)
        case ("rename", place, name):
            if document.state.kept_poses:
                document.rename_kept(place % len(document.state.kept_poses), name)
        case ("remove", place):
            if document.state.kept_poses:
                document.remove_kept(place % len(document.state.kept_poses))
        case ("undo",):
            document.undo()
        case ("redo",):
            document.redo()


@settings(max_examples=few(30, 200))
@given(st.lists(edits, max_size=25))
def test_undo_all_returns_to_the_start_and_redo_all_to_the_end(sequence):
    document = open_document()
    start = document.state
    for edit in sequence:
        apply(document, edit)
    end = document.state
    steps = 0
    while document.redo_label:
        document.redo()
    last = document.state
    while document.undo_label:
        document.undo()
        steps += 1
    assert same(document.state, start)
    for _ in range(steps):
        document.redo()
    assert same(document.state, last)
    assert document.redo_label == ""
    assert end.part is start.part


def test_a_gesture_is_one_step_however_many_swaps_it_holds():
    document = open_document()
    start = document.state
    with document.gesture("Turn the part"):
        for spin_deg in range(1, 46):
            document.turn(Pose(spin_deg=spin_deg))
    assert document.undo_label == "Turn the part"
    document.undo()
    assert document.state is start
    assert document.undo_label == ""


def test_a_gesture_that_ends_where_it_began_leaves_no_step():
    document = open_document()
    with document.gesture("Turn the part"):
        document.turn(Pose(spin_deg=20))
        document.turn(Pose())
    assert document.undo_label == ""


def test_a_gesture_that_fails_takes_everything_back():
    document = open_document()
    start = document.state

    def fail_midway():
        with document.gesture("Mark faces"):
            document.mark(np.array([0]), 1)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail_midway()
    assert document.state is start
    assert document.undo_label == ""


def test_listeners_hear_exactly_what_changed():
    document = open_document()
    heard = []
    stop = document.listen(heard.append)
    document.mark(np.array([1]), 2)
    document.turn(Pose((1, 0, 0)))
    document.turn(Pose((1, 0, 0)))  # nothing new: silence
    document.set_settings(PrintSettings(layer_mm=0.3))
    document.pin_pose(document.state.pose)
    document.undo()
    document.keep_pose("on its side")
    document.keep_pose("again")  # the same pose: silence
    document.choose_shop(ShopChoice(machine="Mill"))
    document.choose_shop(ShopChoice("Mill"))  # the same: silence
    stop()
    document.undo()
    assert heard == [
        Changed.CLASSES,
        Changed.POSE,
        Changed.SETTINGS,
        Changed.PINNED,
        Changed.PINNED,
        Changed.KEPT,
        Changed.SHOP,
    ]


def test_swapping_with_the_pinned_pose_loses_nothing_and_is_undone_by_itself():
    document = open_document()
    first, second = Pose((1, 0, 0), 10.0), Pose((0, 1, 0), 20.0)
    document.swap_with_pinned()  # nothing is pinned: nothing happens
    assert document.undo_label == ""
    document.turn(first)
    document.pin_pose(first)
    document.turn(second)
    before = document.state
    document.swap_with_pinned()
    assert (document.state.pose, document.state.pinned_pose) == (first, second)
    assert document.undo_label == "Swap with the pinned pose"
    document.swap_with_pinned()
    assert same(document.state, before)
    document.undo()
    document.undo()
    assert document.state is before


def test_revision_grows_with_each_swap_and_undo():
    document = open_document()
    revisions = [document.revision]
    document.mark(np.array([0]), 1)
    revisions.append(document.revision)
    document.undo()
    revisions.append(document.revision)
    assert revisions == sorted(set(revisions))


def test_modified_is_about_what_was_saved_not_about_history():
    document = open_document()
    assert not document.modified
    document.turn(Pose((1, 0, 0)))
    assert document.modified
    document.mark_saved(Path("job.3mf"), document.state)
    assert not document.modified
    document.undo()
    assert document.modified
    document.redo()
    assert not document.modified


def test_states_cannot_be_written_into():
    document = open_document()
    with pytest.raises(ValueError, match="read-only"):
        document.state.face_classes[0] = 1
    with pytest.raises(ValueError, match="read-only"):
        document.state.part.mesh.vertices_mm[0] = 1


def test_classes_that_do_not_fit_the_part_are_refused():
    with pytest.raises(RequestProblem):
        State(part=Part("t", TETRAHEDRON), face_classes=np.zeros(3, np.uint8))
    with pytest.raises(RequestProblem):
        State(part=Part("t", TETRAHEDRON), face_classes=np.full(4, 3, np.uint8))


def test_history_is_bounded_by_bytes_and_forgets_the_oldest_first():
    history = History(limit_bytes=3 * 400 + TETRAHEDRON.faces.nbytes + 1000)
    part = Part("t", TETRAHEDRON)
    states = [State.of_part(part) for _ in range(3)]
    big = [np.full(400, n % 2, np.uint8) for n in range(6)]
    for n, array in enumerate(big):
        state = State.of_part(Part(f"t{n}", TETRAHEDRON))  # other parts, so whole states are kept
        object.__setattr__(state, "face_classes", array)
        history.push(f"step {n}", state, states[0])
    assert history.held_bytes() <= 3 * 400 + TETRAHEDRON.faces.nbytes + 1000
    assert history.undo_label == "step 5"
    labels = []
    while history.undo_label:
        labels.append(history.undo_label)
        history.undo(states[0])
    assert 1 <= len(labels) < 6
    assert labels == [f"step {n}" for n in range(5, 5 - len(labels), -1)]


def test_a_mended_part_knows_what_it_was_received_as():
    """Classes and patches follow the faces; undo gives back the part as it was, to the object."""
    patches = np.array([0, 0, 1, 2], np.int32)
    part = Part("tetrahedron", TETRAHEDRON, patch_of_face=patches, polygon_of_face=np.arange(4))
    document = Document()
    document.open(State.of_part(part, np.array([1, 2, 0, 0], np.uint8)))
    once = MendedMesh(TETRAHEDRON.vertices_mm, TETRAHEDRON.faces[[3, 1]], np.array([3, 1]))
    document.replace_part(document.state.mended(once), "Mend")
    state = document.state
    assert state.part.received is TETRAHEDRON
    assert state.part.mesh is once.mesh
    assert state.face_classes.tolist() == [0, 2]
    assert state.part.patch_of_face.tolist() == [2, 0]
    assert state.part.polygon_of_face is None
    twice = MendedMesh(once.vertices_mm, once.faces[:1], np.array([0]))
    document.replace_part(state.mended(twice), "Mend")
    assert document.state.part.received is TETRAHEDRON
    document.undo()
    document.undo()
    assert document.state.part is part
    assert part.received is None


def test_what_a_mended_part_was_received_as_counts_in_the_history():
    state = State.of_part(Part("tetrahedron", TETRAHEDRON))
    mended = state.mended(MendedMesh(TETRAHEDRON.vertices_mm, TETRAHEDRON.faces[:2], [0, 1]))
    history = History()
    history.push("Change the unit", mended, state)
    sizes = (mended.part.mesh, TETRAHEDRON)
    bytes_of_meshes = sum(mesh.vertices_mm.nbytes + mesh.faces.nbytes for mesh in sizes)
    assert history.held_bytes() == bytes_of_meshes + mended.face_classes.nbytes
