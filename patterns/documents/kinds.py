"""The forms of the instruction book."""

from typing import Literal

# In full; on a page or two, for someone who has made one before; in full in black ink alone.
BookKind = Literal["book", "short", "plain"]
