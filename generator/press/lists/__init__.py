"""What is looked up by day or by lot: jobs, lots, what to order, training, reviews, stamps."""
