"""Lines that go round the sewn garment, from part to part."""
