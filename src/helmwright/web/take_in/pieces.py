"""A file that goes out piece by piece, so that its size costs no memory."""

from collections.abc import AsyncIterator
from typing import IO
from weakref import finalize

from asgiref.sync import sync_to_async

PIECE_BYTES = 256 * 1024


class Pieces:
    """The bytes of an open file from its beginning; it is closed behind them.

    Read in a thread: an asynchronous server would first gather all of what is read synchronously.
    """

    def __init__(self, file: IO[bytes]) -> None:
        self._file = file
        self._closed = finalize(self, file.close)

    async def __aiter__(self) -> AsyncIterator[bytes]:
        """Once."""
        with self._file as file:
            read = sync_to_async(file.read, thread_sensitive=False)
            file.seek(0)
            while piece := await read(PIECE_BYTES):
                yield piece

    def close(self) -> None:
        """Where nobody asks for the bytes any more; it comes with the last mention of them, too."""
        self._closed()
