"""The part as it will come out of the machine: layers, roads and marks, by shading alone.

A point at height h above the platform lies in layer floor(h / t). Each layer is drawn as it comes
out: an upright side of height t, rounded like a road squeezed flat, then the level face that the
next layer leaves free, t / tan(inclination) wide. Going along the surface from one layer's inner
corner to the next, the side fills the share of the band that the eye sees of it:

    side : level = sin(i) (side · eye) : cos(i) (up · eye)

which is the ratio of their areas in the picture, so a wall shows rounded sides only, and a slope
from above level faces only. On an underside the same holds upside down. The inner corner is dark.

What is finer than a pixel is averaged exactly: the picture of a band is the difference of its
integral at both ends of a pixel, so steep walls turn even, and nothing shimmers when it moves.

Common practice, no source: the rounding of a road, the depth of the inner corner, roads of a top
running at 45° to the axes and changing direction with each layer, the roughness where a support
was broken off. They are there to be seen, not to be measured.
"""

from vtkmodules.vtkRenderingCore import vtkUniforms

from viewer.scene import palettes

LEVEL_FROM, LEVEL_TO = 0.0005, 0.002  # sine of the inclination (0.03°, 0.11°): corners fade in
CORNER_SHARE, CORNER_DEPTH = 0.11, 0.5  # half width of the inner corner by layer height; darkness
ROUND_OUT, ROUND_UP = 0.85, 0.75  # a rounded side: mean of its outward part, end of its upward one
CONTRAST = 0.62
ROADS_FROM, ROADS_TO = 6.0, 16.0  # level faces this many roads wide show roads
ROAD_DEPTH = 0.3
ROUGHNESS, DULLNESS = 0.62, 0.14
LEAST_LIGHT = 0.22

# Integrals from 0 to p over a row of bands (or lines), each of length 1.
_AVERAGES = f"""
float linesTo(float p, float halfWidth) {{
  float k = floor(p), x = p - k;
  return 2.0 * halfWidth * k + min(x, halfWidth) + max(x - 1.0 + halfWidth, 0.0);
}}
float lineShare(float p, float wide, float halfWidth) {{
  float start = fract(p) - 0.5 * wide;
  float mean = (linesTo(start + wide, halfWidth) - linesTo(start, halfWidth)) / wide;
  return mix(mean, 2.0 * halfWidth, smoothstep(0.8, 1.6, wide));
}}
float bandTo(float p, float side, float outLight, float upLight, float whole) {{
  float k = floor(p), x = p - k, q = min(x / side, 1.0);
  float upright = side * (outLight * q + {ROUND_UP} * upLight * (q * q - q));
  return k * whole + upright + upLight * max(x - side, 0.0);
}}
"""

_ROUGH = """
float scatter(vec3 cell) {  // from 0 to 1, the same for the same cell; D. Hoskins, "Hash without
  vec3 q = fract(cell * 0.1031);                             // Sine" (2014), MIT
  q += dot(q, q.zyx + 31.32);
  return fract((q.x + q.y) * q.z);
}
float lumps(vec3 at) {
  vec3 cell = floor(at), x = at - cell;
  x = x * x * (3.0 - 2.0 * x);
  vec2 off = vec2(0.0, 1.0);
  vec4 low = vec4(scatter(cell), scatter(cell + off.yxx), scatter(cell + off.xyx),
      scatter(cell + off.yyx));
  vec4 high = vec4(scatter(cell + off.xxy), scatter(cell + off.yxy), scatter(cell + off.xyy),
      scatter(cell + off.yyy));
  vec4 level = mix(low, high, x.z);
  vec2 row = mix(level.xz, level.yw, x.x);
  return mix(row.x, row.y, x.y);
}
"""

