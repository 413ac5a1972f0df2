"""What could be otherwise: the same house with other curves, works and grounds, searched and compared.

Pure: chance, clock and threads are passed in. Start reading at `shape/__init__.py`.
"""
