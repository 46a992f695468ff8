"""What undoes what: which checks still hold, and in what order is nothing checked twice?

Data (what is in front of what, what a check is about, what work touches) and pure logic on it; no physics, no arrays, no clock.
"""
