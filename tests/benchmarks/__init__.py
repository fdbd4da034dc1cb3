"""How long an archive of jobs takes, in ratios that say the same on any machine: `python -m tests.benchmarks`."""
