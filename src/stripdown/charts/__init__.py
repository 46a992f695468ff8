"""Pictures: one function per chart, from result records to Altair; one theme for screen, one for paper."""
