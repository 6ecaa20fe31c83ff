"""The bench: the whole job in a browser, on the maker's own machine."""
