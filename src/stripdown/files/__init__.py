"""Text in, records out: files that a technician writes, every mistake with file, line and field."""
