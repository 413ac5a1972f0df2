"""What makes it a home: rooms, heat, air, stove and the ways out. A module for each subject."""
