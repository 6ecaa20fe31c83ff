"""Proof before cutting."""
