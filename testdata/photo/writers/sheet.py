"""The printed form on its paper, with the ink on it: blank, printer, filling in."""
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from scipy import ndimage

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "read" / "lib"))
import boats  # noqa: E402

boats.SERIES = "second forms, other hands"
TOOL, CACHE, DPI = "fairtape", pathlib.Path(tempfile.gettempdir()) / "fairtape-blank-forms", 300
SHEETS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
NOTE_FONTS = ["/usr/share/fonts/truetype/rufscript/Rufscript010.ttf", "/usr/share/fonts/truetype/kiloji/kiloji.ttf", "/usr/share/fonts/truetype/sjfonts/SteveHand.ttf"]


def blank(unit, paper, length, page):
    """A page of the shop's form: its layout and the page in grey at 300 dpi."""
    CACHE.mkdir(exist_ok=True)
    stem = CACHE / f"form-{unit}-{paper}-{length or 'open'}"
    if not pathlib.Path(f"{stem}.json").exists():
        subprocess.run([TOOL, "form", *(["--length", f"{length} in" if unit == "in" else f"{length} cm"] if length else []), "--unit", unit, "--paper", paper,
                        "--out", f"{stem}.pdf", "--layout", f"{stem}.json"], check=True)
    if not pathlib.Path(f"{stem}-{page}.png").exists():
        subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-f", str(page), "-l", str(page), "-singlefile", "-png", f"{stem}.pdf", f"{stem}-{page}"], check=True)
    return json.loads(pathlib.Path(f"{stem}.json").read_text()), Image.open(f"{stem}-{page}.png").convert("L")


class Form:
    """The boxes of one page, by the name of the number."""

    def __init__(self, layout, page):
        self.layout, self.page, self.unit = layout, page, layout["unit"]
        step = 12 if self.unit == "in" else 30
        self.parts, self.names = {}, {}
        for field in layout["fields"]:
            if field["page"] != page:
                continue
            m = re.fullmatch(r"stations\[(\d+)\]\.(\w+?_girth)(\.half)?", field["name"])
            name = f"{m[2]}@{(int(m[1]) + 1) * step}{m[3] or ''}" if m else field["name"]
            base, _, part = name.rpartition(".") if name.endswith((".feet", ".inches", ".half")) else (name, "", "whole")
            self.parts.setdefault(base, {})[part] = field["boxes"]
            self.names[base] = field["kind"]

    def numbers(self):
        return [n for n in self.parts if {"whole", "inches"} & set(self.parts[n]) and self.names[n] != "text" and "." + n not in (".open", ".decked", ".tape_checked", ".stern.pointed", ".stern.square") and not n.startswith("stern.")]

    def write(self, w, name, value, zero="0"):
        """Write a number into its boxes; False where it does not fit."""
        p, whole = self.parts[name], int(value)
        if value != whole and "half" not in p:
            return False
        if "feet" in p:
            feet, inches = divmod(whole, 12)
            w.in_boxes(str(feet), p["feet"])
            if inches or zero:
                w.in_boxes(str(inches), p["inches"])
        elif len(str(whole)) > len(p["whole"]):
            return False
        else:
            w.in_boxes(str(whole), p["whole"])
        if value != whole:
            w.tick(p["half"][0])
        return True


