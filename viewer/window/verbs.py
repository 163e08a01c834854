"""What each action does, by its key in the table; the only place that joins the two."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from viewer.geometry.pose import Pose
from viewer.scene.lenses import Lens
from viewer.window.actions import CLASS_OF, EXTENT_OF
from viewer.window.choices import Choices, TurnMode
from viewer.window.stages import Stage
from viewer.window.turn_angles import turned

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
        document.turn(turned(document.state.pose, axis, angle_deg), "Quarter turn")

    def unmark_all() -> None:
        document.set_classes(np.zeros_like(document.state.face_classes), "Unmark all faces")

    def to_pinned() -> None:
        if document.state.pinned_pose is not None:
            document.turn(document.state.pinned_pose, "Go to the pinned pose")

    verbs: Verbs = {
        "undo": plain(document.undo),
        "redo": plain(document.redo),
        "unmark_all": plain(unmark_all),
        "as_drawn": plain(lambda: document.turn(Pose(), "Lay as in the file")),
        "pin": plain(lambda: document.pin_pose(document.state.pose)),
        "unpin": plain(lambda: document.pin_pose(None)),
        "to_pinned": plain(to_pinned),
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
        "height_strip": lambda checked: choices.set_strip(checked),
        "brush_larger": plain(choices.grow_brush),
        "brush_smaller": plain(choices.shrink_brush),
        "turn_rings": plain(partial(turn, TurnMode.RINGS)),
        "turn_stand": plain(partial(turn, TurnMode.STAND)),
    }
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
