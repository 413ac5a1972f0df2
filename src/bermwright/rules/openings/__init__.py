"""Rules on ends, openings, posts, beams and floors. Start reading at `timbers.py`: how one timber is used."""
