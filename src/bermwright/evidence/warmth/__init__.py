"""Heat, air and damp in rooms, walls, windows and the ground."""
