"""What the shop adds to `measure`: by schema, by closed forms, in words."""

import json

import jsonschema
import pytest

from tests.shop.made_jobs import machine
from viewer.app import main
from viewer.files.job_file import write_job
from viewer.files.mesh_files import read_part
from viewer.files.shop_folder import note_finished_print, save_thing
from viewer.resource_files import resource_file
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.machines import Nozzle
from viewer.shop.shop import example_shop
from viewer.shop.shop_choice import ShopChoice


@pytest.fixture(autouse=True)
def own_shop(tmp_path, monkeypatch):
    """A shop of nobody's, so that the user's own does not matter."""
    folder = tmp_path / "shop"
    monkeypatch.setenv("SHOWSIDE_SHOP", str(folder))
    return folder


def measured(capsys, *words):
    exit_code = main(["measure", *(str(word) for word in words), "--json"])
    out, err = capsys.readouterr()
    assert exit_code == 0, err
    answer = json.loads(out)
    schema = json.loads(resource_file("schema/measure.json").read_text(encoding="utf-8"))
    jsonschema.validate(answer, schema)
    return answer


def refused(capsys, *words):
    assert main(["measure", *(str(word) for word in words), "--json"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert len(err.strip().splitlines()) == 1
    return err


def test_without_a_choice_the_first_of_the_shop_is_taken_and_said(capsys, post_and_cap):
    answer = measured(capsys, post_and_cap)
    assert answer["process"]["machine"] == "One nozzle, medium"
    assert answer["process"]["pair"] == "PLA alone"
    assert answer["tool_changes"] == 0
    assert 0 < answer["time_s"]["low"] < answer["time_s"]["likely"] < answer["time_s"]["high"]
    assert sum(answer["time_parts_s"].values()) == pytest.approx(answer["time_s"]["likely"])
    assert set(answer["fits"]) == {each.name for each in example_shop().machines}
    assert all(fit["fits"] and fit["over_mm"] == 0 for fit in answer["fits"].values())
    assert len(answer["cautions"]) >= 4


def test_two_materials_are_changed_once_in_every_mixed_layer(capsys, post_and_cap):
    """Row 22 and row 37 (CALC): supports reach up to 20 mm, 100 layers of 0.2."""
    words = (post_and_cap, "--pair", "PLA with PVA", "--machine", "two nozzles, LARGE")
    answer = measured(capsys, *words)
    assert answer["tool_changes"] == 100
    assert set(answer["material_g"]) == {"PLA", "PVA"}
    one = answer["fits"]["One nozzle, medium"]
    assert not one["fits"]
    assert "needs 2 materials" in one["why"]
    contact = measured(
        capsys, post_and_cap, "--pair", "PLA, PVA contact layers", "--machine", "Two nozzles, large"
    )
    assert contact["tool_changes"] <= 4
    assert contact["time_s"]["likely"] < answer["time_s"]["likely"]


def test_a_pair_finds_the_machine_that_can_print_it(capsys, post_and_cap):
    answer = measured(capsys, post_and_cap, "--pair", "TPU 95A with PLA")
    assert answer["process"]["machine"] != "One nozzle, medium"


def test_a_machine_that_cannot_and_names_that_are_not_there_are_refused(capsys, post_and_cap):
    words = (post_and_cap, "--pair", "PLA with PVA", "--machine", "One nozzle, medium")
    assert "Choose another machine or another pair." in refused(capsys, *words)
    assert 'There is no machine "Mill"' in refused(capsys, post_and_cap, "--machine", "Mill")
    assert "did you mean" in refused(capsys, post_and_cap, "--pair", "PLA and PVA")


def test_the_users_own_machine_comes_first_and_tells_what_does_not_fit(capsys, post_and_cap):
    """CALC: 30 mm wide, a platform of 25: over by 5 mm; turned, the square is only wider."""
    nozzle = Nozzle(name="n", reach_low_mm=(-12.5, -12.5, 0.0), reach_high_mm=(12.5, 12.5, 100.0))
    save_thing(
        machine(name="Tiny", build_volume_mm=(25.0, 25.0, 100.0), nozzles=(nozzle,), materials=1)
    )
    answer = measured(capsys, post_and_cap)
    assert answer["process"]["machine"] == "Tiny"
    fit = answer["fits"]["Tiny"]
    assert not fit["fits"]
    assert fit["over_mm"] == pytest.approx(5)
    assert fit["spin_deg"] % 90 == pytest.approx(0)


def test_a_job_brings_its_own_choice_and_the_command_line_wins(capsys, post_and_cap, tmp_path):
    state = read_part(post_and_cap).with_(
        shop_choice=ShopChoice("Two nozzles, large", "PLA with PVA", "Sturdy")
    )
    write_job(state, tmp_path / "job.3mf")
    own = measured(capsys, tmp_path / "job.3mf")["process"]
    names = (own["machine"], own["pair"], own["walls_and_fill"])
    assert names == ("Two nozzles, large", "PLA with PVA", "Sturdy")
    asked = measured(capsys, tmp_path / "job.3mf", "--pair", "PLA alone")["process"]
    assert (asked["machine"], asked["pair"]) == ("Two nozzles, large", "PLA alone")


def test_a_damaged_file_of_the_shop_is_noted(capsys, post_and_cap, own_shop):
    (own_shop / "machines").mkdir(parents=True)
    (own_shop / "machines" / "old.toml").write_text("name = 3", "utf-8")
    answer = measured(capsys, post_and_cap)
    assert any("old.toml" in note for note in answer["notes"])


def test_finished_prints_correct_the_time(capsys, post_and_cap):
    before = measured(capsys, post_and_cap)["time_s"]
    for _ in range(6):
        note_finished_print(
            FinishedPrint(
                estimated_s=before["likely"],
                time_s=1.5 * before["likely"],
                machine="One nozzle, medium",
            )
        )
    after = measured(capsys, post_and_cap)["time_s"]
    assert after["likely"] == pytest.approx(1.5 * before["likely"], rel=0.02)


def test_the_same_in_words(capsys, post_and_cap):
    assert main(["measure", str(post_and_cap), "--pair", "ABS with HIPS"]) == 0
    out, _ = capsys.readouterr()
    for words in ("tool changes", "EUR", 'fits "Two nozzles, large"', "limonene", "Caution:"):
        assert words.lower() in out.lower()
