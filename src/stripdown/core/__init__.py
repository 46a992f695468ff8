"""Pure computation in SI units: no framework, no files, no clock."""
