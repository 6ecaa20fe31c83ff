"""A picture as PNG (ISO/IEC 15948), eight bits for each of red, green and blue; or several, one after the other (the
animated PNG of the W3C's third edition, 2025)."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

SIGNATURE = b"\x89PNG\r\n\x1a\n"


def png(picture: NDArray[np.uint8]) -> bytes:
    """The file of a picture of shape (high, wide, 3)."""
    return b"".join([SIGNATURE, _header(picture), _chunk(b"IDAT", _packed(picture)), _chunk(b"IEND", b"")])


def moving_png(pictures: Sequence[NDArray[np.uint8]], milliseconds: int) -> bytes:
    """The file of pictures of one size, each shown so long, again and again."""
    high, wide, _ = pictures[0].shape
    out = [SIGNATURE, _header(pictures[0]), _chunk(b"acTL", struct.pack(">II", len(pictures), 0))]
    number = 0
    for picture in pictures:
        control = struct.pack(">IIIIIHHBB", number, wide, high, 0, 0, milliseconds, 1000, 0, 0)
        out.append(_chunk(b"fcTL", control))
        number += 1
        if number == 1:
            out.append(_chunk(b"IDAT", _packed(picture)))
        else:
            out.append(_chunk(b"fdAT", struct.pack(">I", number) + _packed(picture)))
            number += 1
    return b"".join([*out, _chunk(b"IEND", b"")])


def _header(picture: NDArray[np.uint8]) -> bytes:
    high, wide, _ = picture.shape
    return _chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))


def _packed(picture: NDArray[np.uint8]) -> bytes:
    high, wide, _ = picture.shape
    rows = np.zeros((high, 1 + 3 * wide), np.uint8)
    flat = picture.reshape(high, 3 * wide)
    # each row as what it is more than the row above (filter 2): smooth pictures pack better
    rows[:, 0] = 2
    rows[0, 1:] = flat[0]
    rows[1:, 1:] = flat[1:] - flat[:-1]
    return zlib.compress(rows.tobytes(), 9)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
