"""Plain equations: SI numbers or arrays in, the same out; no house, no files.

One folder a subject; each can be used without the rest (`from bermwright.handbook import curves`).
Every public function states its equation, units, range and source. Start reading at `curves/`.
"""