# `side` here is the upright side of a layer; `flip` is -1 on undersides, which are steps upside
# down. The eye's own axes come from the vertex program of `part_shader`.
_LOOK = f"""
float printedLight(vec3 at, vec3 outward, float rough, float onPlate) {{
  float upZ = clamp(dot(outward, upMC), -1.0, 1.0);
  float flip = upZ < 0.0 ? -1.0 : 1.0;
  vec3 level = outward - upMC * upZ;
  float slope = length(level);                            // sine of the inclination
  vec3 lamp = -0.29 * rightMC + 0.48 * topMC + 0.828 * backMC;
  float seenSide = max(dot(level, backMC), 0.0);
  float seenLevel = max(upZ * dot(upMC, backMC), 0.0);
  float side = seenSide / max(seenSide + seenLevel, 1e-6);
  side = clamp(max(side, 0.15 * slope), 1e-4, 1.0);

  float height = dot(at, upMC) + dropMM;
  float layers = height / layerMM;  // on a wall `flip` is anyone's guess: no derivative of that
  float p = flip * layers;
  float wide = clamp(length(vec2(dFdx(layers), dFdy(layers))), 1e-3, 4.0);
  float outLight = {ROUND_OUT} * dot(level, lamp) / max(slope, 1e-6);
  float upLight = flip * dot(upMC, lamp);
  float whole = side * outLight + (1.0 - side) * upLight;
  float start = fract(p) - 0.5 * wide;
  float lit = (bandTo(start + wide, side, outLight, upLight, whole)
      - bandTo(start, side, outLight, upLight, whole)) / wide;
  lit = mix(lit, whole, smoothstep(0.8, 1.6, wide));
  float corner = clamp(max({CORNER_SHARE} * slope, 0.6 * wide), 0.0, {CORNER_SHARE});
  float bands = smoothstep({LEVEL_FROM}, {LEVEL_TO}, slope) * (1.0 - onPlate);
  lit = mix(upLight, lit, bands);
  float shade = 1.0 - {CORNER_DEPTH} * bands * lineShare(p, wide, corner);

  float roads = abs(upZ) * layerMM / max(slope * roadMM, 1e-6);
  float odd = mod(floor(layers + 0.2713), 2.0);  // a top at a whole layer stays in one
  float across = (dot(at, alongMC) + (odd * 2.0 - 1.0) * dot(at, acrossMC)) * 0.70711 / roadMM;
  float acrossWide = clamp(length(vec2(dFdx(across), dFdy(across))), 1e-3, 4.0);
  float between = lineShare(across, acrossWide, 0.13);
  shade *= 1.0 - {ROAD_DEPTH} * between * (1.0 - onPlate)
      * smoothstep({ROADS_FROM}, {ROADS_TO}, roads);

  // Lumps of one road, or as much coarser as the distance asks for: seen from anywhere.
  float pixelMM = max(length(dFdx(at)), length(dFdy(at)));
  float coarser = max(log2(3.5 * pixelMM / roadMM), 0.0);
  vec3 place = at / (roadMM * exp2(floor(coarser)));
  float lump = mix(lumps(place), lumps(0.5 * place), fract(coarser));
  float torn = {ROUGHNESS} * (lump - 0.5) - {DULLNESS};

  float rim = 1.0 - clamp(dot(outward, backMC) * (gl_FrontFacing ? 1.0 : -1.0), 0.0, 1.0);
  float light = 1.0 + {CONTRAST} * (lit - 0.828) + onPlate * 0.05;
  return clamp(light, 0.2, 1.12) * shade * (1.0 + rough * torn) * (1.0 - 0.3 * rim * rim * rim);
}}
"""


def look_declaration() -> str:
    """GLSL before main(): `printedLight`."""
    return _AVERAGES + _ROUGH + _LOOK


def set_colour(uniforms: vtkUniforms, colour: palettes.Colour) -> None:
    """The colour of the material, a uniform of the part and of the marks on it."""
    uniforms.SetUniform3f("printColour", list(shown_colour(colour)))


def shown_colour(colour: palettes.Colour) -> palettes.Colour:
    """A colour in which light and shade can still be told apart: black is drawn as a dark grey."""
    missing = LEAST_LIGHT - sum(share * c for share, c in zip(palettes.LUMA, colour, strict=True))
    return tuple(min(c + max(missing, 0.0), 1.0) for c in colour)


# Before the first measures of a part nothing is known to be touched; between two measures (the part
# is being turned) what hangs over stands in for it.
PART_CODE = """
  float share = measured == 1 ? texColor.g : measured == 2 && hangs ? 1.0 : 0.0;
  float rough = share > 0.0 ? 0.35 + 0.65 * share : 0.0;
  vec3 c = printColour * printedLight(partMC, outwardMC, rough, onPlatform ? 1.0 : 0.0);
  if (!gl_FrontFacing) c = mix(c, vec3(0.35), 0.6);            // the inside of an open mesh
  fragOutput0 = vec4(c, 1.0);
"""
LANDING_CODE = """
  vec3 outwardMC = normalize(cross(dFdx(partMC), dFdy(partMC)));
  if (!gl_FrontFacing) outwardMC = -outwardMC;
  fragOutput0 = vec4(printColour * printedLight(partMC, outwardMC, 1.0, 0.0), 1.0);
"""
