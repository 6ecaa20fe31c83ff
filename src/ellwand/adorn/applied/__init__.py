"""Pieces that are sewn on to the shell: facings, strips, collar, underlaps."""
