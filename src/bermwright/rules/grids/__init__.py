"""Fill in steps of geogrid that stands by itself: what is checked of it, and what a wall then feels of it.

Start reading at `blocks.py`.
"""
