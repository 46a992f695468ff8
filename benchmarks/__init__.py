"""Benchmarks: ``python -m benchmarks.NAME`` prints ratios against a named peer measured in the same run."""
