"""Whether a board is dry enough for a commission: its reading against the shop's air and the client's home."""
