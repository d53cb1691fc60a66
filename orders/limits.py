"""What one document may take."""

from typing import Final

from patterns.limits import Limits

# A book takes two seconds, the largest templates five; a machine that is busy, some times that. Of addresses
# a book needs less than a third.
DOCUMENT: Final = Limits(seconds=60, work_seconds=40, megabytes=1536)
