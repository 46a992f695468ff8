"""Text in, records out: files that a technician writes, every complaint with file, line and field."""
