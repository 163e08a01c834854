"""The list of kept poses: its order, its names, and walking through it."""

from hypothesis import given
from hypothesis import strategies as st

from viewer.document.kept_poses import (
    LONGEST_NAME,
    LONGEST_NOTE,
    kept,
    moved,
    noted,
    place_of,
    removed,
    renamed,
    stepped,
)
from viewer.document.state import KeptPose
from viewer.geometry.pose import Pose

POSES = [Pose((1, 0, 0), 15.0 * k) for k in range(8)]
lists = st.lists(st.sampled_from(POSES), max_size=20)


def made(poses):
    found = ()
    for pose in poses:
        found = kept(found, pose)
    return found


@given(lists)
def test_every_pose_is_kept_once_in_the_order_it_came_under_a_name_of_its_own(poses):
    found = made(poses)
    assert [one.pose for one in found] == list(dict.fromkeys(poses))
    assert len({one.name for one in found}) == len(found)


def test_names_are_given_as_one_numbers_a_list_and_never_twice():
    found = made(POSES[:3])
    assert [one.name for one in found] == ["Pose 1", "Pose 2", "Pose 3"]
    found = kept(removed(found, 0), POSES[5])  # "Pose 3" is still there
    assert [one.name for one in found] == ["Pose 2", "Pose 3", "Pose 4"]
    assert kept((), POSES[0], "  on\n its  side ")[0].name == "on its side"
    assert len(kept((), POSES[0], "x" * 500)[0].name) == LONGEST_NAME


def test_renaming_and_removing_touch_one_pose_only():
    found = made(POSES[:3])
    other = renamed(found, 1, "flat")
    assert other == (found[0], KeptPose("flat", POSES[1]), found[2])
    assert renamed(found, 1, " \n ") == found
    assert removed(found, 1) == (found[0], found[2])


@given(lists.filter(bool), st.sampled_from(POSES), st.sampled_from([1, -1]))
def test_walking_visits_every_pose_once_and_comes_round(poses, start, step):
    found, pose, seen = made(poses), start, []
    for _ in found:
        pose = stepped(found, pose, step).pose
        seen.append(pose)
    assert sorted(seen, key=POSES.index) == sorted((one.pose for one in found), key=POSES.index)
    assert stepped(found, stepped(found, seen[0], step).pose, -step).pose == seen[0]


def test_from_elsewhere_the_first_comes_next_and_the_last_before():
    found = made(POSES[:3])
    assert stepped(found, POSES[7], 1) is found[0]
    assert stepped(found, POSES[7], -1) is found[2]
    assert stepped((), POSES[7], 1) is None
    assert place_of(found, POSES[7]) is None


def test_a_note_is_one_line_and_stays_through_renaming():
    found = noted(made(POSES[:2]), 1, "  no support\n on A ")
    assert [one.note for one in found] == ["", "no support on A"]
    assert renamed(found, 1, "flat")[1] == KeptPose("flat", POSES[1], "no support on A")
    assert len(noted(found, 0, "x" * 1000)[0].note) == LONGEST_NOTE
    assert noted(found, 1, " ")[1].note == ""


@given(st.integers(0, 7), st.integers(-9, 9))
def test_a_pose_moves_within_the_list_and_the_others_keep_their_order(place, by):
    before = made(POSES)
    after = moved(before, place, by)
    assert after.index(before[place]) == min(max(place + by, 0), 7)
    assert [one for one in after if one is not before[place]] == [
        one for one in before if one is not before[place]
    ]
