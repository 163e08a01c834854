"""lib3mf with numpy arrays: whole meshes in one call, and a progress token that can stop it.

lib3mf's own Python methods turn every corner into a Python object. The functions here call the
same C functions with the memory of numpy arrays. lib3mf keeps coordinates and transforms as
float32.
"""

import ctypes
from collections.abc import Callable
from functools import cache
from typing import Any

import lib3mf
import numpy as np

from viewer.progress import Progress

ModelError = lib3mf.Lib3MF.ELib3MFException

Position, Triangle = lib3mf.Lib3MF.Position, lib3mf.Lib3MF.Triangle

# lib3mf's own callback type has an enumeration in it that ctypes cannot build from C.
_Callback = ctypes.CFUNCTYPE(
    None, ctypes.POINTER(ctypes.c_bool), ctypes.c_double, ctypes.c_int32, ctypes.c_void_p
)

_DECIMALS = 9  # enough to give back every float32 from 0.01 mm on


@cache
def wrapper() -> Any:
    """The loaded library."""
    return lib3mf.get_wrapper()


def _pointer(array: np.ndarray, kind: Any) -> Any:
    return array.ctypes.data_as(ctypes.POINTER(kind))


def _whole_list(
    owner: Any, call: Callable[..., int], kind: Any, row: int, dtype: Any
) -> np.ndarray:
    """What a C getter returns, as an array of `row` numbers a line: ask for the size, then fill."""
    needed = ctypes.c_uint64(0)
    wrapper().checkError(owner, call(owner._handle, 0, needed, None))
    values = np.empty((needed.value, row), dtype)
    if needed.value:
        wrapper().checkError(owner, call(owner._handle, needed, needed, _pointer(values, kind)))
    return values


def mesh_positions(mesh: Any) -> np.ndarray:
    """(n, 3) float32 corners of a mesh object."""
    return _whole_list(mesh, wrapper().lib.lib3mf_meshobject_getvertices, Position, 3, np.float32)


def mesh_triangles(mesh: Any) -> np.ndarray:
    """(m, 3) int32 triangles of a mesh object."""
    call = wrapper().lib.lib3mf_meshobject_gettriangleindices
    return _whole_list(mesh, call, Triangle, 3, np.uint32).view(np.int32)


def set_triangles(triangle_set: Any) -> np.ndarray:
    """(k,) int64 triangle indices of a triangle set."""
    call = wrapper().lib.lib3mf_triangleset_gettrianglelist
    return _whole_list(triangle_set, call, ctypes.c_uint32, 1, np.uint32).ravel().astype(np.int64)


def fill_mesh(mesh: Any, positions: np.ndarray, faces: np.ndarray) -> None:
    """Give a mesh object its corners ((n, 3)) and triangles ((m, 3), no corner twice)."""
    positions = np.ascontiguousarray(positions, np.float32)
    faces = np.ascontiguousarray(faces, np.uint32)
    code = wrapper().lib.lib3mf_meshobject_setgeometry(
        mesh._handle,
        len(positions),
        _pointer(positions, Position),
        len(faces),
        _pointer(faces, Triangle),
    )
    wrapper().checkError(mesh, code)


def fill_set(triangle_set: Any, triangles: np.ndarray) -> None:
    """Give a triangle set its triangles ((k,) indices)."""
    indices = np.ascontiguousarray(triangles, np.uint32)
    code = wrapper().lib.lib3mf_triangleset_settrianglelist(
        triangle_set._handle, len(indices), _pointer(indices, ctypes.c_uint32)
    )
    wrapper().checkError(triangle_set, code)


def fill_colours(mesh: Any, resource_id: int, numbers: np.ndarray) -> None:
    """Give each triangle a material of one group ((m,) numbers within it)."""
    rows = np.empty((len(numbers), 4), np.uint32)
    rows[:, 0], rows[:, 1:] = resource_id, np.asarray(numbers, np.uint32)[:, None]
    code = wrapper().lib.lib3mf_meshobject_setalltriangleproperties(
        mesh._handle, len(rows), _pointer(rows, lib3mf.Lib3MF.TriangleProperties)
    )
    wrapper().checkError(mesh, code)


def fill_attachment(attachment: Any, content: bytes) -> None:
    """Give an attachment its bytes."""
    data = np.frombuffer(content, np.uint8)
    code = wrapper().lib.lib3mf_attachment_readfrombuffer(
        attachment._handle, len(data), _pointer(data, ctypes.c_uint8)
    )
    wrapper().checkError(attachment, code)


def read_buffer(reader: Any, data: np.ndarray) -> None:
    """Let a reader read a package from memory ((size,) uint8)."""
    code = wrapper().lib.lib3mf_reader_readfrombuffer(
        reader._handle, len(data), _pointer(data, ctypes.c_uint8)
    )
    wrapper().checkError(reader, code)


def written_bytes(model: Any, progress: Progress) -> np.ndarray:
    """(size,) uint8: the package of a model; `progress` follows and stops it.

    lib3mf never writes to a disk itself: where that is full, it ends the whole program.
    """
    writer = model.QueryWriter("3mf")
    writer.SetDecimalPrecision(_DECIMALS)
    callback = stoppable(writer, progress, "Writing the model")
    call = wrapper().lib.lib3mf_writer_writetobuffer
    try:
        return _whole_list(writer, call, ctypes.c_uint8, 1, np.uint8).ravel()
    finally:
        del callback


def matrix_of(transform: Any) -> np.ndarray:
    """(4, 4) float64 for column vectors from a transform, which is written for row vectors."""
    matrix = np.eye(4)
    matrix[:3, :] = np.array([list(row) for row in transform.Fields], np.float64).T
    return matrix


def transform_of(matrix: np.ndarray) -> Any:
    """The transform (rows m00 m01 m02 … m30 m31 m32, row vectors) of a (4, 4) column matrix."""
    transform = lib3mf.Lib3MF.Transform()
    for row in range(4):
        for column in range(3):
            transform.Fields[row][column] = float(matrix[column, row])
    return transform


def stoppable(owner: Any, progress: Progress, doing: str) -> Any:
    """Let `progress` follow and stop a reader or writer; keep the answer alive while it works."""

    def on_progress(abort: Any, fraction: float, _step: Any, _data: Any) -> None:
        # An exception must not cross C code, so the wish to stop is handed over as a flag.
        if progress.cancelled:
            abort[0] = True
        elif 0 <= fraction <= 1:
            try:
                progress.report(fraction, doing)
            except BaseException:
                abort[0] = True

    callback = _Callback(on_progress)
    owner.SetProgressCallback(ctypes.cast(callback, lib3mf.Lib3MF.ProgressCallback), 0)
    return callback
