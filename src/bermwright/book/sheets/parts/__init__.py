"""What a section cuts through: the earth, and the shell with its covers and supports."""
