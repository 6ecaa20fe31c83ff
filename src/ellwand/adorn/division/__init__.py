"""The garment's field divided: its lines, and the pieces cut along them."""
