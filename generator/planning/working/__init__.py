"""What is worked with what, in which order: shapes, widths, settings, scars as read, steps."""
