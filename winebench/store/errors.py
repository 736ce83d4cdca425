"""What goes wrong with files, said in one sentence for the person."""

from __future__ import annotations

_LONGEST = 600


class StoreError(ValueError):
    """A file that cannot be read or written; the message is one sentence on one line."""

    def __init__(self, sentence: str) -> None:
        # A file name may hold bytes that are no text, which no terminal could print.
        words = " ".join(sentence.encode("utf-8", "backslashreplace").decode("utf-8").split())
        if len(words) > _LONGEST:  # someone's endless name or amount: what to do comes last
            words = f"{words[: _LONGEST // 2]} … {words[-_LONGEST // 2 :]}"
        super().__init__(words)


class DamagedFileError(StoreError):
    """A file whose text is broken, as by a crash or a bad disk: an earlier copy may help."""


class ChangedOnDiskError(StoreError):
    """Another program has written the file since it was read; nothing was overwritten."""
