"""The verdict on a mesh: sound, printable with care, or will fail, and the reason for it."""

import numpy as np

from viewer.geometry.fault_list import FoundFault, hole_widths_mm
from viewer.geometry.fault_words import CARE, CRACK_MM, FAILS, counted, length, listed
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults
from viewer.words import say

SOUND, WITH_CARE, WILL_FAIL = "sound", "printable with care", "will fail"


def verdict(mesh: Mesh, faults: MeshFaults, found: list[FoundFault]) -> tuple[str, str]:
    """The verdict and the reason for it in a sentence.

    found : all faults of the part in its pose
    """
    volume = float(np.abs(faults.shells.volume_mm3[~faults.sheets & ~faults.loose]).sum())
    if volume < 1e-9 * float(max(mesh.face_areas_mm2.sum(), 1e-300)):
        return WILL_FAIL, say("The surface encloses no volume, so there is nothing to print.")
    failing = [fault for fault in found if fault.gravity == FAILS]
    if any(fault.kind == "open_edges" for fault in failing):
        widths = hole_widths_mm(faults)
        holes = int((widths > CRACK_MM).sum())
        where = say("a hole") if holes == 1 else say("{holes:,} holes", holes=holes)
        widest = length(float(widths.max()))
        return WILL_FAIL, say(
            "The surface has {where} up to {widest} wide; layers there stay open.",
            where=where,
            widest=widest,
        )
    if failing:
        return WILL_FAIL, say(
            "Much of the part has walls thinner than one road, which is not printed."
        )
    concerns = [counted(one.kind, one.count) for one in found if one.gravity == CARE]
    if concerns:
        where = listed(concerns)
        return WITH_CARE, say(
            "It will probably print, but look first at the layers with {where}.", where=where
        )
    harmless = [counted(one.kind, one.count) for one in found]
    also = say("; {faults} do no harm", faults=listed(harmless)) if harmless else ""
    return SOUND, say(
        "The surface is closed, faces outwards and nowhere crosses itself{also}.", also=also
    )
