"""Ordinaries and charges that are sewn on to the field."""
