"""Everything that shows that Stripdown is right: contracts, units, published checks, properties, goldens."""
