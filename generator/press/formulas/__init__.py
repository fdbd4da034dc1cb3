"""The formula pages, each formula with one worked example."""