def printed(grey, rng, how):
    """The page as a printer laid it on its sheet; the sheet's grey image, and the way from form to sheet in mm."""
    sheet_mm = SHEETS[how["sheet"]]
    W, H = (round(v * DPI / 25.4) for v in sheet_mm)
    gw, gh = grey.width * 25.4 / DPI, grey.height * 25.4 / DPI
    s, a = how["scale"], math.radians(how["skew"])
    A = s * np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])
    b = np.array(sheet_mm) / 2 + how["shift"] - A @ (np.array([gw, gh]) / 2)
    inv = np.linalg.inv(A)
    c = -inv @ b * DPI / 25.4
    out = grey.transform((W, H), Image.AFFINE, (inv[0, 0], inv[0, 1], c[0], inv[1, 0], inv[1, 1], c[1]), resample=Image.BICUBIC, fillcolor=255)
    dark = 1 - np.asarray(out, np.float32) / 255
    # toner: strength, bands across the paper, specks where it does not hold
    bands = ndimage.gaussian_filter1d(rng.normal(size=H), 40) * 9
    dark *= (how["toner"] + how["banding"] * bands)[:, None].astype(np.float32)
    hold = ndimage.gaussian_filter(rng.standard_normal((H // 2 + 1, W // 2 + 1), np.float32), .8).repeat(2, 0).repeat(2, 1)[:H, :W]
    dark *= 1 - how["wear"] * np.clip(hold * 2.2, 0, 1)
    if how["toner"] > .9:
        dark = ndimage.gaussian_filter(dark, .6)
    return np.clip(dark, 0, 1), A, b


def paper_stock(shape, rng, stock):
    """Colour of the bare paper: white office paper or cheap recycled."""
    H, W = shape
    base = {"white": (250, 250, 249), "warm": (248, 245, 236), "recycled": (226, 221, 207), "grey": (222, 223, 220)}[stock]
    paper = np.empty((H, W, 3), np.float32)
    small = ndimage.gaussian_filter(rng.normal(size=(H // 4 + 1, W // 4 + 1)).astype(np.float32), 1.2).repeat(4, 0).repeat(4, 1)[:H, :W]
    paper[:] = np.array(base, np.float32)
    rough = stock in ("recycled", "grey")
    paper += (small * (14 if rough else 5))[..., None]
    if rough:
        flecks = Image.new("L", (W, H), 0)
        d = ImageDraw.Draw(flecks)
        for _ in range(1500):
            x, y, a, n = rng.uniform(0, W), rng.uniform(0, H), rng.uniform(0, 6.3), rng.uniform(2, 16)
            d.line([x, y, x + n * math.cos(a), y + n * math.sin(a)], fill=int(rng.uniform(20, 90)), width=int(rng.integers(1, 3)))
        paper *= 1 - ndimage.gaussian_filter(np.asarray(flecks, np.float32) / 255, .7)[..., None] * .8
    return paper


def ink_mask(ink, A, b, shape):
    """Alpha of the strokes on the sheet."""
    H, W = shape
    k = 2 * DPI / 25.4
    im = Image.new("L", (2 * W, 2 * H), 0)
    d = ImageDraw.Draw(im)
    for pts, widths, alphas in ink:
        p = (pts @ A.T + b) * k
        length = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        n = max(2, int(length[-1] / 2.2))
        t = np.linspace(0, length[-1], n)
        for x, y, w, a in zip(np.interp(t, length, p[:, 0]), np.interp(t, length, p[:, 1]), np.interp(t, length, widths * k / 2), np.interp(t, length, alphas)):
            d.ellipse([x - w, y - w, x + w, y + w], fill=int(255 * a))
    return np.asarray(im.reduce(2), np.float32) / 255


def note_mask(text, at, height, A, b, shape, font):
    """Free words in a hand, as alpha on the sheet."""
    k = DPI / 25.4
    f = ImageFont.truetype(font, int(height * k * 1.35))
    im = Image.new("L", (shape[1], shape[0]), 0)
    x, y = (A @ np.array(at) + b) * k
    patch = Image.new("L", (int(f.getlength(text)) + 60, int(height * k * 3)), 0)
    ImageDraw.Draw(patch).text((30, height * k * .7), text, fill=225, font=f, stroke_width=1)
    patch = patch.rotate(((len(text) * 7) % 5 - 2) * .7, Image.BICUBIC)
    im.paste(patch, (int(x) - 30, int(y - height * k * 1.3)))
    return np.asarray(im, np.float32) / 255


def compose(dark, paper, mask, pen, rng):
    """Paper, toner and ink one over the other."""
    toner = np.array([34, 34, 37], np.float32)
    out = paper * (1 - dark[..., None]) + toner * dark[..., None] * 1.0
    H, W = mask.shape
    grain = ndimage.gaussian_filter(rng.standard_normal((H // 2 + 1, W // 2 + 1), np.float32), .7).repeat(2, 0).repeat(2, 1)[:H, :W] * 1.6
    a = mask * np.clip(1 - pen["grain"] * np.clip(grain + .25, 0, 1.3), .2, 1)
    a = ndimage.gaussian_filter(a, .9 if pen["width"] > .9 else .6)[..., None]
    tint, inked = np.array(pen["colour"], np.float32), a[..., 0] > .004
    out[inked] = out[inked] * (1 - a[inked]) + a[inked] * tint * (out[inked] / 255) ** .35
    return out


def coffee(rgb, at_mm, rng, radius=39):
    """The ring of a cup, uneven and see-through, and a drop or two."""
    H, W, _ = rgb.shape
    k = DPI / 25.4
    y, x = np.mgrid[0:H:4, 0:W:4].astype(np.float32)
    dx, dy = x - at_mm[0] * k, y - at_mm[1] * k
    a = np.arctan2(dy, dx)
    wob = sum(rng.uniform(.1, .35) * np.sin(n * a + rng.uniform(0, 6)) for n in (1, 2, 3, 5))
    rr = np.hypot(dx, dy) / k - radius - wob * .8
    amount = np.clip(.5 + .6 * np.sin(a * 1.0 + rng.uniform(0, 6)) + .25 * np.sin(3 * a + 1), .08, 1)
    ring = (np.exp(-(rr / .75) ** 2) * .75 + np.exp(-(rr / .3 + 3.2) ** 2) * .5 + np.exp(-(rr / 2.2) ** 2) * .18) * amount
    for _ in range(3):
        cx, cy, q = at_mm[0] + rng.normal(0, 45), at_mm[1] + rng.normal(0, 45), rng.uniform(1.2, 3)
        d = np.hypot(x / k - cx, y / k - cy)
        ring += np.exp(-((d - q) / .35) ** 2) * .4 + (d < q) * .22
    ring = np.asarray(Image.fromarray(np.clip(ring, 0, .9).astype(np.float32), "F").resize((W, H), Image.BILINEAR))
    tint = np.array([.66, .47, .27], np.float32)
    return rgb * (1 - ring[..., None] * (1 - tint))


def crease(rgb, fold, rng):
    """What a fold leaves on the paper itself: a broken dark line and rubbed toner."""
    H, W, _ = rgb.shape
    k = DPI / 25.4
    axis, at = fold[0], fold[1]
    n = H if axis == "x" else W
    pos = at * k + ndimage.gaussian_filter1d(rng.normal(size=n), 25) * 9
    depth = np.clip(.13 + .16 * ndimage.gaussian_filter1d(rng.normal(size=n), 12) * 5, .03, .3)
    grid = np.arange(W if axis == "x" else H)
    d = grid[None, :] - pos[:, None]
    line = np.exp(-(d / 3.4) ** 2) * depth[:, None] - .12 * np.exp(-((d - 8) / 5) ** 2) * depth[:, None]
    line = line.astype(np.float32) if axis == "x" else line.T.astype(np.float32)
    return rgb * (1 - line[..., None])
