"""Where the pieces lie on the cloth: our own engine, a solver, and the bound they are measured against."""
