"""Rules on damp: layers that dry, corners without mould, ribs that stay dry. Start reading at `living.py`."""
