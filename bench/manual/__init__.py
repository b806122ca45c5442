"""The manual: its chapters, kept as Markdown, as blocks that a page, a terminal and paper can set."""
