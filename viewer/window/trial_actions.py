"""Actions of the menu Try that write results down, and those that propose what to print."""

from viewer.window.action_entry import Entry

MENU = "Tr&y"
RESULTS = "Tr&y/Resu&lts"


def trial_actions() -> list[Entry]:
    """Trials and what they teach."""
    free = {"needs_part": False}
    return [
        Entry("take_best_test", MENU, "Take the test that &pays most", "Ctrl+Shift+P",
              "Put the piece that decides most class A in an hour on the list of pieces",
              line_before=True),
        Entry("take_all_tests", MENU, "Take all tests that pa&y", "Ctrl+Shift+L",
              "Put all proposed pieces on the list of pieces"),
        Entry("save_tests", MENU, "Sav&e all tests on one platform …", "Ctrl+Shift+F",
              "All proposed pieces side by side in one 3MF"),
        Entry("write_trial", RESULTS, "&Write down a result …", "Ctrl+Shift+N",
              "What came out of each step of a printed test piece", **free),
        Entry("change_trial", RESULTS, "&Change the result …", "Ctrl+Shift+H",
              "Change the chosen trial", **free),
        Entry("remove_trial", RESULTS, "Remove t&he trial", "Ctrl+Shift+Backspace",
              "Forget the chosen trial in job and shop", **free),
        Entry("bring_back_trial", RESULTS, "Bring the trial bac&k", "Ctrl+Shift+B",
              "Take back what was last changed or removed of the shop's own trials", **free),
        Entry("export_trials", RESULTS, "&Export all trials …", "Ctrl+Shift+J",
              "As a table (CSV) with a row for each step", **free),
    ]  # fmt: skip
