"""The maker's freedom."""
