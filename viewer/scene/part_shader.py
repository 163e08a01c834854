"""The part's colours, worked out by the graphics processor for every pixel.

The face normal comes from the derivatives of the position in part coordinates, the build direction
is one uniform: turning the part therefore costs nothing per face and uploads nothing. Needs
`SetVBOShiftScaleMethod(0)` on the mapper; with VTK's default the positions are scaled per axis.

The per-face bytes arrive as the colour of the cell: red = face class (0, 1, 2), green = share of
the face that a support touches (0 to 255; for the lenses Deviation and Difference the place on
their scale, see `part_actor`), blue = family of its fault (0 none), plus 128 where the face belongs
to a field of terraces.

A part that is cut open shows its faces from behind. They are painted flat: whoever looks through
the cut at a back face looks through material, so together they look like the cut surface itself.

Each lens is a program of its own: drawing in software evaluates both sides of every `if`, so one
program for all lenses would take twice as long. For the same reason a colour map is a polynomial.
"""

import numpy as np

from viewer.geometry.pose_difference import CLEAR_SHARE
from viewer.scene import palettes, printed_look
from viewer.scene.fault_looks import FAULT_LOOKS
from viewer.scene.lenses import Lens

FLAT_FACE_DEG = 0.5  # a face closer to level than this has no stairs
STRICT_DEG = 0.01  # equality with the limit is self-supporting (see check-values)
ON_PLATFORM_DEG, ON_PLATFORM_MM = 0.1, 0.001
MAP_DEGREE = 9  # least squares: at most 2 of 255 grey levels off the published map
DIVERGING_DEGREE = 13  # the same, for a map that turns round in its middle
SAME_BYTE = 127  # where the scale of differences is 0; it ends at 0 and at twice this

VERTEX_DECLARATION = """//VTK::Normal::Dec
out vec3 partMC;
flat out vec3 rightMC;
flat out vec3 topMC;
flat out vec3 backMC;
"""
VERTEX_CODE = """//VTK::Normal::Impl
  partMC = vertexMC.xyz;
  mat4 rows = transpose(MCDCMatrix);  // its rows point along the camera's own axes
  rightMC = normalize(rows[0].xyz);
  topMC = normalize(rows[1].xyz);
  backMC = -normalize(rows[2].xyz);
"""
FRAGMENT_DECLARATION = """//VTK::Normal::Dec
in vec3 partMC;
flat in vec3 rightMC;
flat in vec3 topMC;
flat in vec3 backMC;
"""

# Stripes rise for class A, fall for class B, lie level elsewhere: a hatch that needs no colour.
HATCH = """
float hatch(int faceClass, float scale) {
  vec2 at = gl_FragCoord.xy / scale;
  vec2 across = faceClass == 1 ? vec2(0.7071, -0.7071)
      : faceClass == 2 ? vec2(0.7071, 0.7071) : vec2(0.0, 1.0);
  float place = abs(fract(dot(at, across) / 6.0) - 0.5) * 6.0;  // from the middle of a stripe
  return 1.0 - smoothstep(0.8, 1.6, place);
}
"""
# The stripes of a hatch: dark on light colours, light on dark ones, so that they stand out 3:1.
INK = f"""
vec3 inked(vec3 c, float ink) {{
  bool light = dot(c, vec3{palettes.LUMA}) > {palettes.INK_FROM};
  return mix(c, light ? c * {palettes.DARK_INK} : mix(c, vec3(1.0), {palettes.LIGHT_INK}), ink);
}}
"""
DOT_PATTERN = """
float dots(float scale) {
  vec2 at = gl_FragCoord.xy / scale / 6.0;
  at.x += 0.5 * mod(floor(at.y), 2.0);
  return 1.0 - smoothstep(1.3, 2.1, length(fract(at) - 0.5) * 6.0);
}
"""

# Soft light from beside the camera and a darker rim; exactly 1 on a face seen square on.
SHADING = """
float softLight(vec3 n) {
  float lit = 1.0 + 0.33 * (dot(n, vec3(-0.29, 0.48, 0.828)) - 0.828);
  float rim = 1.0 - clamp(n.z, 0.0, 1.0);
  return min(lit, 1.06) * (1.0 - 0.42 * rim * rim * rim);
}
"""

