"""A job's sheet, its own page, and how its numbers came about."""
