"""Checks of the main job against sources outside the project."""
