"""The window: stages, tools, panels."""
