"""The house file described from its model: JSON Schema for editors, a page of reference for people."""
