"""One shape per answer in SI, the unit in each key: what JSON, scripts and pages get."""
