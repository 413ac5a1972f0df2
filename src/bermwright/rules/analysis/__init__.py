"""From stages and soil to the ribs' response: lanes, states, sections, envelopes, stop marks.

Start reading at `response.py`.
"""
