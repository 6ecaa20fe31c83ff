"""Ellwand: from a person's measurements and a length of cloth to a cut card."""
