"""Interior ballistics: from the released spring until the ball has left the muzzle and the piston is at rest.

What speed does the ball leave with, and where did every joule of the spring go?
"""
