"""Client sheets of small parts, with everything but the pictures real."""

from datetime import date

import numpy as np

from tests import shapes
from viewer.document.compose_sheet import compose_sheet
from viewer.document.sheet_facts import PoseFacts, SheetFacts, chosen_name, other_poses
from viewer.document.state import KeptPose, Part, State
from viewer.files.made_sheet import MadeSheet, jpeg_bytes
from viewer.files.picture_files import still_bytes
from viewer.files.turnable_part import turnable_part
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.prepared_part import prepare_part
from viewer.shop.job_numbers import job_numbers
from viewer.shop.maker import Maker
from viewer.shop.shop import example_shop
from viewer.words import speaking

UPSIDE_DOWN = Pose((0.0, 0.0, -1.0))
HOSTILE = "<script>alert('x')</script><img src=x onerror=\"alert(1)\">&lt;%s\u202e{0}"


def table_state(name: str = "Table", **more) -> State:
    """A cap on a post (row 22 of the check values), class A being the underside of the cap."""
    mesh = shapes.post_and_cap()
    under = (mesh.face_normals[:, 2] < -0.9) & (mesh.corners_mm[:, :, 2].min(axis=1) > 1.0)
    classes = np.where(under, CLASS_A, 0).astype(np.uint8)
    return State.of_part(Part(name, mesh), classes, **more)


def kept_upside_down(kept_name: str = "Upside down", **more) -> State:
    """The same with an alternative in which nothing hangs over."""
    return table_state(**more).with_(kept_poses=(KeptPose(kept_name, UPSIDE_DOWN),))


def facts_of(state: State, maker: Maker | None = None, **more) -> SheetFacts:
    """Measured and reckoned with the example shop, dated 26 November 2026."""
    prepared, shop, found = prepare_part(state.part.mesh), example_shop(), []
    for name, pose in [(chosen_name(state), state.pose), *other_poses(state)]:
        measures = measure_pose(prepared, state.face_classes, pose, state.settings)
        numbers = job_numbers(
            state.part.mesh, state.face_classes, pose, state.settings, measures, shop,
            state.shop_choice,
        )  # fmt: skip
        found.append(PoseFacts(name, pose, measures, numbers))
    report = check_mesh(state.part.mesh, state.pose)
    return SheetFacts(
        state, maker or Maker(), "26 November 2026", found[0], tuple(found[1:]), report, **more
    )


def made_of(facts: SheetFacts, language: str = "en") -> MadeSheet:
    """A sheet whose pictures are plain colours."""
    with speaking(language):
        sheet = compose_sheet(facts)
    state = facts.state
    names = [one.name for row in sheet.rows for one in row]
    pictures = {
        name: jpeg_bytes(np.full((60, 80, 3), 40 * number, np.uint8))
        for number, name in enumerate(names, 1)
    }
    matrix = pose_matrix(state.part.mesh.vertices_mm, state.pose)
    colours = np.array(
        [(0.9, 0.0, 0.0), (0.0, 0.9, 0.0), (0.0, 0.0, 0.9), (0.9, 0.9, 0.0), (0.0, 0.9, 0.9),
         (0.9, 0.0, 0.9)]
    )  # fmt: skip
    return MadeSheet(
        sheet, pictures, (("class A", still_bytes(np.zeros((4, 6, 3), np.uint8))),),
        facts.maker.logo_png,
        turnable_part(state.part.mesh, state.face_classes.astype(np.int64), matrix),
        colours, 1.0 - colours, np.array([0.5, -0.75, 0.43]),
    )  # fmt: skip


def hostile_facts() -> SheetFacts:
    """Names that try to be more than text."""
    state = kept_upside_down(HOSTILE, name=HOSTILE, client=HOSTILE)
    return facts_of(state, Maker(HOSTILE.replace("\u202e", "")))


TODAY = date(2026, 11, 26)
