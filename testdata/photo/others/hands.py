"""Invented handwriting: strokes for the figures, fourteen hands, pens, ticks.

A shape is one or more strokes of points in hundredths of the figure's height,
x to the right and y down; a star behind a point makes it a corner, all else is
drawn as a smooth curve. A hand picks one shape for every figure, bends it in
its own constant way, and every figure written differs a little once more.
"""
import math
import random

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from scipy import ndimage

DPI = 300
MM = DPI / 25.4  # pixels of a page to the millimetre
FINE = 3         # ink is drawn so many times finer

SHAPES = {
    "0": {"oval": "32,2 12,14 2,48 8,84 28,99 48,84 56,50 50,16 32,2 26,4", "narrow": "40,6 18,8 5,40 8,80 26,98 46,82 50,44 40,10 26,0",
          "round": "30,4 8,20 0,52 12,88 34,98 58,80 64,46 52,14 32,3 22,8", "gap": "36,4 14,12 3,46 9,84 30,98 50,80 55,42 46,12 40,5"},
    "1": {"plain": "20,0 19,50 18,100", "serif": "4,24 24,0* 23,50 22,100", "long": "0,40 26,0* 25,50 24,100",
          "foot": "6,20 24,0* 24,99 | 4,100 44,98", "lean": "28,0 22,50 14,100"},
    "2": {"plain": "4,20 16,4 36,2 50,18 44,40 20,72 2,98* 30,97 56,97", "loop": "6,18 22,2 44,8 48,30 34,62 16,90 4,98 0,88 8,78 22,84 38,97 60,92",
          "swan": "4,24 10,6 32,0 50,14 46,40 24,74 2,96* 20,92 40,98 58,90", "wide": "2,26 18,4 42,4 52,24 36,56 4,98* 54,100"},
    "3": {"round": "4,14 22,0 44,8 44,32 20,46* 44,52 54,74 38,98 14,98 0,84", "flat": "4,2 50,2* 22,40* 46,48 54,72 36,98 12,98 0,86",
          "curl": "4,12 26,0 46,12 40,36 20,46 15,43 24,42 48,54 52,78 32,98 8,96 0,84", "small": "6,10 28,2 44,16 34,38 18,44* 40,48 50,72 34,96 4,94"},
    "4": {"open": "10,0 2,58* 56,56 | 42,20 38,100", "closed": "42,100 44,0* 0,66* 60,64", "tall": "14,4 4,60* 30,62 62,58 | 46,2 42,100",
          "tent": "42,1 2,64* 58,62 | 43,0 38,100", "bowl": "8,6 5,40 12,58 30,58 56,52 | 50,8 46,50 40,100"},
    "5": {"two": "12,2 8,44* 30,38 52,54 50,82 28,98 2,92 | 12,3 54,0", "one": "54,2 14,3* 10,44* 32,38 54,56 48,88 22,99 0,90",
          "snake": "52,3 14,4* 8,42* 34,42 50,62 40,92 14,98 0,90", "cap": "10,2 9,46* 38,42 54,66 38,96 4,96 | 9,3 50,5"},
    "6": {"deep": "42,0 18,24 4,62 10,92 32,99 50,82 46,58 26,52 8,68", "straight": "34,0 8,50 2,76 16,98 40,96 50,76 38,56 16,60 4,74",
          "hook": "48,8 36,1 14,20 2,60 10,94 36,98 54,78 44,54 20,52 4,70", "low": "28,0 10,36 2,78 18,99 42,92 44,70 26,62 8,74"},
    "7": {"plain": "0,3 54,0* 36,40 18,100", "bar": "2,4 54,2* 34,50 20,100 | 10,52 48,46", "drop": "2,16 4,2* 54,2* 28,60 22,100",
          "bent": "0,6 20,2 52,3* 40,24 26,60 24,100", "wave": "0,10 14,2 34,8 56,0* 30,52 20,100 | 8,50 46,48"},
    "8": {"snake": "46,14 28,0 8,12 10,32 30,46 52,66 48,92 26,100 4,88 6,66 28,48 46,32 47,14 42,8",
          "rings": "28,2 10,12 12,36 28,46 46,36 46,12 28,2 | 28,46 6,58 2,84 26,100 52,86 50,60 28,46",
          "fast": "50,6 26,2 8,20 26,42 46,60 44,90 20,100 2,82 14,58 40,36 50,8", "narrow": "34,2 14,10 14,32 32,48 46,70 36,96 14,96 6,74 24,50 42,26 34,2"},
    "9": {"straight": "48,10 28,0 6,14 4,38 22,52 42,40 50,12* 46,50 42,100", "curl": "48,14 30,0 8,12 6,38 24,50 44,36 50,10* 50,60 40,92 20,100 4,90",
          "slant": "46,12 24,2 4,20 8,44 28,48 44,30 48,8* 40,50 20,100", "small": "44,20 30,4 10,12 8,34 26,42 42,28 46,12* 48,56 46,100"},
    "v": {"v": "0,55 32,100* 100,0", "hook": "0,45 22,60 36,96* 70,30 110,-8"}, "x": {"x": "4,4 96,98 | 92,0 6,100"},
    "/": {"/": "88,2 10,98", "flat": "5,60 95,40"},
}

