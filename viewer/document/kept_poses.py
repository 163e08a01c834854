"""The list of kept poses as pure functions: keep, rename, note, move, remove, and what is next."""

from dataclasses import replace

from viewer.document.state import KeptPose
from viewer.geometry.pose import Pose
from viewer.words import say

Poses = tuple[KeptPose, ...]
LONGEST_NAME, LONGEST_NOTE = 80, 400


def place_of(poses: Poses, pose: Pose) -> int | None:
    """Place of a pose in the list, from 0, or None."""
    return next((place for place, one in enumerate(poses) if one.pose == pose), None)


def kept(poses: Poses, pose: Pose, name: str = "", note: str = "") -> Poses:
    """The list with a pose at its end; one that is in it already stays where and what it is."""
    if place_of(poses, pose) is not None:
        return poses
    return (*poses, KeptPose(_plain(name) or _free_name(poses), pose, _plain(note, LONGEST_NOTE)))


def renamed(poses: Poses, place: int, name: str) -> Poses:
    """The list with one name changed; a blank name leaves it as it is."""
    name = _plain(name) or poses[place].name
    return (*poses[:place], replace(poses[place], name=name), *poses[place + 1 :])


def noted(poses: Poses, place: int, note: str) -> Poses:
    """The list with one note changed; a blank one takes it away."""
    note = _plain(note, LONGEST_NOTE)
    return (*poses[:place], replace(poses[place], note=note), *poses[place + 1 :])


def moved(poses: Poses, place: int, by: int) -> Poses:
    """The list with one pose moved by so many places, as far as the ends."""
    others = removed(poses, place)
    at = min(max(place + by, 0), len(others))
    return (*others[:at], poses[place], *others[at:])


def removed(poses: Poses, place: int) -> Poses:
    """The list without one pose."""
    return (*poses[:place], *poses[place + 1 :])


def stepped(poses: Poses, pose: Pose, step: int) -> KeptPose | None:
    """The kept pose `step` places (1 or −1) after the present one, round and round.

    From a pose that is not in the list the first comes next, and the last before. None: none kept.
    """
    if not poses:
        return None
    place = place_of(poses, pose)
    if place is None:
        place = -1 if step > 0 else len(poses)
    return poses[(place + step) % len(poses)]


def _plain(text: str, longest: int = LONGEST_NAME) -> str:
    """One line without odd spaces, not too long for a list."""
    return " ".join(text.split())[:longest].rstrip()


def _free_name(poses: Poses) -> str:
    """ "Pose 1", "Pose 2", …: the first that follows the number of poses and is not taken."""
    taken = {one.name for one in poses}
    number = len(poses) + 1
    while (name := say("Pose {number}", number=number)) in taken:
        number += 1
    return name
