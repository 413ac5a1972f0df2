"""File to House, and answers to files: house file, drawings, documents, JSON and text of what was found.

Each writer takes data of the layers below and adds no number. Start reading at `assessment_text.py`.
"""
