"""Earth over and round the house as bodies, and as heights on a grid that they must agree with. Start at `earth.py`."""
