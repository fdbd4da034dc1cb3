"""The commands: each module runs one of them, with `run(options)`, and returns the exit status."""
