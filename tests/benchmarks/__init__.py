"""How long an archive of jobs takes."""
