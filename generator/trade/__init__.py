"""The arithmetic of the trade: pure functions that know nothing of records, pages or files."""
