"""Writes pictures dot by dot without any library: PNGs, and JPEGs of squares of 8 by 8 dots that are each of one grey."""
import struct
import zlib

INCH = 25.4


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png(rows, dpi=300, kind=0, depth=8, palette=b"", transparent=b""):
    """Rows of bytes as the kind of picture has them (0 grey, 2 RGB, 3 palette, 4 grey with alpha). dpi: of both ways, of each,
    or None."""
    per = {0: 1, 2: 3, 3: 1, 4: 2}[kind] * depth
    width = len(rows[0]) * 8 // per
    out = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, len(rows), depth, kind, 0, 0, 0))
    if dpi is not None:
        x, y = dpi if isinstance(dpi, tuple) else (dpi, dpi)
        out += chunk(b"pHYs", struct.pack(">IIB", round(x / 0.0254), round(y / 0.0254), 1))
    if palette:
        out += chunk(b"PLTE", palette)
    if transparent:
        out += chunk(b"tRNS", transparent)
    return out + chunk(b"IDAT", zlib.compress(b"".join(b"\0" + bytes(row) for row in rows))) + chunk(b"IEND", b"")


def segment(marker, data):
    return bytes([0xFF, marker]) + struct.pack(">H", len(data) + 2) + data


def jfif(unit, x, y):
    return segment(0xE0, b"JFIF\0\1\2" + struct.pack(">BHHBB", unit, x, y, 0, 0))


def exif(dpi, little, unit=2, orientation=1):
    """A TIFF directory of four entries; the two numbers follow it."""
    e = "<" if little else ">"
    after = 8 + 2 + 4 * 12 + 4
    rows = [(0x112, 3, 1, struct.pack(e + "HH", orientation, 0)), (282, 5, 1, struct.pack(e + "I", after)),
            (283, 5, 1, struct.pack(e + "I", after + 8)), (296, 3, 1, struct.pack(e + "HH", unit, 0))]
    body = struct.pack(e + "H", len(rows)) + b"".join(struct.pack(e + "HHI", *row[:3]) + row[3] for row in rows)
    number = struct.pack(e + "II", round(dpi * 100), 100)
    return segment(0xE1, b"Exif\0\0" + (b"II" if little else b"MM") + struct.pack(e + "HI", 42, 8) + body +
                   struct.pack(e + "I", 0) + number * 2)


class Bits:
    def __init__(self):
        self.bits = ""

    def add(self, value, count):
        self.bits += format(value, f"0{count}b") if count else ""

    def packed(self):
        bits = self.bits + "1" * (-len(self.bits) % 8)
        return b"".join(bytes([b]) + (b"\0" if b == 255 else b"")
                        for b in (int(bits[k:k + 8], 2) for k in range(0, len(bits), 8)))


def jpeg(squares, heads):
    """A baseline JPEG (ITU T.81) of rows of squares of 8 by 8 dots, each of one grey: each is its mean alone, of which the
    difference to the one before is coded. The step of the mean is 8, so that a grey is 128 plus the coded number."""
    high, wide = len(squares), len(squares[0])
    lengths = [0] * 16
    lengths[3] = 12  # the twelve kinds of differences, by 4 bits each
    out = b"\xff\xd8" + b"".join(heads) + segment(0xDB, b"\0" + bytes([8] * 64))
    out += segment(0xC0, struct.pack(">BHHBBBB", 8, high * 8, wide * 8, 1, 1, 0x11, 0))
    out += segment(0xC4, b"\x00" + bytes(lengths) + bytes(range(12)))
    out += segment(0xC4, b"\x10" + bytes([1] + [0] * 15) + b"\0")  # one bit: no more in this square
    bits, before = Bits(), 0
    for row in squares:
        for grey in row:
            step, before = grey - 128 - before, grey - 128
            size = abs(step).bit_length()
            bits.add(size, 4)
            bits.add(step if step >= 0 else step + (1 << size) - 1, size)
            bits.add(0, 1)
    return out + segment(0xDA, b"\1\1\0\0\x3f\0") + bits.packed() + b"\xff\xd9"
