"""The house as one body: what pushes it in three directions, what holds it, and the ground it stands in.

Start reading at `forces.py` (all forces on the shell, and that they close), then `body.py` and `along.py`.
"""
