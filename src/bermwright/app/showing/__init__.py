"""What the workbench shows beside the drawing: the sun over the model, two variants side by side.

Start reading at `sun.py` and `variants.py`.
"""
