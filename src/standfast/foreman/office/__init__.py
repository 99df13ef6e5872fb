"""The office of a firm: accounts, sessions, passkeys, tablets, what is handed out, the office's own log; no formula."""
