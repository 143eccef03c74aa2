"""One program at a time on one visit file; the operating system lets go when a program dies."""

import sys

if sys.platform == "win32":
    import msvcrt
    import os

    _FAR_BEHIND = 2**30
    """A byte that no visit reaches: a lock on Windows keeps others from reading what it covers."""

    def is_locked_for_us(descriptor: int) -> bool:
        """Takes the lock, or says that another program has it."""
        here = os.lseek(descriptor, 0, os.SEEK_CUR)
        try:
            os.lseek(descriptor, _FAR_BEHIND, os.SEEK_SET)
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        finally:
            os.lseek(descriptor, here, os.SEEK_SET)
        return True

else:
    import fcntl

    def is_locked_for_us(descriptor: int) -> bool:
        """Takes the lock, or says that another program has it."""
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
