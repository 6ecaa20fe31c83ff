"""``python -m ellwand.cli``."""

from ellwand.cli import main

main()
