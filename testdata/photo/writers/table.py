"""What lies under the page: wood, slate, cutting mat, newspaper, tiles, cloth."""
import random

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from scipy import ndimage

SIDE = 1600
WORDS = "harbour council voted for a longer pier after the spring flood while the ferry stays in dock until parts arrive says its owner boats weather market prices rose wool timber old bridge closed again school fair won by a team from the north shore".split()


def noise(rng, sy, sx):
    """Smooth noise of deviation one, repeating at the edges."""
    n = ndimage.gaussian_filter(rng.standard_normal((SIDE, SIDE), np.float32), (sy, sx), mode="wrap", truncate=3)
    return n / n.std()


def newspaper(seed):
    """Columns of small print, headlines and grey pictures."""
    r = random.Random(f"paper {seed}")
    im = Image.new("L", (SIDE, SIDE), 214)
    d = ImageDraw.Draw(im)
    small, head = (ImageFont.truetype(f"/usr/share/fonts/truetype/liberation2/LiberationSerif-{s}.ttf", z) for s, z in (("Regular", 13), ("Bold", 44)))
    for col in range(6):
        x, y = 10 + col * 265, 8
        while y < SIDE - 60:
            d.text((x, y), " ".join(r.sample(WORDS, 2))[:11].capitalize(), fill=48, font=head)
            y += 56
            if r.random() < .4:
                h = r.randint(90, 190)
                for k in range(0, 245, 7):
                    d.rectangle([x + k, y, x + k + 7, y + h], fill=r.randint(110, 190))
                y += h + 8
            for _ in range(r.randint(14, 40)):
                d.text((x, y), " ".join(r.choice(WORDS) for _ in range(9))[:44], fill=66, font=small)
                y += 15
            y += 12
    return np.asarray(im, np.float32)[..., None] * np.array([1, .985, .95], np.float32)


def table(kind, rng):
    """A square of table, and its pixels a mm."""
    y, x = np.mgrid[0:SIDE, 0:SIDE].astype(np.float32)
    if kind == "news":
        return newspaper(int(rng.integers(1 << 30))) + 4 * noise(rng, 1, 1)[..., None], 5
    if kind in ("mat", "bluemat"):
        base = np.array((36, 92, 74) if kind == "mat" else (48, 74, 122), np.float32)
        tone = .05 * noise(rng, .8, .8) + .06 * noise(rng, 80, 80)
        lines = np.maximum(np.abs((x + 2) % 40 - 2) < 1.1, np.abs((y + 2) % 40 - 2) < 1.1) * .35 + np.maximum(np.abs((x + 2) % 200 - 2) < 1.8, np.abs((y + 2) % 200 - 2) < 1.8) * .5
        return base * (1 + tone[..., None]) + lines.clip(0, .8)[..., None] * np.array((120, 130, 90), np.float32), 4
    if kind in ("ply", "walnut", "ash"):
        base = {"ply": (206, 172, 128), "walnut": (96, 66, 46), "ash": (196, 182, 160)}[kind]
        tone = .06 * noise(rng, 200, 4) + .05 * noise(rng, 70, 1) + .07 * np.sin(y / 13 + 3 * noise(rng, 220, 40))
    elif kind == "tile":
        base = (190, 178, 160)
        tone = .05 * noise(rng, 20, 20) + .03 * noise(rng, 1, 1) - .4 * ((x % 400 < 9) | (y % 400 < 9))
    elif kind == "slate":
        base = (74, 80, 86)
        tone = .12 * noise(rng, 3, 9) + .12 * noise(rng, 40, 60)
    elif kind == "gingham":
        base = (170, 186, 214)
        tone = .24 - .28 * ((x // 50) % 2) - .28 * ((y // 50) % 2) + .05 * np.sin(x * 1.5) * np.sin(y * 1.5)
    elif kind == "lap":
        base = (88, 84, 78)
        tone = .1 * np.sin((x - y) * .8) + .06 * noise(rng, 2, 2) + .22 * noise(rng, 120, 60)
    else:
        base = {"cream": (222, 212, 190), "black": (44, 43, 46)}[kind]
        tone = .03 * noise(rng, 1, 1) + .04 * noise(rng, 90, 90)
    return np.clip(np.array(base, np.float32) * (1 + tone[..., None]), 4, 250), 2.7
