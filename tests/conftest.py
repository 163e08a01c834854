"""What all tests share: how hypothesis searches, and kernels for workers side by side."""

import gc
import os
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.few import SETTING as SETTING_LONG
from tests.few import few
from viewer.app import make_constants_last
from viewer.files import threemf_file
from viewer.geometry.kernel_cache import SETTING, folder_in_use


def pytest_configure(config: pytest.Config) -> None:
    """Outlive PySide6's count of True, and give each worker a copy of the compiled kernels.

    Numba names the next file by what its index holds; two processes that compile one kernel for
    different arrays at the same time would write to one file.
    """
    if config.getoption("--long"):
        os.environ[SETTING_LONG] = "1"
    search_the_same_way()
    threemf_file.SMALL_BYTES = 1_000_000  # hundreds of small files, for which no process is started
    make_constants_last()  # long runs send more signals than any window lives to see
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
    gc.collect()
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
)


def pytest_addoption(parser: pytest.Parser) -> None:
    """The whole check against the one that is made after every change."""
    parser.addoption("--long", action="store_true", help="also run the tests that take longest")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Pass over the long tests, unless asked for."""
    if config.getoption("--long"):
        return
    passed_over = pytest.mark.skip(reason="takes long; runs with --long")
    for item in items:
        if any(name in item.nodeid for name in LONG):
            item.add_marker(passed_over)
