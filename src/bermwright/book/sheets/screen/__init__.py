"""The section on a screen: as wide as a window, at any scale, in a frame that stays while a hand drags."""

from bermwright.book.sheets.screen.section import MM_PER_PX, Frame, frame_of, screen_section

__all__ = ["MM_PER_PX", "Frame", "frame_of", "screen_section"]
