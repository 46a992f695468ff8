"""What a technician holds: one record per part, declarations only."""
