"""The authored pages: quotes, typed numbers, procedures, reviews, training."""
