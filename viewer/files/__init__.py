"""Mesh files in and out, and the job file."""
