"""Which poses stand side by side, as pure functions: the choices there are, and a first choice."""

from enum import Enum

from viewer.document.kept_poses import place_of
from viewer.document.state import KeptPose, State
from viewer.geometry.pose import Pose
from viewer.scene.side_by_side import MOST_PANES
from viewer.words import say

LEAST_PANES = 2


class Moving(Enum):
    """A pose that is not fixed: it follows the part, or what is pinned."""

    PRESENT = "present"
    PINNED = "pinned"


Source = Moving | Pose


def sources(state: State) -> list[Source]:
    """Everything that can be chosen for a pane, in the order it is listed."""
    pinned = [Moving.PINNED] if state.pinned_pose is not None else []
    return [*pinned, Moving.PRESENT, *dict.fromkeys(one.pose for one in state.kept_poses)]


def with_results(state: State, results: tuple[KeptPose, ...]) -> State:
    """The state as if results of the search were kept, so that they can be chosen like kept ones.

    One that is kept stays where and what it is.
    """
    new = tuple(one for one in results if place_of(state.kept_poses, one.pose) is None)
    return state.with_(kept_poses=(*new, *state.kept_poses)) if new else state


def pose_of_source(state: State, source: Source) -> Pose | None:
    """The pose that a source stands for now, None when there is none any more."""
    if source is Moving.PRESENT:
        return state.pose
    return state.pinned_pose if source is Moving.PINNED else source


def name_of_source(state: State, source: Source) -> str:
    """What a pane is called."""
    names = {one.pose: one.name for one in state.kept_poses}
    if isinstance(source, Pose):
        return names.get(source, say("Kept pose"))
    pose = pose_of_source(state, source)
    title = say("Present pose") if source is Moving.PRESENT else say("Pinned pose")
    return f"{title} ({names[pose]})" if pose in names else title


def first_choice(state: State) -> list[Source]:
    """The pinned pose or else the first kept one, beside it the present one, then all others."""
    fixed: list[Source] = [s for s in sources(state) if s is not Moving.PRESENT]
    others, seen = [], {state.pose}
    for source in fixed:
        pose = pose_of_source(state, source)
        if pose not in seen:
            seen.add(pose)
            others.append(source)
    return [*others[:1], Moving.PRESENT, *others[1:]][:MOST_PANES]


def still_there(state: State, chosen: list[Source]) -> list[Source]:
    """The choice without what was unpinned or taken off the list meanwhile."""
    there = sources(state)
    return [source for source in chosen if source in there]


def one_more(state: State, chosen: list[Source]) -> list[Source]:
    """The choice with the next pose that is not in it, if there is one and room for it."""
    shown = {pose_of_source(state, source) for source in chosen}
    for source in sources(state):
        if len(chosen) < MOST_PANES and pose_of_source(state, source) not in shown:
            return [*chosen, source]
    return chosen
