"""What stands at the head of every page of a sheet of made-up figures."""

from __future__ import annotations

INVENTED = "Invented figures: no real gun"
