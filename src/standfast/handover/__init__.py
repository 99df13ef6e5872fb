"""The papers that leave the firm: permit set, counter list."""
