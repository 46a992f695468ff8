"""Questions put to the core: what joins the parts of a gun to an answer."""
