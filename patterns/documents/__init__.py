"""Documents: what a customer prints. Pages set by WeasyPrint, mended and stamped by pikepdf."""
