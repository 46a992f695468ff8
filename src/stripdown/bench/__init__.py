"""The nouns of the bench: the gun as written, its strings, its shims, its visit; no text, no lines of a file, nothing heavy."""