# shapes for 0 to 9, height in mm, width, slant (degrees to the right), unrest, tick
HANDS = {
    "ada": ("oval serif plain round open two deep plain snake straight", 6.3, 1.0, 4, 1.0, "v v"),
    "bert": ("narrow long loop flat tall one straight bar rings curl", 6.8, .9, 12, .8, "x x"),
    "cleo": ("round plain swan curl closed snake hook drop fast slant", 5.7, 1.15, -4, 1.3, "v hook"),
    "dirk": ("gap foot wide small tent cap low wave narrow small", 6.1, .95, 7, .9, "/ /"),
    "ewa": ("oval long loop curl open one hook wave snake curl", 7.1, .85, 16, 1.2, "v v"),
    "finn": ("round plain wide flat bowl two low bent rings straight", 5.4, 1.2, 0, 1.5, "x x"),
    "greta": ("narrow serif swan round closed cap deep plain narrow curl", 6.6, .88, 9, .7, "v hook"),
    "hugo": ("gap lean plain small tall snake straight drop fast small", 6.0, 1.05, 14, 1.4, "/ /"),
    "ines": ("oval foot loop round tent one hook bar snake slant", 5.9, 1.1, -7, .9, "x x"),
    "jonas": ("round serif wide curl open snake deep bent fast straight", 7.2, .95, 3, 1.5, "v v"),
    "kaja": ("narrow plain plain flat bowl two straight wave rings curl", 5.5, 1.0, 10, .8, "v hook"),
    "lars": ("gap long swan small closed cap low bar narrow slant", 6.9, 1.0, 18, 1.1, "/ flat"),
    "mona": ("oval lean loop round tall two hook plain rings small", 5.8, 1.18, 2, 1.0, "v v"),
    "nils": ("round serif plain flat tent one low drop snake straight", 6.4, .92, -3, .6, "x x"),
}

TRUE = "/usr/share/fonts/truetype/"
FONTS = {"klee": ("klee/KleeOne-Regular.ttf", 6.2), "klee-bold": ("klee/KleeOne-SemiBold.ttf", 6.0), "humor": ("humor-sans/Humor-Sans.ttf", 5.9),
         "kilo-bold": ("kiloji/kiloji_b.ttf", 6.4), "steve": ("sjfonts/SteveHand.ttf", 6.3), "kilo": ("kiloji/kiloji.ttf", 6.2),
         "ruf": ("rufscript/Rufscript010.ttf", 6.2), "tomson": ("tomsontalks/TomsonTalks.ttf", 5.8), "yusei": ("yusei-magic/YuseiMagic-Regular.ttf", 6.0)}

# colour, line in mm, how dark, change of pressure
PENS = {"ball blue": ((28, 44, 128), .42, .93, .16), "ball black": ((32, 32, 38), .42, .94, .15), "pencil": ((70, 70, 74), .5, .86, .22),
        "gel": ((18, 20, 46), .55, .98, .07), "felt": ((24, 24, 28), .85, .96, .08), "felt blue": ((24, 50, 120), .8, .95, .08)}


def parse(text):
    """Strokes of a shape: lists of smooth pieces, each an array of points."""
    strokes = []
    for stroke in text.split(" | "):
        pieces, piece = [], []
        for word in stroke.split():
            piece.append([float(n) / 100 for n in word.rstrip("*").split(",")])
            if word.endswith("*"):
                pieces.append(piece)
                piece = [piece[-1]]
        strokes.append([np.array(p) for p in pieces + [piece] if len(p) > 1])
    return strokes


def smooth(points, n=28):
    """A Catmull-Rom curve through points."""
    p = np.vstack([2 * points[0] - points[1], points, 2 * points[-1] - points[-2]])
    t = np.linspace(0, 1, n, endpoint=False)[:, None]
    curve = [.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t ** 2 + (3 * b - a - 3 * c + d) * t ** 3) for a, b, c, d in zip(p, p[1:], p[2:], p[3:])]
    return np.vstack(curve + [points[-1:]])


