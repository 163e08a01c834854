"""What the buttons of the mouse and the most used keys do."""

from viewer.words import later

MOUSE = (
    (later("Left button"), later("works the tool of the stage; beside the part it turns the view")),
    (later("Right button"), later("turns the view")),
    (later("Middle button"), later("shifts the view")),
    (later("Wheel"), later("comes closer or goes farther, towards the pointer")),
    (later("[ and ]"), later("smaller and larger brush")),
    (later("Ctrl while turning"), later("15° steps instead of 1°")),
    (later("Esc"), later("takes back the drag under way, closes the cut, or stops a long job")),
    (
        later("Return in the list of faults"),
        later("the next place of the fault; up and down change the fault"),
    ),
    (
        later("Arrows"),
        later(
            "move the pointer in the scene, with Shift by one pixel; with Ctrl they turn the view"
        ),
    ),
    (later("Space, Return"), later("hold the left button down; click")),
    (later("+ and −"), later("come closer, go farther")),
    (later("1 to 8"), later("lenses")),
    ("C", later("poses side by side; F5: on a call; F6: a picture; F7: a turntable")),
    ("H", later("the height strip; drag in it, or turn the wheel, to cut the part open")),
    (later("Ctrl+1 to Ctrl+5"), later("stages")),
    (later("Ctrl+Shift+A"), later("find any action by name")),
    ("F1", later("help on what has the focus")),
    (later("Ctrl+K"), later("all shortcuts, to look up and to change")),
)
