"""Bands along edges, seams and rings."""
