"""Typed fields of TOML tables: every mistake with its file, line and field, and with what would be right."""
