"""Machinery that every simulating discipline shares: compiling, rows, stiff integration with exact events."""
