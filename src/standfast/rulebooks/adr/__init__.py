"""ADR: carriage of dangerous goods by road, with packing instructions of the UN Model Regulations."""
