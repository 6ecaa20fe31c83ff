"""Motifs that repeat along a line."""
