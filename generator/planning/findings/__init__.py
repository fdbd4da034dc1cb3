"""What was found about a job, and what that means for going ahead."""
