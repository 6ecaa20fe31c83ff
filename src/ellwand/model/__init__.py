"""The nouns: frozen values that the rooms hand to each other.  One noun a file."""
