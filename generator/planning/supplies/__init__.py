"""What is used up and sterilized: tray, mixes, stock, lots, loads."""
