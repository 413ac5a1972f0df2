"""The smallest nouns: units, ranges, sources, findings, drawings and documents as data, errors.

Imports nothing else of bermwright. Start reading at `findings.py`.
"""
