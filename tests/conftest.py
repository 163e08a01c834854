"""What all tests share: how hypothesis searches, and kernels for workers side by side."""

import gc
import os
import re
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.few import SETTING as SETTING_LONG
from tests.few import few
from viewer.files import threemf_file
from viewer.geometry.kernel_cache import SETTING, folder_in_use
from viewer.live.long_life import live_long


def pytest_configure(config: pytest.Config) -> None:
    """Outlive PySide6's count of True, and give each worker a copy of the compiled kernels.

    Numba names the next file by what its index holds; two processes that compile one kernel for
    different arrays at the same time would write to one file.
    """
    if config.getoption("--long"):
        os.environ[SETTING_LONG] = "1"
    gc.disable()  # until all is imported: next to nothing of it is garbage
    search_the_same_way()
    threemf_file.SMALL_BYTES = 1_000_000  # hundreds of small files, for which no process is started
    live_long()  # long runs send more signals than any window lives to see
    shared = folder_in_use()
    if not hasattr(config, "workerinput") or shared is None:
        return
    # Beside the worker's own temporary folder, so that pytest clears it away if this is killed.
    own = Path(config.option.basetemp).with_name(f"kernels-{config.workerinput['workerid']}")
    config.add_cleanup(lambda: shutil.rmtree(own, ignore_errors=True))
    own.mkdir()
    if shared.is_dir():
        shutil.copytree(shared, own, dirs_exist_ok=True)
    os.environ[SETTING] = str(own)


def search_the_same_way() -> None:
    """Same examples every run, so that a red test is red again on the next machine; no deadline,
    as the first call of a kernel compiles it."""
    settings.register_profile(
        "showside",
        derandomize=True,
        deadline=None,
        max_examples=few(12, 40),
        suppress_health_check=[HealthCheck.too_slow],
    )
    settings.load_profile("showside")


def pytest_collection_finish() -> None:
    """What imports made lives for ever; not looking at it each time makes collecting quick."""
    gc.freeze()


@pytest.fixture(autouse=True)
def garbage_stays_on_its_thread():
    """As in the program (`garbage_here`): no worker deletes what belongs to Qt on this thread."""
    gc.disable()
    yield
    gc.enable()


