"""ADR: carriage of dangerous goods by road, with the packing instructions that it shares with the UN Model Regulations."""
