"""Reports: answers laid out on paper."""
