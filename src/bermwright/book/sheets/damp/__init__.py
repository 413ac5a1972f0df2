"""The layers over the room with warmth and vapour in them. Start reading at `layers.py`."""

from bermwright.book.sheets.damp.layers import Layer, LayerLines, layer_sheet

__all__ = ["Layer", "LayerLines", "layer_sheet"]
