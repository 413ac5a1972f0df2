"""Use cases: open, assess, book, draw, count. The only place with clock, paths and executors.

Reads everything first, calls the core once, writes last. Start reading at `assessing.py`.
"""
