"""A tattoo studio's records in, its handbook and its computed job sheets out."""
