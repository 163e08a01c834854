"""The part's colours, worked out by the graphics processor for every pixel.

The face normal comes from the derivatives of the position in part coordinates, the build direction
is one uniform: turning the part therefore costs nothing per face and uploads nothing. Needs
`SetVBOShiftScaleMethod(0)` on the mapper; with VTK's default the positions are scaled per axis.

The per-face bytes arrive as the colour of the cell: red = face class (0, 1, 2), green = share of
the face that a support touches (0 to 255), blue = 255 where the face belongs to a field of
terraces, 0 elsewhere.
"""

import numpy as np

from viewer.scene import palettes

FLAT_FACE_DEG = 0.5  # a face closer to level than this has no stairs
STRICT_DEG = 0.01  # equality with the limit is self-supporting (see check-values)
ON_PLATFORM_DEG, ON_PLATFORM_MM = 0.1, 0.001
TABLE_STEPS = 33  # of a Crameri map; linear between them, less than half a grey level off

VERTEX_DECLARATION = """//VTK::Normal::Dec
out vec3 partMC;
"""
VERTEX_CODE = """//VTK::Normal::Impl
  partMC = vertexMC.xyz;
"""


def _vec3(rgb: np.ndarray) -> str:
    return "vec3({:.5f}, {:.5f}, {:.5f})".format(*rgb)


def _table(name: str, table: np.ndarray) -> str:
    places = np.linspace(0, len(table) - 1, TABLE_STEPS).round().astype(int)
    values = ",\n    ".join(_vec3(table[k]) for k in places)
    return (
        f"const vec3 {name}Table[{TABLE_STEPS}] = vec3[{TABLE_STEPS}](\n    {values});\n"
        f"vec3 {name}(float share) {{\n"
        f"  float place = clamp(share, 0.0, 1.0) * {TABLE_STEPS - 1}.0;\n"
        f"  int low = min(int(place), {TABLE_STEPS - 2});\n"
        f"  return mix({name}Table[low], {name}Table[low + 1], place - float(low));\n}}\n"
    )


def _colours(name: str, three: tuple[palettes.Colour, ...]) -> str:
    values = ", ".join(_vec3(c) for c in three)
    return f"const vec3 {name}[3] = vec3[3]({values});\n"


# Stripes rise for class A, fall for class B, lie level elsewhere: a hatch that needs no colour.
HATCH = """
float stripe(float across, float period) {
  float place = abs(fract(across / period) - 0.5) * period;  // pixels from the middle of a stripe
  return 1.0 - smoothstep(0.8, 1.6, place);
}
float hatch(int faceClass, float scale) {
  vec2 at = gl_FragCoord.xy / scale;
  if (faceClass == 1) return stripe((at.x - at.y) * 0.7071, 6.0);
  if (faceClass == 2) return stripe((at.x + at.y) * 0.7071, 6.0);
  return stripe(at.y, 6.0);
}
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
  const vec3 light = vec3(-0.29, 0.48, 0.828);
  float lit = 0.5 * dot(n, light) + 0.5 - 0.914 + 1.0;
  float rim = 1.0 - clamp(n.z, 0.0, 1.0);
  return clamp(0.34 + 0.66 * lit, 0.0, 1.06) * (1.0 - 0.42 * rim * rim * rim);
}
"""

LENS_COLOURS = """
vec3 overhangColour(float downZ, float inclinationDeg, bool onPlatform, vec3 neutral) {
  if (downZ <= 0.0 || onPlatform || inclinationDeg >= limitDeg - STRICT_DEG) return neutral;
  return overhangScale(inclinationDeg / limitDeg);
}
vec3 touchColour(int faceClass, float share, vec3 pale, float scale) {
  if (share <= 0.0) return pale;
  vec3 hue = touchColours[faceClass];
  vec3 marked = mix(hue, hue * 0.45, 0.85 * hatch(faceClass, scale));
  return mix(pale, marked, 0.3 + 0.7 * share);
}
vec3 terraceColour(float inclinationDeg, float slope, bool counts, vec3 neutral) {
  if (!counts || inclinationDeg < FLAT_FACE_DEG) return neutral;
  return terraceScale(layerMM / max(slope, 1e-6) / terraceTopMM);
}
"""

FRAGMENT_CODE = """
  vec3 faceMC = normalize(cross(dFdx(partMC), dFdy(partMC)));
  vec3 faceVC = normalize(cross(dFdx(vertexVC.xyz), dFdy(vertexVC.xyz)));
  if (faceVC.z < 0.0) { faceMC = -faceMC; faceVC = -faceVC; }  // now towards the eye
  if (!gl_FrontFacing) faceMC = -faceMC;                       // outward by the file's winding
  float upZ = clamp(dot(faceMC, upMC), -1.0, 1.0);
  float level = length(cross(faceMC, upMC));                   // sine of the angle from upright
  float inclinationDeg = degrees(atan(level, abs(upZ)));
  bool onPlatform = upZ < 0.0 && inclinationDeg < ON_PLATFORM_DEG
      && dot(partMC, upMC) + dropMM < ON_PLATFORM_MM;
  int faceClass = int(texColor.r * 255.0 + 0.5);
  vec3 neutral = neutralColour;
  vec3 tinted = mix(neutral, classColours[faceClass], faceClass == 0 ? 0.0 : 0.38);
  vec3 c = classColours[faceClass];
  if (lens == 1) c = overhangColour(-upZ, inclinationDeg, onPlatform, neutral);
  if (lens == 2) {
    bool hangs = upZ < 0.0 && !onPlatform && inclinationDeg < limitDeg - STRICT_DEG;
    float share = measured == 1 ? texColor.g : (hangs ? 1.0 : 0.0);
    c = touchColour(faceClass, share, tinted, pixelScale);
  }
  if (lens == 3)
    c = terraceColour(inclinationDeg, level / max(abs(upZ), 1e-6),
                      measured == 0 || texColor.b > 0.5, neutral);
  if (!gl_FrontFacing) c = mix(c, vec3(0.35), 0.6);            // the inside of an open mesh
  fragOutput0 = vec4(c * softLight(faceVC), 1.0);
"""


def fragment_declaration() -> str:
    """GLSL before main(): tables, constants and the colour of each lens."""
    constants = (
        f"#define STRICT_DEG {STRICT_DEG}\n#define FLAT_FACE_DEG {FLAT_FACE_DEG}\n"
        f"#define ON_PLATFORM_DEG {ON_PLATFORM_DEG}\n#define ON_PLATFORM_MM {ON_PLATFORM_MM}\n"
        f"const vec3 neutralColour = {_vec3(palettes.WARM_GREY)};\n"
    )
    return (
        "//VTK::Normal::Dec\nin vec3 partMC;\n"
        + constants
        + _colours("classColours", palettes.CLASS_COLOURS)
        + _colours("touchColours", palettes.TOUCH_COLOURS)
        + _table("overhangScale", palettes.overhang_table())
        + _table("terraceScale", palettes.terrace_table())
        + HATCH
        + SHADING
        + LENS_COLOURS
    )