class Writer:
    """Writes figures and ticks of one hand, or of one font, with one pen, on a page's ink."""

    def __init__(self, hand, pen, size_mm, seed):
        self.rng, self.np = random.Random(seed), np.random.default_rng(abs(hash_of(seed)))
        self.hand, self.pen = hand, pen
        self.ink = np.zeros((round(size_mm[1] * MM) + 2, round(size_mm[0] * MM) + 2), np.float32)
        self.color, line, self.dark, self.press = PENS[pen]
        self.line = line * self.rng.uniform(.88, 1.15)
        if hand in HANDS:
            kinds, self.height, self.width, self.slant, self.unrest, tick = HANDS[hand]
            self.shapes = dict(zip("0123456789", kinds.split()))
        else:
            path, self.height = FONTS[hand]
            self.width, self.slant, self.unrest, tick = 1, 0, .9, self.rng.choice(["v v", "x x", "v hook"])
            self.shapes, self.font = {}, ImageFont.truetype(TRUE + path, 400)
            self.cap = np.mean([self.font.getmask(d).getbbox()[3] - self.font.getmask(d).getbbox()[1] for d in "0123456789"])
        self.tick_kind = tick.split()
        self.slant += self.rng.uniform(-2, 2)
        self.off = self.rng.gauss(0, .35), self.rng.gauss(.1, .4)  # where in a box this person writes

    def stroke_tile(self, strokes, height, tile):
        """Draw strokes, points in mm about the middle, on a tile."""
        r, draw = self.rng, ImageDraw.Draw(tile)
        for pieces in strokes:
            path = np.vstack([smooth(p) for p in pieces])
            steps = np.hypot(*np.diff(path, axis=0).T).sum() * MM * FINE / 1.5
            at = np.linspace(0, len(path) - 1, max(int(steps), 8))
            x, y = (np.interp(at, range(len(path)), path[:, k]) for k in (0, 1))
            wave = ndimage.gaussian_filter1d(self.np.standard_normal(len(at) + 80), 22)[40:-40] * 6
            force = np.clip(1 + self.press * wave, .45, 1.35)
            ends = np.minimum(1, .72 + .28 * np.minimum(np.arange(len(at)), np.arange(len(at))[::-1]) / 14)
            for px, py, f, e in zip(x, y, force, ends):
                w = self.line * MM * FINE / 2 * (.75 + .25 * f) * e
                cx, cy = px * MM * FINE + tile.width / 2, py * MM * FINE + tile.height / 2
                draw.ellipse([cx - w, cy - w, cx + w, cy + w], fill=int(255 * min(1, self.dark * (.8 + .2 * f))))

    def put(self, tile, x, y):
        """Lay a fine tile on the page, its middle at x, y in mm."""
        small = np.asarray(tile.resize((tile.width // FINE, tile.height // FINE), Image.BOX), np.float32) / 255
        x0, y0 = round(x * MM - small.shape[1] / 2), round(y * MM - small.shape[0] / 2)
        a, b = max(0, -y0), max(0, -x0)
        part = self.ink[y0 + a:y0 + small.shape[0], x0 + b:x0 + small.shape[1]]
        np.maximum(part, small[a:a + part.shape[0], b:b + part.shape[1]], out=part)

    def bend(self, strokes, key, height, width):
        """A shape as this hand writes it this time: own bend, unrest, slant, size; in mm about the middle."""
        own = np.random.default_rng(hash_of(f"{self.hand} {key}"))
        r, out = self.rng, []
        lean = math.tan(math.radians(self.slant + r.gauss(0, 2.2 * self.unrest)))
        tall, wide = height * r.gauss(1, .045 * self.unrest), height * width * r.gauss(1, .055 * self.unrest)
        turn = math.radians(r.gauss(0, 1.5 * self.unrest))
        for pieces in strokes:
            shift, new, last = self.np.normal(0, .008 * self.unrest, 2), [], None
            for p in pieces:
                p = p + own.normal(0, .02, p.shape) + self.np.normal(0, .015 * self.unrest, p.shape) + shift
                if last is not None:
                    p[0] = last
                last = p[-1]
                new.append(p)
            out.append(new)
        every = np.vstack([p for pieces in out for p in pieces])
        mid = (every.min(0) + every.max(0)) / 2
        turned = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        fit = lambda p: np.stack([((p - mid)[:, 0] * wide) - (p - mid)[:, 1] * lean * tall, (p - mid)[:, 1] * tall], 1) @ turned.T
        return [[fit(p) for p in pieces] for pieces in out]

    def figure(self, digit, x, y, height=None, calm=1):
        """One figure with its middle near x, y."""
        height, r = height or self.height, self.rng
        loose = .5 * self.unrest ** .5 * calm
        x, y = x + self.off[0] * calm + r.gauss(0, loose), y + self.off[1] * calm + r.gauss(0, loose)
        line, self.line = self.line, self.line * min(1, .45 + .55 * height / self.height)
        if digit in self.shapes:
            tile = Image.new("L", (round(15 * MM) * FINE,) * 2)
            self.stroke_tile(self.bend(parse(SHAPES[digit][self.shapes[digit]]), digit, height, self.width), height, tile)
        else:
            tile = self.type_tile(digit, height)
        self.line = line
        self.put(tile, x, y)

    def type_tile(self, digit, height):
        """A figure of a font, slanted, stretched and bent a little."""
        r, side = self.rng, round(15 * MM) * FINE
        big = Image.new("L", (900, 900))
        ImageDraw.Draw(big).text((450, 450), digit, font=self.font, fill=int(255 * self.dark), anchor="mm")
        box = big.getbbox()
        scale = self.cap / (height * MM * FINE) * r.gauss(1, .04)
        sx, sy, lean = scale * r.gauss(1, .05), scale * r.gauss(1, .03), r.gauss(self.slant / 60, .04)
        yy, xx = np.mgrid[0:side, 0:side].astype(np.float32) - side / 2
        wobble = [ndimage.zoom(self.np.normal(0, 9, (5, 5)), side / 5, order=3)[:side, :side] for _ in "xy"]
        at = [(box[1] + box[3]) / 2 + yy * sy + wobble[0], (box[0] + box[2]) / 2 + xx * sx + yy * lean * scale + wobble[1]]
        return Image.fromarray(ndimage.map_coordinates(np.asarray(big), at, order=1).astype(np.uint8))

    def tick(self, box):
        """A mark in a tick box."""
        r, (x0, y0, x1, y1) = self.rng, box
        kind, shape = self.tick_kind
        tile = Image.new("L", (round(15 * MM) * FINE,) * 2)
        size = (x1 - x0) * r.uniform(.72, 1.08)
        lean, self.slant = self.slant, 0
        self.stroke_tile(self.bend(parse(SHAPES[kind][shape]), kind, size, 1), size, tile)
        self.slant = lean
        self.put(tile, (x0 + x1) / 2 + r.gauss(.1, .3), (y0 + y1) / 2 + r.gauss(-.2, .3))

    def strike(self, x0, x1, y):
        """Cross out what stands between x0 and x1: one line, two lines, or a scribble."""
        r, w, mid = self.rng, x1 - x0, (x0 + x1) / 2
        lines = {"one": [[(x0, 1.0), (x1, -1.2)]], "two": [[(x0, .2), (x1, -.9)], [(x0, 1.4), (x1, .5)]],
                 "zigzag": [[(x0 + w * k / 6, 1.9 if k % 2 else -1.9) for k in range(7)]]}[r.choice(["one", "two", "zigzag"])]
        strokes = [[np.array([[px - mid + r.gauss(0, .25), py + r.gauss(0, .25)] for px, py in line])] for line in lines]
        tile = Image.new("L", (round(40 * MM) * FINE, round(15 * MM) * FINE))
        self.stroke_tile(strokes, 6, tile)
        self.put(tile, mid, y)

    def onto(self, page):
        """The page with the ink on it, as 8-bit colours."""
        ink, n = self.ink[:page.height, :page.width], self.np
        if self.pen == "pencil":
            grain = ndimage.gaussian_filter(n.standard_normal(ink.shape, dtype=np.float32), 1.1) * 3.6
            ink = ndimage.gaussian_filter(ink, .7) * np.clip(.84 + .17 * grain, .3, 1)
        elif self.pen.startswith("ball"):
            skip = ndimage.gaussian_filter(n.standard_normal(ink.shape, dtype=np.float32), 1.6) * 5
            ink = ink * np.clip(1.06 + .13 * skip, .5, 1)
        elif self.pen.startswith("felt"):
            ink = ndimage.gaussian_filter(ink, 1.0)
        ink = np.clip(ink, 0, 1)[:, :, None]
        base = np.asarray(page, np.float32)
        return (base * (1 - ink) + base * np.array(self.color, np.float32) / 255 * ink).astype(np.uint8)


def hash_of(text):
    """A number for a text, the same in every run."""
    return int.from_bytes(__import__("hashlib").sha256(str(text).encode()).digest()[:6], "big")