# What takes longest for what it adds; all of it runs with --long.
LONG = (
    "test_bridges_against_oracle.py::test_real_parts",
    "test_graze_against_oracle.py::test_real_parts",
    "test_measure_against_oracle.py::test_real_parts[azdle",
    "test_measure_against_oracle.py::test_real_parts[so-arm100",
    "test_open_meshes.py",
    "test_many_windows_do_not_grow",
    "test_thirty_scenes_do_not_grow",
    "test_high_dpi.py::test_the_window_works_at_this_scale",
    "test_the_real_window_is_killed",
    "tests/speed/",
    "test_without_network_one_sentence",
    "test_cancel.py::test_checking",
    "test_two_hundred_hulls",
    # windows
    "test_searching.py::test_a_limit_in_the_way_is_named",
    "test_adapting.py::test_the_page_says_what_it_would_be",
    "arrows_step_the_pane_whose_frame_and_arrows_say_so[2]",
    "arrows_step_the_pane_whose_frame_and_arrows_say_so[4]",
    "test_sheet_desk.py::test_a_pack_is_written_in_one_step",
    "test_a_lasso_takes_the_front_or_goes_through[False]",
    "test_escape_gives_a_lasso_up",
    "test_a_large_step_file_tells_how_many_solids",
    "test_opening_a_large_step_file_is_cancelled_wherever_it_is[Splitting-button]",
    "test_opening_a_large_step_file_is_cancelled_wherever_it_is[Reading",
    "test_mending_is_told_in_german_from_end_to_end",
    "test_no_number_of_four_poses_is_cut_off_in_german[False",
    "test_no_number_of_four_poses_is_cut_off_in_german[True-size1]",
    "test_a_vast_part_says_so_and_is_reduced",
    "test_what_cannot_be_reduced_stays",
    "test_a_mended_job_is_saved_closed_and_opened_again",
    "test_f7_writes_a_turntable_with_all_its_frames",
    "test_fold_and_dialogs_speak_german[PLA alone]",
    "test_fold_and_dialogs_speak_german[ABS with HIPS]",
    "test_another_lens_stops_the_question",
    "test_ticked_results_are_compared_and_kept_together",
    "test_the_side_in_view_comes_to_the_back",
    "test_the_map_stands_round_the_part_as_a_globe",
    "test_the_pane_is_made_higher_by_drag_and_keys",
    "test_the_spin_is_that_of_the_least_rectangle",
    "test_escape_breaks_a_walk_off",
    "test_a_result_is_kept_with_its_sentence_as_the_note",
    "test_marks_grow_and_shrink_by_the_width[Ctrl+[",
    "test_seen_from_far_away_is_half_a_ball_and_by_key",
    "test_tab_to_a_button_previews_it",
    "test_seen_in_use_turns_with_the_part",
    "test_smoothing_takes_a_speck_and_leaves_the_cap",
    "test_more_fewer_and_another_pose_for_a_pane",
    "test_the_present_pane_follows_the_part_and_the_same_lens_is_in_all",
    "test_a_click_marks_one_face_of_the_cad_model",
    "test_one_key_swaps_the_pose_with_the_pinned_one",
    "test_the_list_is_put_in_another_order_by_keys",
    "test_renaming_from_another_stage_goes_to_the_list",
    "test_kept_poses_are_exported_as_a_table",
    "test_shop_column.py::test_nothing_is_cut_off_or_nameless_and_the_numbers_do_not_scroll_closed[(1920",
    "test_shop_german.py::test_nothing_is_cut_off_in_german[(1920",
    "test_undo_takes_the_comparison_back_and_redo_brings_it",
    "test_nothing_between_quotes_gets_through",
    "test_dragging_turns_the_camera_and_never_the_part",
    "test_pictures_by_keys.py::test_in_front_of_a_client_with_poses_side_by_side",
    "test_the_panes_and_their_table_fit_beside_the_panels[1920x1080]",
    "test_another_pose_and_new_results_ask_anew",
    # the same at the larger of two sizes
    "test_window_layout.py::test_the_tools_of_a_stage_fit_without_scrolling[1920",
    "test_window_layout.py::test_the_stage_turn_fits_however_many_poses_are_kept[1920",
    "test_window_layout.py::test_no_words_are_cut_off_in_any_stage[1920",
    "test_window_layout.py::test_the_scene_keeps_its_size_whatever_is_shown[1920",
    # measuring
    "test_support_solids.py::test_volumes_of_the_check_values[15]",
    "test_support_solids.py::test_volumes_of_the_check_values[20]",
    "test_support_solids.py::test_volumes_of_the_check_values[14]",
    "test_support_solids.py::test_real_meshes[so-arm100",
    "test_many_small_undersides[coil]",
    "test_two_overlapping_spheres_against_exact_arithmetic[3]",
    "test_without_a_writable_home_it_still_works[/dev",
    "test_every_faulty_shape_gets_a_sound_skin_of_its_volume[cavity turned outward]",
    "test_no_place_moves_farther_than_the_resolution[turned cube",
    "test_cancel.py::test_measuring[CancelledAt-one shell]",
    "test_graze_against_oracle.py::test_made_parts[bracket]",
    "test_the_standard_error_covers_the_difference",
    "test_turning_changes_nothing_and_scaling_scales",
    "test_leaves_are_fine_and_close_around",
    "test_onto_the_very_same_mesh_nothing_is_cut_and_nothing_changes",
    "test_preparing_a_part_of_meeting_shells_can_be_given_up",
    "test_few_faces_of_a_fine_surface_are_looked_at",
    "test_measure_against_oracle.py::test_made_parts[torus]",
    "test_measure_against_oracle.py::test_real_parts[trimesh-models/featuretype",
    "test_nothing_that_an_exhaustive_look_finds_is_better",
    "test_support_solids.py::test_volumes_of_the_check_values[21]",
    "test_support_solids.py::test_real_meshes[trimesh-models/plate_holes",
    "test_bridges_against_oracle.py::test_made_parts[honeycomb]",
    "test_bridges_against_oracle.py::test_made_parts[drilled]",
    "test_graze_against_oracle.py::test_made_parts[torus]",
    "test_graze_against_oracle.py::test_made_parts[shelves]",
    "test_sureness.py::test_real_parts[azdle-printables/floater",
    "test_sureness.py::test_real_parts[so-arm100",
    "test_cancel.py::test_measuring[CancelledAt-hollow]",
    "test_cancel.py::test_measuring[CancelledAt-overlapping]",
    "test_cancel.py::test_measuring[StoppedAtKernel-open]",
    "test_cancel.py::test_measuring[StoppedAtKernel-overlapping]",
    "test_direction_graze.py::test_like_the_full_tier_within_its_error",
    # further shapes, turns and keys of tests that run with others
    "test_no_way_to_cut_fails_on_a_part_with_faults[trimesh-models/soup",
    "test_no_way_to_cut_fails_on_a_part_with_faults[upkie-parts/handle",
    "test_no_way_to_cut_fails_on_a_part_with_faults[so-arm100/Webcam",
    "test_bridges_against_oracle.py::test_made_parts[tunnel]",
    "test_bridges_against_oracle.py::test_made_parts[wedge]",
    "test_cancel.py::test_measuring[CancelledAt-open]",
    "test_cancel.py::test_measuring[StoppedAtKernel-one shell]",
    "test_no_place_moves_farther_than_the_resolution[ball-0.4]",
    "test_no_place_moves_farther_than_the_resolution[cube-0.4]",
    "test_every_faulty_shape_gets_a_sound_skin_of_its_volume[overlap]",
    "test_any_turn_is_found_though_the_mesh_is_another[axis0",
    "test_any_turn_is_found_though_the_mesh_is_another[axis2",
    "test_measure_against_oracle.py::test_made_parts[balls in one another]",
    "test_measure_against_oracle.py::test_made_parts[touching]",
    "test_against_rays_and_a_flood_of_other_libraries[up1]",
    "test_real_parts_against_rays_of_another_library[trimesh-models/featuretype",
    "test_a_picture_shows_a_lid_dark_and_the_rest_calm[theme1]",
    "test_support_solids.py::test_bodies_turn_with_the_part[pose1]",
    "test_support_solids.py::test_real_meshes[assimp-testmodels/Spider",
    "test_every_fault_of_the_twin_is_found_where_it_was_put[up1",
    "test_direction_accuracy.py::test_like_the_full_tier[dm-control-dog",
    "test_direction_accuracy.py::test_like_the_full_tier[so-arm100",
    "test_the_pieces_go_together_without_touching_and_holes_stay_inside[mesh4-plane4]",
    "test_a_mirrored_mark_on_12_facets_is_the_mirror_image[False-1]",
    "test_a_mirrored_mark_on_12_facets_is_the_mirror_image[False-2]",
    "test_a_mirrored_mark_on_12_facets_is_the_mirror_image[True-0]",
    "test_what_is_no_model_gets_one_sentence[a.igs-content7",
    "test_a_large_part_is_made_smaller_and_says_by_how_much_it_differs[False]",
    "test_sureness.py::test_made_parts[torus]",
    "test_opening_a_large_step_file_is_cancelled_wherever_it_is[Loading the CAD kernel-Esc]",
    "test_the_lens_is_reached_and_its_legend_follows_the_settings[by_menu]",
    "test_a_drag_along_a_ring_turns_in_whole_steps[0",
    "test_a_drag_along_a_ring_turns_in_whole_steps[1",
    "test_german_words_fit_beside_the_direction_map[1.2]",
    # files, shop and commands
    "test_step_file.py::test_open_models[trimesh-models/box_sides",
    "test_step_file.py::test_open_models[occt-data",
    "test_a_job_brings_what_matters_to_it",
    "test_the_same_answers_in_order_though_a_worker_is_killed",
    "test_step_file.py::test_open_models[so-arm100",
    "test_step_file.py::test_open_models[rapax",
    "test_step_file.py::test_command_line_reads_step[check]",
    "test_layers_of_different_heights_are_proposed_where_asked_for",
    "test_direction_times.py::test_accuracy_on_a_mesh_made_by_others[PLA with PVA]",
    "test_when_nothing_is_left_it_says_what_is_in_the_way",
    "test_certificates_are_those_of_dasks_own_settings",
    "test_a_choice_in_the_shop_searches_anew_only_for_another_build_volume",
    "test_two_processes_compile_one_kernel_for_other_arrays",
    "test_pyplot_is_loaded_only_when_it_is_used",
)


def pytest_addoption(parser: pytest.Parser) -> None:
    """The whole check against the one that is made after every change."""
    parser.addoption("--long", action="store_true", help="also run the tests that take longest")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Pass over the long tests, unless asked for."""
    if config.getoption("--long"):
        return
    passed_over = pytest.mark.skip(reason="takes long; runs with --long")
    takes_long = re.compile("|".join(re.escape(name) for name in LONG))
    for item in items:
        if takes_long.search(item.nodeid):
            item.add_marker(passed_over)