_NORMAL = """
  vec3 faceMC = normalize(cross(dFdx(partMC), dFdy(partMC)));  // always towards the eye
  vec3 faceVC = vec3(dot(faceMC, rightMC), dot(faceMC, topMC), dot(faceMC, backMC));
  vec3 outwardMC = gl_FrontFacing ? faceMC : -faceMC;          // by the file's winding
  int faceClass = int(texColor.r * 255.0 + 0.5);
"""
_INCLINATION = f"""
  float upZ = clamp(dot(outwardMC, upMC), -1.0, 1.0);
  float level = length(cross(outwardMC, upMC));                // sine of the inclination
  float inclinationDeg = degrees(atan(level, abs(upZ)));
  bool onPlatform = upZ < 0.0 && inclinationDeg < {ON_PLATFORM_DEG}
      && dot(partMC, upMC) + dropMM < {ON_PLATFORM_MM};
  bool hangs = upZ < 0.0 && !onPlatform && inclinationDeg < limitDeg - {STRICT_DEG};
"""
_END = """
  if (!gl_FrontFacing) c = mix(c, vec3(0.35), 0.6);            // the inside of an open mesh
  fragOutput0 = vec4(c * softLight(faceVC), 1.0);
"""
_CUT = """
  if (!gl_FrontFacing) {
    vec2 cutAt = gl_FragCoord.xy / pixelScale;
    float line = abs(fract((cutAt.x + cutAt.y) / 14.0) - 0.5) * 14.0;
    fragOutput0 = vec4(cutColour * mix(0.9, 1.0, smoothstep(0.6, 1.4, line)), 1.0);
  }
"""
_LENS_CODE = {
    Lens.CLASSES: _NORMAL + "  vec3 c = classColours(faceClass);\n" + _END,
    Lens.OVERHANG: _NORMAL
    + _INCLINATION
    + "  vec3 c = hangs ? scaleColour(inclinationDeg / limitDeg) : neutralColour;\n"
    + _END,
    Lens.TOUCH: _NORMAL
    + _INCLINATION
    + """
  float share = measured == 1 ? texColor.g : (hangs ? 1.0 : 0.0);
  vec3 pale = mix(neutralColour, classColours(faceClass), 0.38);
  vec3 hue = touchColours(faceClass);
  vec3 marked = inked(hue, hatch(faceClass, pixelScale));
  vec3 c = share > 0.0 ? mix(pale, marked, 0.3 + 0.7 * share) : pale;
"""
    + _END,
    Lens.TERRACES: _NORMAL
    + _INCLINATION
    + f"""
  bool counts = (measured != 1 || texColor.b > 0.5) && inclinationDeg >= {FLAT_FACE_DEG};
  float widthMM = layerMM * abs(upZ) / max(level, 1e-6);
  vec3 c = counts ? scaleColour(widthMM / terraceTopMM) : neutralColour;
"""
    + _END,
    Lens.FAULTS: _NORMAL
    + """
  int family = int(texColor.b * 255.0 + 0.5) % 128;
  vec3 c = neutralColour;
  if (family > 0) {
    float ink = family == 4 ? dots(pixelScale) : family == 5 ? 0.0 : hatch(family, pixelScale);
    c = inked(faultColours(family), ink);
  }
"""
    + _END,
    Lens.DEVIATION: _NORMAL
    + """  vec3 c = scaleColour(texColor.g);
"""
    + _END,
    Lens.PRINTED: _NORMAL + _INCLINATION + printed_look.PART_CODE,
    Lens.DIFFERENCE: _NORMAL
    + f"""
  float share = measured == 1 ? texColor.g * 255.0 / {SAME_BYTE * 2}.0 : 0.5;
  vec3 c = scaleColour(share);
  float gap = 2.0 * share - 1.0;
  if (someMarked == 1 && faceClass == 0) c = mix(c, neutralColour, 0.7);
  else if (abs(gap) >= {CLEAR_SHARE:.6f})
    c = inked(c, hatch(gap > 0.0 ? 1 : 2, pixelScale));
"""
    + _END,
}


def fragment_code(lens: Lens, cut: bool = False) -> str:
    """GLSL inside main() that colours a pixel for one lens; `cut`: of a part that is cut open."""
    return _LENS_CODE[lens] + (_CUT if cut else "")


def fragment_declaration(lens: Lens) -> str:
    """GLSL before main(): the constants and functions one lens needs."""
    parts = [
        FRAGMENT_DECLARATION,
        f"const vec3 neutralColour = {_vec3(palettes.WARM_GREY)};\n",
        _colours("classColours", palettes.CLASS_COLOURS),
        f"const vec3 cutColour = {_vec3(palettes.CUT_GREY)};\n",
        SHADING,
    ]
    if lens is Lens.OVERHANG:
        parts.append(_scale(palettes.overhang_table()))
    if lens is Lens.TOUCH:
        parts += [_colours("touchColours", palettes.TOUCH_COLOURS), HATCH, INK]
    if lens is Lens.FAULTS:
        parts += [_fault_colours(), HATCH, INK, DOT_PATTERN]
    if lens is Lens.TERRACES:
        parts.append(_scale(palettes.terrace_table()))
    if lens is Lens.DEVIATION:
        parts.append(_scale(palettes.deviation_table()))
    if lens is Lens.DIFFERENCE:
        parts += [_scale(palettes.difference_table(), DIVERGING_DEGREE), HATCH, INK]
    if lens is Lens.PRINTED:
        parts.append(printed_look.look_declaration())
    return "".join(parts)


def map_polynomial(table: np.ndarray, degree: int = MAP_DEGREE) -> np.ndarray:
    """(degree + 1, 3) coefficients, highest power first, of a colour map over −1 to 1."""
    return np.polyfit(np.linspace(-1.0, 1.0, len(table)), table, degree)


def _vec3(rgb: np.ndarray) -> str:
    return "vec3({:.6f}, {:.6f}, {:.6f})".format(*rgb)


def _colours(name: str, three: tuple[palettes.Colour, ...]) -> str:
    """A function-like choice among three colours; arrays are slow when drawing in software."""
    unmarked, a, b = (_vec3(c) for c in three)
    return f"#define {name}(k) ((k) == 1 ? {a} : (k) == 2 ? {b} : {unmarked})\n"


def _fault_colours() -> str:
    """The colour of each family of faults, from 1."""
    *looks, last = (_vec3(look.colour) for look in FAULT_LOOKS)
    choices = "".join(f"(k) == {k} ? {colour} : " for k, colour in enumerate(looks, 1))
    return f"#define faultColours(k) ({choices}{last})\n"


def _scale(table: np.ndarray, degree: int = MAP_DEGREE) -> str:
    highest, *rest = (_vec3(row) for row in map_polynomial(table, degree))
    steps = "".join(f"  c = c * x + {row};\n" for row in rest)
    return (
        "vec3 scaleColour(float share) {\n  float x = clamp(2.0 * share - 1.0, -1.0, 1.0);\n"
        f"  vec3 c = {highest};\n{steps}  return clamp(c, 0.0, 1.0);\n}}\n"
    )
