"""Render digits and letters of the installed fonts for training.

Usage: python3 fonts.py OUT.npz

Needs python3-pil, python3-numpy and fontconfig. The fonts kept for acceptance
are left out by name, and so are fonts without Latin digits.
"""
import collections
import random
import subprocess
import sys

import numpy as np
from PIL import Image, ImageDraw, ImageFont

# Kept for acceptance: no glyph of these may be seen in training.
RESERVED = ("dkg", "breip", "femkeklaver", "femke", "ecolier", "bwht", "because", "bway", "aboriginal", "popstars")
UNFIT = ("90", "d050000l", "symbol", "math")  # lying on their side, or no digits
HELD_OUT = ("klee", "humor")  # families for validation, never trained on
MOST = 6  # fonts of one family, where they do not look as if written by hand: weights of one face
WIDTH, HEIGHT = 40, 44
LETTERS = "ACEFHKMNPRWXcdefhkmnpwx#@%&?*+="  # none that passes for a digit
# Families that look as if written by hand.
HANDS = ("comic neue", "dancing", "humor", "joscelyn", "kaushan", "kiloji", "klee", "kristi", "leckerli", "rufscript", "seto", "toms",
         "yoz", "yusei", "delphine", "steve", "aoyagi", "kouzan", "nanum brush", "nanum pen", "나눔손글씨", "navilu", "chilanka", "dyuthi",
         "karumbi", "purisa", "wenkai", "domestic", "caliban", "stick", "woowa", "andika", "summersby", "radis")


def font_files():
    out = subprocess.run(["fc-list", "--format", "%{file}\t%{family}\n"], capture_output=True, text=True, check=True).stdout
    for line in sorted(set(out.splitlines())):
        path, family = line.split("\t", 1)
        key = (path.rsplit("/", 1)[-1] + " " + family).lower()
        if path.endswith((".ttf", ".otf", ".ttc")) and not any(name in key for name in RESERVED + UNFIT):
            yield path, key


def glyph(font, text):
    """Return the glyph as ink on a canvas, scaled to fill 36 px of its height."""
    left, top, right, bottom = font.getbbox(text)
    if right - left < 2 or bottom - top < 8:
        return None
    image = Image.new("L", (right - left + 4, bottom - top + 4))
    ImageDraw.Draw(image).text((2 - left, 2 - top), text, font=font, fill=255)
    scale = min(36 / image.height, 36 / image.width)
    image = image.resize((max(1, round(image.width * scale)), max(1, round(image.height * scale))), Image.LANCZOS)
    canvas = Image.new("L", (WIDTH, HEIGHT))
    canvas.paste(image, ((WIDTH - image.width) // 2, (HEIGHT - image.height) // 2))
    return np.asarray(canvas)


def main():
    images, labels, held, families, hands = [], [], [], [], []
    files = list(font_files())
    random.Random(1).shuffle(files)
    taken = collections.Counter()
    for path, key in files:
        family, hand = key.split(" ", 1)[1][:5], any(name in key for name in HANDS)
        if taken[family] >= MOST and not hand:
            continue
        try:
            font = ImageFont.truetype(path, 96)
            digits = [glyph(font, d) for d in "0123456789"]
        except OSError:
            continue
        if any(d is None for d in digits) or any((digits[1] == d).all() for d in digits[2:]):
            continue  # no digits, or one box for all of them
        taken[family] += 1
        drawn = list(enumerate(digits)) + [(11, image) for image in map(lambda l: glyph(font, l), random.Random(key).sample(LETTERS, 5)) if image is not None]
        for label, image in drawn:
            images.append(image), labels.append(label), families.append(family)
            held.append(any(name in key for name in HELD_OUT)), hands.append(hand)
    np.savez_compressed(sys.argv[1], images=np.stack(images), labels=np.array(labels, np.uint8), held=np.array(held), hands=np.array(hands),
                        families=np.unique(families, return_inverse=True)[1])
    print(f"{len(images)} glyphs, {sum(held)} held out")


main()
