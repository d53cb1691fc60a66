"""The parts of a photograph's address that are read strictly: nothing else reaches the file system."""


class HashConverter:
    """A SHA-256, as it is written in an address."""

    regex = "[0-9a-f]{64}"

    def to_python(self, value: str) -> str:
        return value

    def to_url(self, value: str) -> str:
        return value


class EndingConverter(HashConverter):
    """How the name of a picture's file ends."""

    regex = "(?:webp|jpg)"
