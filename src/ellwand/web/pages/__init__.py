"""The pages of the bench, one module for each."""
