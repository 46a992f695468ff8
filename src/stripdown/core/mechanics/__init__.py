"""Laws that disciplines share: springs, orifices, wall heat, gas properties."""
