"""Points, lines and outlines in centimetres; plain tuples in, plain tuples out."""
