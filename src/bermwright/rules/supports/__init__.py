"""Whether what carries the feet stands and holds: walls, footings, buttresses, ties, bond beams, shoes.

`standing.py` reads the house, `acting.py` gathers what presses at every stage, `base.py` puts both
together; the rules read that.
"""
