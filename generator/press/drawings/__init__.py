"""Every drawing: the map of a piece, pictures of a plan, charts."""
