"""House to geometry: the vault's curves, its rib pieces and the ground, as arrays in metres.

Knows the house, asks the handbook, holds no load and no strength. Start reading at `vault.py`.
"""
