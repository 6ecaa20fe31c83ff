"""One order for many wearers: a roster of people, one or several kinds of garment, cloth and hands shared."""
