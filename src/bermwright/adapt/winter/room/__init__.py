"""What the room is made of: ground, ends, openings, air, people, stove. `known.py` says what is missing."""
