"""What the workbench shows beside rib and fill: ground and frost, domes, evidence, the sun, two variants.

Start reading at `sun.py` and `variants.py`.
"""
