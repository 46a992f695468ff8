"""Stripdown: the bench tool of a spring-piston AEG gearbox technician."""

__version__ = "0.1.0"
