"""Write sets of digits for forms to be filled with: what "benchmark boxes" needs.

Usage: python3 hands.py DATA

Makes, in the layout of MNIST's files, the sets mnist, strokes and fonts of DATA
to learn from, and mnist-kept, strokes-kept and fonts-kept of what is kept back.
"""
import gzip
import struct
import sys

import torch
import torch.nn.functional as F

from glyphs import HEIGHT, KEPT_BACK, WIDTH, Fonts, dev, mnist_files, stroke_glyphs

SIDE, HIGH = 28, 20  # pixels of a picture, and of a digit in it
THINNEST = 1.3       # pixels of our canvas that half a line has, so that a thin one is still a line among so few pixels


def small(images):
    """Digits of our canvas, 36 px high, made 20 px high."""
    side = round(SIDE * 36 / HIGH)
    x = F.pad(images[:, None].float(), ((side - WIDTH) // 2, (side - WIDTH) // 2, (side - HEIGHT) // 2, (side - HEIGHT) // 2))
    x = F.interpolate(x, size=(SIDE, SIDE), mode="bilinear", antialias=True)
    return (255 * x / x.amax((2, 3), keepdim=True).clamp_min(1)).round().to(torch.uint8)[:, 0]


def write(folder, name, images, labels):
    for kind, dims, data in (("images-idx3", images.shape, images), ("labels-idx1", labels.shape, labels)):
        with gzip.open(f"{folder}/{name}-{kind}-ubyte.gz", "wb", 1) as f:
            f.write(bytes([0, 0, 8, len(dims)]) + struct.pack(f">{len(dims)}I", *dims) + data.to(torch.uint8).cpu().numpy().tobytes())


def main():
    folder = sys.argv[1]
    torch.manual_seed(4)
    images, labels = mnist_files(folder, "train")
    write(folder, "mnist", images[:-KEPT_BACK], labels[:-KEPT_BACK])
    write(folder, "mnist-kept", images[-KEPT_BACK:], labels[-KEPT_BACK:])
    few = dev == "cpu"
    for name, n, held in (("strokes", 2000 if few else 60000, False), ("strokes-kept", 500 if few else 4000, True)):
        images, labels = stroke_glyphs(n, held, THINNEST)
        write(folder, name, small(images), labels)
    fonts = Fonts(f"{folder}/fonts.npz")
    digits = fonts.labels < 10
    images, labels = fonts.draw(40000)
    write(folder, "fonts", small(images[labels < 10]), labels[labels < 10])
    write(folder, "fonts-kept", small(fonts.images[fonts.held & digits]), fonts.labels[fonts.held & digits])


main()
