"""The command line: reads with `units`, asks the studies, prints for people or, with ``--json``, for programs."""
