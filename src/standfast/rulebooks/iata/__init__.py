"""IATA Dangerous Goods Regulations: carriage by air."""
