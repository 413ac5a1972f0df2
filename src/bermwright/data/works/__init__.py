"""The bibliography: one module a subject, one `Work` constant a published work.

A handbook docstring and a `Cite` name a work by its key. Start reading at `catalogue.py`, which
gathers them all by key.
"""
