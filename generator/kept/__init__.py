"""Results that are kept from run to run, and found again by the content that they were made of."""
