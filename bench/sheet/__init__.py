"""What a job proves and how its ring is turned, as data and as text."""
