"""What does not fit together of parts made after a drawing: domes, sheets, crossings, climbing forms."""
