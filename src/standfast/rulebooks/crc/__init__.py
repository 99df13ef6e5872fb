"""California Residential Code: what its amendments to the model residential code change. Read by the siting engine."""
