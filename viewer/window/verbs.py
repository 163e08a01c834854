"""What each action does, by its key in the table; the only place that joins the two."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from viewer.document.kept_poses import place_of, stepped
from viewer.geometry.pose import Pose
from viewer.scene.lenses import Lens
from viewer.window.actions import CLASS_OF, EXTENT_OF
from viewer.window.choices import PICTURE_SIZES, Choices, TurnMode
from viewer.window.stages import Stage
from viewer.window.turn_angles import turned
from viewer.words import say

if TYPE_CHECKING:
    from viewer.document.document import Document
    from viewer.window.part_view import PartView

SIDES = {
    "front": "front",
    "back": "back",
    "left": "left",
    "right": "right",
    "above": "top",
    "below": "bottom",
}
Verbs = dict[str, Callable[..., object]]


def document_verbs(document: "Document") -> Verbs:
    """Undo, redo, pose and marks."""

    def quarter(axis: int, angle_deg: float) -> None:
        document.turn(turned(document.state.pose, axis, angle_deg), say("Quarter turn"))

    def unmark_all() -> None:
        document.set_classes(np.zeros_like(document.state.face_classes), say("Unmark all faces"))

    def to_pinned() -> None:
        if document.state.pinned_pose is not None:
            document.turn(document.state.pinned_pose, say("Go to the pinned pose"))

    def step(by: int) -> None:
        found = stepped(document.state.kept_poses, document.state.pose, by)
        if found is not None:
            document.turn(found.pose, say("Go to “{name}”", name=found.name))

    def remove_kept() -> None:
        place = place_of(document.state.kept_poses, document.state.pose)
        if place is not None:
            document.remove_kept(place)

    def move_kept(by: int) -> None:
        place = place_of(document.state.kept_poses, document.state.pose)
        if place is not None:
            document.move_kept(place, by)

    verbs: Verbs = {
        "undo": plain(document.undo),
        "redo": plain(document.redo),
        "unmark_all": plain(unmark_all),
        "as_drawn": plain(lambda: document.turn(Pose(), say("Lay as in the file"))),
        "pin": plain(lambda: document.pin_pose(document.state.pose)),
        "unpin": plain(lambda: document.pin_pose(None)),
        "to_pinned": plain(to_pinned),
        "swap_pinned": plain(document.swap_with_pinned),
        "keep_pose": plain(document.keep_pose),
        "next_kept": plain(partial(step, 1)),
        "previous_kept": plain(partial(step, -1)),
        "remove_kept": plain(remove_kept),
        "kept_earlier": plain(partial(move_kept, -1)),
        "kept_later": plain(partial(move_kept, 1)),
    }
    for number, axis in enumerate("xyz"):
        verbs[f"quarter_{axis}_plus"] = plain(partial(quarter, number, 90.0))
        verbs[f"quarter_{axis}_minus"] = plain(partial(quarter, number, -90.0))
    return verbs


def choice_verbs(choices: Choices) -> Verbs:
    """Stage, lens, and the options of the tools; choosing an option goes to its stage."""

    def mark(**options: object) -> None:
        choices.set_stage(Stage.MARK)
        choices.set_mark(**options)

    def turn(mode: TurnMode) -> None:
        choices.set_stage(Stage.TURN)
        choices.set_turn_mode(mode)

    verbs: Verbs = {
        "supports": lambda checked: choices.set_supports(checked),
        "own_triangles": lambda checked: choices.set_own_triangles(checked),
        "height_strip": lambda checked: choices.set_strip(checked),
        "machine_volumes": lambda checked: choices.set_volumes(checked),
        "present": lambda checked: choices.set_presenting(checked),
        "compare": lambda checked: choices.set_comparing(checked),
        "brush_larger": plain(choices.grow_brush),
        "brush_smaller": plain(choices.shrink_brush),
        "turn_rings": plain(partial(turn, TurnMode.RINGS)),
        "turn_stand": plain(partial(turn, TurnMode.STAND)),
    }
    for key, size_px in PICTURE_SIZES.items():
        verbs[key] = plain(partial(choices.set_picture_size, size_px))
    for stage in Stage:
        verbs[f"stage_{stage.name.lower()}"] = plain(partial(choices.set_stage, stage))
    for lens in Lens:
        verbs[f"lens_{lens.value}"] = plain(partial(choices.set_lens, lens))
    for key, face_class in CLASS_OF.items():
        verbs[key] = plain(partial(mark, face_class=face_class))
    for key, extent in EXTENT_OF.items():
        verbs[key] = plain(partial(mark, extent=extent))
    return verbs


def camera_verbs(view: "PartView") -> Verbs:
    """Where the scene is looked at from."""
    verbs: Verbs = {"fit": plain(view.fit)}
    for name, side in SIDES.items():
        verbs[f"camera_{name}"] = plain(partial(view.view_from, side))
    return verbs


def plain(verb: Callable[[], object]) -> Callable[..., object]:
    """A verb that cares nothing about the "checked" that Qt sends along."""
    return lambda *_: verb()
