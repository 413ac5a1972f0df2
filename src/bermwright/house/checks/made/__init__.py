"""What does not fit together of parts that are made after a drawing: domes, sheets, crossings."""
