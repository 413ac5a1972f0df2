"""Curves: lengths, weights, fits and chains of arcs."""
