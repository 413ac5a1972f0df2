"""House and findings to a document and its drawings, all as data; no file is written here.

`sheets` draws sections and details, `templates` the full-size ribs, `pages` the chapters of the site book.
Start reading at `pages/site_book.py`.
"""
