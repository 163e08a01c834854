"""The 3D scene in VTK, without Qt: draws into a window or a picture."""
