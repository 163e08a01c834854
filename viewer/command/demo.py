"""The main job on the demo part where there is no display: check, lay, measure, hand over."""

import argparse
import json
import tempfile
from itertools import product
from pathlib import Path

from viewer.command.answers import check_answer, measure_answer
from viewer.command.shop_answers import shop_numbers, with_shop
from viewer.command.texts import check_text, measure_text
from viewer.document.demo_job import demo_job
from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.files.mesh_files import write_posed
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.scene.lenses import Lens
from viewer.scene.pictures import picture

FOLDER = "showside-demo"
# The 26 directions towards the faces, edges and corners of a cube.
DIRECTIONS = [up for up in product((-1, 0, 1), repeat=3) if any(up)]


def output_folder(asked: Path | None) -> Path:
    """The folder to write to: the one asked for, or one here, or one among temporary files."""
    for folder in [asked] if asked else [Path.cwd() / FOLDER, Path(tempfile.gettempdir()) / FOLDER]:
        try:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / ".probe").touch()
            (folder / ".probe").unlink()
        except OSError:
            continue
        return folder
    raise CannotWrite("Nothing can be written here; name another folder with --out FOLDER.")


def least_touch_pose(state: State, prepared: PreparedPart) -> Pose:
    """Of 26 directions one that stands, with the least touch on class A, then the least support."""

    def cost(pose: Pose) -> tuple[bool, float, float]:
        measures = measure_pose(prepared, state.face_classes, pose, state.settings, tier="quick")
        falls = measures.tip_angle_deg is None or measures.tip_angle_deg <= 0
        return falls, round(measures.touch_area_mm2.A), measures.support_volume_mm3

    return min((Pose(up) for up in DIRECTIONS), key=cost)


def run_demo(asked: Path | None) -> int:
    """Do the job of the demo without a window and say what was written where; returns 0."""
    folder = output_folder(asked)
    state = demo_job()
    print("The demo part: a trowel grip with the faces that show marked.", flush=True)
    settings = state.settings
    report = check_mesh(state.part.mesh, state.pose, settings.layer_mm, settings.road_mm)
    check = check_answer(state, report)
    print(check_text(check | {"file": state.part.name}), flush=True)
    prepared = prepare_part(state.part.mesh)
    state = state.with_(pose=least_touch_pose(state, prepared))
    measures = measure_pose(prepared, state.face_classes, state.pose, state.settings, columns=True)
    answer = measure_answer(state, prepared, measures)
    answer = with_shop(answer, shop_numbers(state, measures, argparse.Namespace()))
    answer["part"]["file"] = state.part.name
    print(measure_text(answer), flush=True)
    numbers = folder / "numbers.json"
    numbers.write_text(json.dumps(answer, indent=1, ensure_ascii=False), encoding="utf-8")
    posed = folder / "trowel-grip-posed.3mf"
    write_posed(state, posed)
    print(f"Posed part: {posed}\nNumbers: {numbers}", flush=True)
    for lens in (Lens.CLASSES, Lens.OVERHANG, Lens.TOUCH, Lens.TERRACES):
        path = folder / f"{lens.name.lower()}.png"
        picture(state, measures, lens, path=path)
        print(f"Picture: {path}", flush=True)
    return 0
