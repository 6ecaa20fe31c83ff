"""Closures in numbers, and their places on the pieces."""
