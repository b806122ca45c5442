"""What was changed in a session file outside the program: read as it is meant, or refused with the reason."""
