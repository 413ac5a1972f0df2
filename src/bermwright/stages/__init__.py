"""House and forms to the building sequence: what stands when, under which loads.

Stages are solved in order; each lists its cases. Start reading at `sequence.py`.
"""
