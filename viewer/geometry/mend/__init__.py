"""Mending: each step takes a mesh and gives a new one, and says which old face each new one is."""
