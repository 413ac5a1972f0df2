"""Rules on domes. Only their shape is known: whether one stands is said to be unknown, never more."""
