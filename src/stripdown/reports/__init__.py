"""Reports: what a sheet for the gun's owner says, as frozen records, and how it is printed."""
