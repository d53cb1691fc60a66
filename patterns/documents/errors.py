"""What can go wrong when a document is made: always a fault of ours or of a recipe, never of a customer."""


class DocumentError(RuntimeError):
    """A document was not made, because it would not have been right; the text says why."""


class NoDocumentError(DocumentError):
    """There is nothing such a document could show; the text says why. No fault of anybody's."""
