"""Stencils whose card stays in one piece."""
