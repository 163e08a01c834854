"""Eight boxes against one ray in one step, by vector instructions.

The compiler does not find them by itself in a loop of eight, so that they are said here outright,
in the language it works with inside (LLVM); it fits them to whatever the processor has. A node of
64 bytes, one line of the processor's cache, holds eight boxes:

    0 … 47   low, then high ends: for x, y, z the ends of all eight, whole numbers of 8 bits
    48 … 59  x, y, z of the node's corner, single precision
    60 … 62  for x, y, z the step in which ends are counted, as the exponent of a power of two
    63       the level the node belongs to (see `eight_boxes`)
"""

from llvmlite import ir

from viewer.geometry.compiled import compiled, intrinsic

NODE_BYTES, LANES = 64, 8
LOW, HIGH, CORNER, STEP, LEVEL = 0, 24, 48, 60, 63

_BYTE, _WORD, _LONG, _FLOAT = ir.IntType(8), ir.IntType(32), ir.IntType(64), ir.FloatType()
_BYTES, _FLOATS = ir.VectorType(_BYTE, LANES), ir.VectorType(_FLOAT, LANES)
_FIRST_LANE = ir.Constant(ir.VectorType(_WORD, LANES), [0] * LANES)


@intrinsic
def entries_of_eight(context, nodes, node, x, y, z, per_x, per_y, per_z, limit, entries):
    """Where a ray enters each of a node's boxes; returns a bit for each box that it meets.

    nodes : (k, 64) uint8; node : which of them
    x, y, z, per_x, per_y, per_z : float32, origin of the ray and 1 / its direction
    limit : float32, how far to look; entries : float32, the first eight are filled
    """
    from numba import types  # here, so that it is not loaded before a kernel is needed

    single = types.float32
    signature = types.uint32(nodes, types.intp, *(single,) * 7, entries)

    def write(context, builder, signature, arguments):
        nodes, node, *ray, limit, entries = arguments
        all_nodes = _pointer(context, builder, signature.args[0], nodes)
        record = _at(builder, all_nodes, builder.mul(node, ir.Constant(_LONG, NODE_BYTES)))
        start = _all(builder, ir.Constant(_FLOAT, 0.0))
        end = _all(builder, limit)
        for axis in range(3):
            origin, per = ray[axis], ray[3 + axis]
            near, far = _ends(builder, record, axis, origin, per)
            start = builder.select(builder.fcmp_ordered(">", start, near), start, near)
            end = builder.select(builder.fcmp_ordered("<", end, far), end, far)
        meets = builder.fcmp_ordered("<=", start, end)
        room = _pointer(context, builder, signature.args[-1], entries)
        builder.store(start, builder.bitcast(room, _FLOATS.as_pointer()), align=4)
        return builder.zext(builder.bitcast(meets, _BYTE), _WORD)

    return signature, write


def _ends(builder, record, axis, origin, per):
    """Where the ray passes the nearer and the farther end of each box along one axis."""
    corner = _load(builder, record, CORNER + 4 * axis, _FLOAT, 4)
    exponent = builder.zext(_load(builder, record, STEP + axis, _BYTE, 1), _WORD)
    step = builder.bitcast(builder.shl(exponent, ir.Constant(_WORD, 23)), _FLOAT)
    scale = _all(builder, builder.fmul(step, per))
    shift = _all(builder, builder.fmul(builder.fsub(corner, origin), per))
    # A ray that runs backwards meets the high ends first. An empty box (low 255, high 0) is so
    # left before it is entered, from whichever side.
    backwards = builder.fcmp_ordered("<", per, ir.Constant(_FLOAT, 0.0))
    first, last = (ir.Constant(_LONG, side + LANES * axis) for side in (LOW, HIGH))
    places = (
        builder.select(backwards, last, first),
        builder.select(backwards, first, last),
    )
    passed = []
    for place in places:
        there = builder.bitcast(_at(builder, record, place), _BYTES.as_pointer())
        codes = builder.uitofp(builder.load(there, align=8), _FLOATS)
        passed.append(builder.fadd(builder.fmul(codes, scale), shift))
    return passed


@intrinsic
def read_ahead(context, array, first_byte):
    """Ask for the memory of an array from that byte on, which will be needed soon."""
    from numba import types

    signature = types.void(array, types.intp)

    def write(context, builder, signature, arguments):
        start = _pointer(context, builder, signature.args[0], arguments[0])
        wanted = _at(builder, builder.bitcast(start, _BYTE.as_pointer()), arguments[1])
        of_pointer = ir.FunctionType(ir.VoidType(), [wanted.type, _WORD, _WORD, _WORD])
        call = builder.module.declare_intrinsic("llvm.prefetch", [wanted.type], of_pointer)
        # For reading, to be kept in all caches, data.
        builder.call(call, [wanted, *(ir.Constant(_WORD, word) for word in (0, 3, 1))])
        return context.get_dummy_value()

    return signature, write


def _pointer(context, builder, kind, array):
    return context.make_array(kind)(context, builder, array).data


def _at(builder, pointer, offset):
    return builder.gep(pointer, [offset])


def _load(builder, record, offset, kind, align):
    there = _at(builder, record, ir.Constant(_LONG, offset))
    return builder.load(builder.bitcast(there, kind.as_pointer()), align=align)


def _all(builder, value):
    """The same value in all lanes."""
    undefined = ir.Constant(_FLOATS, ir.Undefined)
    one = builder.insert_element(undefined, value, ir.Constant(_WORD, 0))
    return builder.shuffle_vector(one, undefined, _FIRST_LANE)


@compiled
def boxes_met(nodes, node, origin, per, limit, entries):
    """`entries_of_eight` of a ray given by (3,) float32 arrays; for looking at single nodes."""
    return entries_of_eight(
        nodes, node, origin[0], origin[1], origin[2], per[0], per[1], per[2], limit, entries
    )
