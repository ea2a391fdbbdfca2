"""Tags of boards on sheets of labels; their codes open the board on a phone."""
