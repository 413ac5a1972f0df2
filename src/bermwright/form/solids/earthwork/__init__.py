"""Earth over and round the house as bodies, and as heights that must agree. Start at `earth.py`."""
