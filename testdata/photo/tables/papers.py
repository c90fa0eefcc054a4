"""Sheets that people write on: size in mm, picture at 10 px a mm, where lines lie."""
import math

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from scipy import ndimage

K = 10


def grainy(w, h, base, rng, rough=5, flecks=0):
    W, H = int(w * K), int(h * K)
    paper = np.empty((H, W, 3), np.float32)
    paper[:] = np.array(base, np.float32)
    small = ndimage.gaussian_filter(rng.normal(size=(H // 4 + 1, W // 4 + 1)).astype(np.float32), 1.2).repeat(4, 0).repeat(4, 1)[:H, :W]
    big = ndimage.gaussian_filter(rng.normal(size=(H // 20 + 1, W // 20 + 1)).astype(np.float32), 6)
    big = np.asarray(Image.fromarray(big / max(big.std(), 1e-6), "F").resize((W, H), Image.BILINEAR))
    paper += (small * rough * .9 + big * rough * .15)[..., None]
    if flecks:
        im = Image.new("L", (W, H), 0)
        d = ImageDraw.Draw(im)
        for _ in range(flecks):
            x, y, a, n = rng.uniform(0, W), rng.uniform(0, H), rng.uniform(0, 6.3), rng.uniform(2, 14)
            d.line([x, y, x + n * math.cos(a), y + n * math.sin(a)], fill=int(rng.uniform(20, 90)), width=int(rng.integers(1, 3)))
        paper *= 1 - ndimage.gaussian_filter(np.asarray(im, np.float32) / 255, .7)[..., None] * .7
    return paper


def hline(p, y, colour, width=.18, strength=.8, x0=0, x1=None):
    a, b = int((y - width / 2) * K), max(int((y - width / 2) * K) + 1, int(round((y + width / 2) * K)))
    s = slice(int(x0 * K), None if x1 is None else int(x1 * K))
    p[a:b, s] = p[a:b, s] * (1 - strength) + np.array(colour, np.float32) * strength


def vline(p, x, colour, width=.18, strength=.8):
    a, b = int((x - width / 2) * K), max(int((x - width / 2) * K) + 1, int(round((x + width / 2) * K)))
    p[:, a:b] = p[:, a:b] * (1 - strength) + np.array(colour, np.float32) * strength


def hole(p, x, y, r, rng):
    yy, xx = np.mgrid[0:p.shape[0], 0:p.shape[1]]
    x0, x1, y0, y1 = int((x - r - 1) * K), int((x + r + 1) * K), int((y - r - 1) * K), int((y + r + 1) * K)
    x0, y0 = max(0, x0), max(0, y0)
    yy, xx = np.mgrid[y0:min(y1, p.shape[0]), x0:min(x1, p.shape[1])] / K
    d = np.hypot(xx - x, yy - y)
    a = np.clip((r - d) * 6 + .5, 0, 1)[..., None]
    part = p[y0:y0 + a.shape[0], x0:x0 + a.shape[1]]
    part[:] = part * (1 - a) + a * np.array((70, 62, 55), np.float32)


def make(kind, rng, small=False):
    """-> picture, size, dict(pitch, first baseline or None, left, right, bottom)."""
    u = rng.uniform
    if kind == "legal":
        w, h, pitch, top = 216, 297, 8.7, 34
        p = grainy(w, h, (252, 240, 158), rng, 5)
        for k in range(60):
            if top + k * pitch < h - 4:
                hline(p, top + k * pitch, (120, 150, 190), .2, .6)
        for x in (31, 32.6):
            vline(p, x, (205, 90, 90), .2, .65)
        p[:int(9 * K)] *= np.array((.72, .45, .42), np.float32)
        return p, (w, h), dict(pitch=pitch, top=top, left=36, right=w - 6, bottom=h - 10)
    if kind == "notebook":
        w, h, pitch, top = 203, 267, 7.1, 32
        p = grainy(w, h, (249, 249, 247), rng, 4)
        for k in range(60):
            if top + k * pitch < h - 6:
                hline(p, top + k * pitch, (130, 165, 215), .2, .7)
        vline(p, 31, (220, 110, 120), .25, .7)
        for y in (20, h / 2, h - 22):
            hole(p, 8, y, 3.4, rng)
        return p, (w, h), dict(pitch=pitch, top=top, left=34, right=w - 5, bottom=h - 10)
    if kind == "spiral":
        w, h, pitch, top = 148, 210, 7.5, 27
        p = grainy(w, h, (250, 248, 242), rng, 4)
        for k in range(40):
            if top + k * pitch < h - 5:
                hline(p, top + k * pitch, (150, 150, 160), .18, .55)
        for k in range(21):
            hole(p, 7 + k * 6.7, 5.5, 2.0, rng)
        return p, (w, h), dict(pitch=pitch, top=top, left=9, right=w - 6, bottom=h - 6)
    if kind in ("squared_a4", "squared_a5", "graph"):
        w, h = (210, 297) if kind != "squared_a5" else (148, 210)
        p = grainy(w, h, (250, 250, 248), rng, 4)
        grid = 5 if kind != "graph" else 25.4 / 4
        colour = ((140, 170, 215), (165, 165, 175), (120, 180, 150))[int(rng.integers(3))]
        for k in range(1, int(h / grid) + 1):
            hline(p, k * grid, colour, .16, .55)
        for k in range(1, int(w / grid) + 1):
            vline(p, k * grid, colour, .16, .55)
        return p, (w, h), dict(pitch=grid * 2 if grid < 6 else grid, top=grid * 5, left=3 * grid + 1, right=w - 5, bottom=h - 8, grid=grid)
    if kind == "seyes":
        w, h, pitch, top = 210, 297, 8, 40
        p = grainy(w, h, (250, 250, 250), rng, 4)
        for k in range(-2, 33):
            y = top + k * pitch
            if 20 < y < h - 5:
                hline(p, y, (150, 130, 200), .2, .7)
                for j in (1, 2, 3):
                    hline(p, y + 2 * j, (170, 190, 230), .1, .5)
        for k in range(24):
            if 40 + 8 * k < w:
                vline(p, 40 + 8 * k, (160, 170, 220), .14, .5)
        vline(p, 38, (225, 90, 110), .25, .75)
        return p, (w, h), dict(pitch=pitch, top=top, left=42, right=w - 5, bottom=h - 12)
    if kind == "card":
        w, h, pitch, top = 127, 203, 6.35, 24
        p = grainy(w, h, (252, 250, 244), rng, 3)
        hline(p, top - pitch, (215, 90, 100), .25, .7)
        for k in range(40):
            if top + k * pitch < h - 4:
                hline(p, top + k * pitch, (120, 160, 210), .18, .6)
        return p, (w, h), dict(pitch=pitch, top=top, left=6, right=w - 4, bottom=h - 5)
    if kind == "envelope":
        w, h = (162, 229)
        base = ((236, 222, 190), (246, 245, 242), (214, 190, 150))[int(rng.integers(3))]
        p = grainy(w, h, base, rng, 7, 200)
        # the flap: its edge from the right side, a soft shadow beside it
        yy, xx = np.mgrid[0:h * K, 0:w * K].astype(np.float32) / K
        edge = w - 4 - (34 - 34 * np.abs(yy / h - .5) ** 1.4 * 2.2)
        d = xx - edge
        p *= (1 - .16 * np.exp(-np.clip(-d, 0, None) / 1.1) * (d < 0) + .03 * (d >= 0))[..., None]
        p *= (1 - .25 * np.exp(-(d / .12) ** 2))[..., None]
        return p, (w, h), dict(pitch=None, top=None, left=10, right=w - 42, bottom=h - 9)
    if kind == "cardboard":
        w, h = 190, 260
        p = grainy(w, h, (196, 160, 114), rng, 8, 700)
        yy, xx = np.mgrid[0:h * K, 0:w * K].astype(np.float32)
        p *= (1 + .022 * np.sin(xx / K * 2 * math.pi / 6.5))[..., None]
        return p, (w, h), dict(pitch=None, top=None, left=14, right=w - 10, bottom=h - 14)
    if kind == "flyer":
        w, h = 210, 297
        p = grainy(w, h, (243, 242, 238), rng, 5)
        back = Image.new("L", (w * K, h * K), 0)
        d = ImageDraw.Draw(back)
        f = ImageFont.truetype("/usr/share/fonts/truetype/liberation2/LiberationSerif-Bold.ttf", 170)
        g = ImageFont.truetype("/usr/share/fonts/truetype/liberation2/LiberationSerif-Regular.ttf", 60)
        d.text((220, 260), "Village Fair", fill=150, font=f)
        for k, t in enumerate(["Tombola, cake stall, raffle", "Sheep shearing in the barn", "Brass band from noon", "Bring your own chairs", "Parking behind the mill", "Ask for Mrs Pennyroyal", "Dogs on a lead please"]):
            d.text((260, 620 + k * 260), t, fill=130, font=g)
        b = ndimage.gaussian_filter(np.asarray(back.transpose(Image.FLIP_LEFT_RIGHT), np.float32), 6) / 255
        p *= (1 - .1 * b)[..., None]
        return p, (w, h), dict(pitch=None, top=None, left=18, right=w - 10, bottom=h - 14)
    w, h = {"plain_a4": (210, 297), "plain_letter": (216, 279), "half": (148, 210), "landscape": (279, 216)}[kind]
    base = ((250, 250, 249), (247, 245, 237), (228, 224, 212))[int(rng.integers(3))]
    p = grainy(w, h, base, rng, 5, 0 if base[0] > 240 else 900)
    return p, (w, h), dict(pitch=None, top=None, left=16, right=w - 10, bottom=h - 12)


def ink_alpha(ink, shape):
    H, W = shape
    k = 2 * K
    im = Image.new("L", (2 * W, 2 * H), 0)
    d = ImageDraw.Draw(im)
    for pts, widths, alphas in ink:
        p = pts * k
        length = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        n = max(2, int(length[-1] / 2.4))
        t = np.linspace(0, length[-1], n)
        for x, y, w, a in zip(np.interp(t, length, p[:, 0]), np.interp(t, length, p[:, 1]), np.interp(t, length, widths * k / 2), np.interp(t, length, alphas)):
            d.ellipse([x - w, y - w, x + w, y + w], fill=int(255 * a))
    return np.asarray(im.reduce(2), np.float32) / 255


def put_ink(rgb, ink, pen, rng):
    """Ink over paper, in place."""
    mask = ink_alpha(ink, rgb.shape[:2])
    H, W = mask.shape
    grain = ndimage.gaussian_filter(rng.standard_normal((H // 2 + 1, W // 2 + 1), np.float32), .7).repeat(2, 0).repeat(2, 1)[:H, :W] * 1.6
    a = mask * np.clip(1 - pen["grain"] * np.clip(grain + .25, 0, 1.3), .2, 1)
    a = ndimage.gaussian_filter(a, .8 if pen["width"] > .9 else .5)[..., None]
    tint, on = np.array(pen["colour"], np.float32), a[..., 0] > .004
    rgb[on] = rgb[on] * (1 - a[on]) + a[on] * tint * (rgb[on] / 255) ** .35


def put_print(rgb, grey, rng, how):
    """Toner of a printed page (grey image, 0 black) over paper, in place."""
    dark = 1 - np.asarray(grey, np.float32) / 255
    H, W = dark.shape
    bands = ndimage.gaussian_filter1d(rng.normal(size=H), 30) * 9
    dark *= (how["toner"] + how.get("banding", .02) * bands)[:, None].astype(np.float32)
    hold = ndimage.gaussian_filter(rng.standard_normal((H // 2 + 1, W // 2 + 1), np.float32), .8).repeat(2, 0).repeat(2, 1)[:H, :W]
    dark *= 1 - how.get("wear", 0) * np.clip(hold * 2.2, 0, 1)
    dark = np.clip(ndimage.gaussian_filter(dark, .6), 0, 1)[..., None]
    rgb[:] = rgb * (1 - dark) + np.array((34, 34, 37), np.float32) * dark
