"""What a scene shows of a machine, out of what the shop knows: a pure function, no widget."""

from viewer.scene.machine_view import NO_LINES, DrawnBox, MachineLook
from viewer.shop.fit import Fit
from viewer.shop.machine_answer import MachineAnswer
from viewer.shop.machines import Machine
from viewer.shop.volumes import Volume, machine_volumes, standing_place_mm
from viewer.words import say

STYLES = {"build volume": "solid", "reach": "dashed", "forbidden": "crossed", "purged": "crossed"}


def machine_look(machine: Machine, answer: MachineAnswer | None, volumes: bool) -> MachineLook:
    """The platform, copies and pieces on it and, where `volumes` are wanted, boxes and outside.

    answer : of this machine and the pose that is drawn, None where it is not known yet
    """
    fit = answer.numbers.fits[machine.name] if answer is not None else None
    plan = answer.plan if answer is not None else None
    copies = () if plan is None else plan.outlines_mm
    pieces = () if plan is None else plan.pieces
    place = standing_place_mm(machine, fit) if volumes else (0.0, 0.0)
    if copies:  # the part that is drawn is one of them
        place = plan.one_mm or (0.0, 0.0)
    outside = answer is not None and volumes
    return MachineLook(
        platform_mm=machine.build_volume_mm[:2],
        place_mm=place,
        boxes=_boxes(machine, fit, answer) if volumes else (),
        outline_mm=answer.outline_mm if outside else NO_LINES,
        hatch_mm=answer.hatch_mm if outside else NO_LINES,
        copies=copies,
        pieces=pieces,
    )


def outside_sentences(answer: MachineAnswer) -> list[str]:
    """What sticks out of what which nozzle reaches, in words."""
    return [
        say("Supports stick out of what nozzle “{nozzle}” reaches.", nozzle=say(each.nozzle))
        if each.what == "support"
        else say("The part sticks out of what nozzle “{nozzle}” reaches.", nozzle=say(each.nozzle))
        for each in answer.outside
    ]


def _boxes(machine: Machine, fit: Fit | None, answer: MachineAnswer | None):
    estimate = answer.numbers.estimate if answer is not None else None
    body = estimate.purge_body_mm if estimate is not None else (0.0, 0.0, 0.0)
    return tuple(
        DrawnBox(_label(volume), volume.low_mm, volume.high_mm, STYLES[volume.role])
        for volume in machine_volumes(machine, fit, body)
        if volume.role != "reach" or not _whole(machine, volume)
    )


def _whole(machine: Machine, volume: Volume) -> bool:
    """Whether a nozzle reaches the whole build volume, so that a box of its own says nothing."""
    return (volume.low_mm, volume.high_mm) == (machine.low_mm, machine.high_mm)


def _label(volume: Volume) -> str:
    size = " × ".join(f"{b - a:g}" for a, b in zip(volume.low_mm, volume.high_mm, strict=True))
    if volume.role == "build volume":
        return say("Build volume {size} mm", size=size)
    if volume.role == "reach":
        return say("Reach of “{nozzle}” {size} mm", nozzle=say(volume.name), size=size)
    if volume.role == "forbidden":
        return say("Keep free: {name}", name=say(volume.name))
    return say("Purged material")
