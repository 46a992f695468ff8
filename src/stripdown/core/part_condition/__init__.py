"""Is this part still good? One question a file: seals and pads, corners and screws; no integration, no compiler."""
