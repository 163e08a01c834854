"""What the faults of a mesh mean, in plain words: names, advice, and the verdict."""

from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import MeshFaults

# Common practice, no source: a crack this narrow closes when the layers are filled with roads
# several tenths of a millimetre wide; a wider one leaves the outline of a layer open.
CRACK_MM = 0.05

SOUND, WITH_CARE, WILL_FAIL = "sound", "printable with care", "will fail"

_NAMES = {
    "open_edges": ("open edge", "open edges"),
    "nonmanifold_edges": ("edge with more than two faces", "edges with more than two faces"),
    "flipped_edges": (
        "edge between faces turned against each other",
        "edges between faces turned against each other",
    ),
    "self_intersecting_faces": ("face that crosses another", "faces that cross others"),
    "inward_shells": ("inside-out shell", "inside-out shells"),
    "duplicate_faces": ("face that is there twice", "faces that are there twice"),
    "floating_bits": ("loose speck", "loose specks"),
    "touching_shells": ("face that touches another shell", "faces that touch other shells"),
    "degenerate_faces": ("face without area", "faces without area"),
}

_ADVICE = {
    "nonmanifold_edges": "Look for a wall or patch that is there twice and take one away; bodies "
    "that meet in a single edge should overlap a little instead.",
    "flipped_edges": "Turn the faces so that all of them face outwards: a print program may take "
    "the wrong side for the inside.",
    "self_intersecting_faces": "Unite the crossing bodies, or smooth out the fold: inside and "
    "outside are not clear where the surface crosses itself.",
    "inward_shells": "Turn these shells over: facing inwards, they may be printed as hollows or "
    "left out.",
    "floating_bits": "Remove them if they are leftovers: they touch nothing and would be printed "
    "in mid-air or beside the part.",
    "touching_shells": "No harm in most print programs; unite the shells if they are to be one "
    "body.",
    "degenerate_faces": "They do no harm to the print; mending removes them.",
}


def counted(kind: str, count: int) -> str:
    """Count and name of a kind of fault, such as "1 open edge" or "1,200 open edges"."""
    return f"{count:,} {_NAMES[kind][count != 1]}"


def advice(kind: str, faults: MeshFaults) -> str:
    """What to do about a kind of fault, in a sentence."""
    if kind == "open_edges":
        return _open_edges_advice(faults)
    if kind == "duplicate_faces":
        if len(faults.faces.opposite):
            return "Take one of each pair away, or give the sheet between them a thickness."
        return "Take one of each pair away: the same surface printed twice can confuse the filling."
    return _ADVICE[kind]


def _open_edges_advice(faults: MeshFaults) -> str:
    widest = float(faults.loops.width_mm.max())
    count = faults.loops.count
    places = "1 place" if count == 1 else f"{count:,} places"
    if widest <= CRACK_MM:
        return f"Sew the surface together in {places}: the gap is about {_length(widest)} wide."
    return f"Close the surface in {places}, the widest about {_length(widest)} wide."


def _length(mm: float) -> str:
    return f"{mm:.2g} mm" if mm < 10 else f"{mm:.0f} mm"


def verdict(mesh: Mesh, faults: MeshFaults) -> tuple[str, str]:
    """The verdict and the reason for it in a sentence."""
    loops, shells = faults.loops, faults.shells
    if float(abs(shells.volume_mm3).sum()) < 1e-9 * float(max(mesh.face_areas_mm2.sum(), 1e-300)):
        return WILL_FAIL, "The surface encloses no volume, so there is nothing to print."
    holes = int((loops.width_mm > CRACK_MM).sum())
    if holes:
        where = "a hole" if holes == 1 else f"{holes:,} holes"
        widest = _length(float(loops.width_mm.max()))
        return WILL_FAIL, f"The surface has {where} up to {widest} wide; layers there stay open."
    concerns = [
        counted(kind, count)
        for kind, count in (
            ("open_edges", len(faults.edges.open)),
            ("nonmanifold_edges", len(faults.edges.crowded)),
            ("flipped_edges", len(faults.edges.flipped)),
            ("self_intersecting_faces", len(faults.crossing_faces)),
            ("inward_shells", shells.inward_shells),
            ("duplicate_faces", len(faults.faces.duplicate)),
            ("floating_bits", faults.specks),
        )
        if count
    ]
    if concerns:
        listed = concerns[0] if len(concerns) == 1 else ", ".join(concerns[:-1])
        listed += f" and {concerns[-1]}" if len(concerns) > 1 else ""
        return WITH_CARE, f"It will probably print, but look first at the layers with {listed}."
    harmless = [
        counted(kind, count)
        for kind, count in (
            ("touching_shells", len(faults.touching_faces)),
            ("degenerate_faces", len(faults.faces.degenerate)),
        )
        if count
    ]
    also = f"; {' and '.join(harmless)} do no harm" if harmless else ""
    return SOUND, f"The surface is closed, faces outwards and nowhere crosses itself{also}."
