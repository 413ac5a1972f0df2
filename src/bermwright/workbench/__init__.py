"""The workbench: one living drawing of a house, served to a browser on this machine.

Start reading at `server.py`; `messages.py` is every message that goes over the wire, `seat.py` one window,
`table.py` what all windows share. Pages and scripts lie in `pages/` and `static/`.
"""
