"""What the maker's own finished ferments say of the next one."""
