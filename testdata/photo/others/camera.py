"""A phone's camera over a sheet on a table.

A real pin-hole camera looks at a sheet that is not quite flat; the picture is
made backwards, from every pixel to its place on the sheet or the table. Light,
shadow, lens, sensor and the phone's own sharpening follow in that order.
"""
import math

import numpy as np
from PIL import Image, ImageDraw
from scipy import ndimage

CELL = 8  # rays are followed for every eighth pixel, and interpolated between

SIZES = [(3024, 4032), (3000, 4000), (2736, 3648), (2448, 3264)]
SMALL = [(1944, 2592), (1536, 2048), (1920, 2560)]

GRADES = {  # lower and upper bounds
    "flat": dict(tilt=(0.5, 7.5), curl=(0, 2.0), fold=(0, .012), blur=(.5, 1.0), motion=(0, 1), noise=(.003, .007), bright=(.80, .95), fall=(.02, .16), shadow=(0, .15), fill=(.84, .95)),
    "ordinary": dict(tilt=(5, 15), curl=(1, 6), fold=(0, .035), blur=(.9, 1.6), motion=(0, 2.5), noise=(.006, .014), bright=(.60, .85), fall=(.15, .4), shadow=(.2, .5), fill=(.78, .93)),
    "steep": dict(tilt=(20, 28), curl=(1, 6), fold=(0, .035), blur=(1.5, 2.5), motion=(1, 5.5), noise=(.02, .042), bright=(.32, .55), fall=(.25, .55), shadow=(.1, .5), fill=(.80, .94)),
}


def linear(image):
    """Light of 8-bit colours."""
    return (np.asarray(image, np.float32) / 255) ** 2.2


def clouds(rng, shape, size, stretch=(1, 1)):
    """Smooth noise of spread about 1, with spots of a size in pixels."""
    small = (max(4, int(shape[0] / size / stretch[0]) + 3), max(4, int(shape[1] / size / stretch[1]) + 3))
    noise = rng.standard_normal(small).astype(np.float32)
    return np.asarray(Image.fromarray(noise).resize(shape[::-1], Image.BICUBIC)) * 1.3


def table(kind, rng, mm=900, per=2.5):
    """A table top seen from above, in linear light, and its pixels to the millimetre."""
    n = int(mm * per)
    grain, spots = clouds(rng, (n, n), 3), clouds(rng, (n, n), 60)
    yy, xx = np.mgrid[0:n, 0:n].astype(np.float32) / per
    if kind == "wood":
        base = np.array([[150, 104, 62], [196, 158, 112], [96, 62, 40], [214, 190, 150]][rng.integers(4)])
        bend = clouds(rng, (n, n), 300, (1, .5)) * 9
        lines = np.sin((yy + bend) * rng.uniform(.5, 1.1)) * .5 + np.sin((yy + bend) * 2.7 + spots) * .3
        fibre = clouds(rng, (n, n), 2, (1, 60))
        tone = 1 + .08 * lines + .06 * fibre + .03 * spots
        plank = rng.uniform(70, 160)
        tone *= 1 + .07 * np.sin(np.floor(yy / plank) * 12.9898)
        tone *= 1 - .55 * np.exp(-((yy % plank - plank / 2) / .7) ** 2)
    elif kind == "cloth":
        base = np.array([[120, 30, 36], [60, 84, 120], [190, 184, 170], [70, 96, 72]][rng.integers(4)])
        weave = np.sin(xx * 2 * math.pi / 1.3) * np.sin(yy * 2 * math.pi / 1.3)
        check = ((np.floor(xx / 22) % 2) + (np.floor(yy / 22) % 2)) / 2 if rng.random() < .5 else 0
        tone = 1 + .1 * weave + .07 * grain + .05 * spots + .5 * check
    elif kind == "tiles":
        base = np.array([[176, 170, 160], [120, 124, 128], [200, 180, 150]][rng.integers(3)])
        side = rng.uniform(90, 200)
        edge = np.minimum(np.abs(xx % side - side / 2), np.abs(yy % side - side / 2))
        tone = 1 + .05 * spots + .04 * grain + .06 * np.sin(np.floor(xx / side) * 7.1 + np.floor(yy / side) * 3.7)
        tone *= 1 - .45 * (1 / (1 + np.exp(np.minimum((edge - 1.6) * 3, 50))))
    else:  # a speckled work-top
        base = np.array([[70, 70, 74], [205, 200, 190]][rng.integers(2)])
        tone = 1 + .12 * np.clip(grain, -1, 3) + .04 * spots
    picture = np.clip(base[None, None, :] * tone[:, :, None], 4, 250).astype(np.uint8)
    return linear(clutter(Image.fromarray(picture), rng, per, mm)), per


def clutter(picture, rng, per, mm):
    """Perhaps a pen and a measuring tape lying beside the sheet."""
    draw, side = ImageDraw.Draw(picture), rng.choice([-1, 1])
    if rng.random() < .45:
        x, y, a = mm / 2 + side * rng.uniform(124, 150), mm / 2 + rng.uniform(-100, 60), rng.normal(0, .25)
        tip = (x + 140 * math.sin(a), y + 140 * math.cos(a))
        at = lambda p, d=0: ((p[0] + d) * per, (p[1] + d) * per)
        draw.line([at((x, y), 3), at(tip, 3)], fill=(26, 22, 20), width=int(9 * per))
        draw.line([at((x, y)), at(tip)], fill=tuple(int(c) for c in rng.integers(20, 210, 3)), width=int(8 * per))
        draw.line([at((x - 2, y)), at((tip[0] - 2, tip[1]))], fill=(225, 225, 230), width=int(1.2 * per))
    if rng.random() < .35:
        x = mm / 2 - side * rng.uniform(128, 150)
        draw.rectangle([x * per, 0, (x + 16) * per, mm * per], fill=(226, 206, 90))
        for k in range(0, mm, 5):
            draw.line([x * per, k * per, (x + (9 if k % 50 == 0 else 5)) * per, k * per], fill=(30, 30, 30), width=2)
    return picture


class Sheet:
    """The height of a sheet over the table in mm: curl, a lifted corner, folds."""

    def __init__(self, rng, size, curl, fold):
        self.w, self.h = size
        self.bow, a = curl * rng.uniform(.4, 1), rng.choice([0, math.pi / 2]) + rng.normal(0, .25)
        self.dir = math.cos(a), math.sin(a)
        self.corner = curl * rng.uniform(0, 1.6), rng.choice([-1, 1]), rng.choice([-1, 1])
        self.fold, self.creases = fold, ([-self.h / 6, self.h / 6] if rng.random() < .6 else [0])
        if rng.random() < .4:
            self.fold = 0
        self.wave = curl * rng.uniform(0, .25), rng.uniform(0, 6), rng.uniform(90, 160)
        gx, gy = np.meshgrid(np.linspace(-self.w / 2, self.w / 2, 40), np.linspace(-self.h / 2, self.h / 2, 40))
        self.low = 0
        self.low = self.z(gx, gy).min()

    def z(self, x, y):
        x, y = np.clip(x, -self.w / 2, self.w / 2), np.clip(y, -self.h / 2, self.h / 2)
        along = x * self.dir[0] + y * self.dir[1]
        z = self.bow * (along / (self.h / 2)) ** 2
        lift, sx, sy = self.corner
        z = z + lift * np.maximum(0, (sx * x / self.w + sy * y / self.h) - .45) ** 2 * 12
        for k, at in enumerate(self.creases):
            z = z + (-1) ** k * self.fold * np.sqrt((y - at) ** 2 + 9)
        z = z + self.wave[0] * np.sin(y / self.wave[2] * 6.28 + self.wave[1] + x / 90)
        return z - self.low


def pose(rng, tilt, sheet, frame, fill):
    """Rotation and place of the camera so that the whole sheet fills the frame so far."""
    width, height = frame
    focal = height * rng.uniform(25, 34) / 34.6
    axis = rng.normal(0, .5) if rng.random() < .75 else rng.uniform(0, math.pi)
    t, roll = math.radians(tilt) * rng.choice([1, 1, 1, -1]), math.radians(rng.normal(0, 3.2))
    c, s = math.cos(t), math.sin(t)
    k = np.array([[0, 0, math.sin(axis)], [0, 0, -math.cos(axis)], [-math.sin(axis), math.cos(axis), 0]])
    turn = np.eye(3) + s * k + (1 - c) * k @ k
    spin = np.array([[math.cos(roll), -math.sin(roll), 0], [math.sin(roll), math.cos(roll), 0], [0, 0, 1]])
    rot = spin @ turn
    corners = np.array([[x * sheet.w / 2, y * sheet.h / 2, 0] for x in (-1, 1) for y in (-1, 1)])
    near, far, shift = 150., 2500., np.zeros(2)
    for _ in range(40):
        dist = (near + far) / 2
        for _ in range(6):
            p = corners @ rot.T + [*shift, dist]
            q = focal * p[:, :2] / p[:, 2:]
            shift -= (q.min(0) + q.max(0)) / 2 * dist / focal
        span = (q.max(0) - q.min(0)) / [width, height]
        near, far = (dist, far) if span.max() > fill else (near, dist)
    slack = (np.array([width, height]) - (q.max(0) - q.min(0))) / 2
    shift += slack * rng.uniform(-.6, .6, 2) * dist / focal
    return rot, np.array([*shift, dist]), focal


def shadow_field(rng, shape, depth):
    """A soft shadow of a phone held over the sheet, or of a hand or head at an edge."""
    h, w = shape
    mask = Image.new("L", (w, h))
    draw, kind = ImageDraw.Draw(mask), rng.choice(["phone", "hand", "head"])
    cx, cy = w * rng.uniform(.2, .8), h * rng.uniform(.55, 1)
    if kind == "phone":
        a, long, short = rng.normal(0, .3), h * .62, w * .42
        corner = [(sx * short / 2, sy * long / 2) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        draw.polygon([(cx + x * math.cos(a) - y * math.sin(a), cy + x * math.sin(a) + y * math.cos(a)) for x, y in corner], fill=255)
    elif kind == "hand":
        draw.ellipse([cx - w * .2, cy - h * .1, cx + w * .2, cy + h * .3], fill=255)
        for k in range(4):
            x = cx + (k - 1.5) * w * .1
            draw.line([x, cy + h * .05, x + (k - 1.5) * w * .04, cy - h * rng.uniform(.2, .3)], fill=255, width=int(w * .07))
    else:
        draw.ellipse([cx - w * .28, cy - h * .2, cx + w * .28, cy + h * .2], fill=255)
        draw.rectangle([cx - w * .5, cy + h * .15, cx + w * .5, h], fill=255)
    soft = ndimage.gaussian_filter(np.asarray(mask, np.float32) / 255, w * rng.uniform(.02, .07))
    return 1 - depth * soft


def grow(field, frame):
    """A coarse field at the size of the picture."""
    return np.asarray(Image.fromarray(np.ascontiguousarray(field, np.float32)).resize(frame, Image.BICUBIC))


def shoot(page, size_mm, dpmm, rng, grade, frame, background):
    """The photograph of a page (8-bit colours), its size in mm given, as 8-bit colours; and notes."""
    g = {k: rng.uniform(*v) for k, v in GRADES[grade].items()}
    width, height = frame
    sheet = Sheet(rng, size_mm, g["curl"], g["fold"])
    rot, place, focal = pose(rng, g["tilt"], sheet, frame, g["fill"])
    barrel = rng.uniform(0, .045)

    # rays
    u, v = np.meshgrid(np.arange(CELL / 2, width, CELL), np.arange(CELL / 2, height, CELL))
    u, v = u - width / 2, v - height / 2
    r2 = (u * u + v * v) / (width * width + height * height) * 4
    u, v = u * (1 + barrel * r2), v * (1 + barrel * r2)
    back = np.linalg.inv(np.diag([focal, focal, 1]) @ np.column_stack([rot[:, 0], rot[:, 1], place]))

    def ground(u, v):
        p = np.einsum("ij,jkl->ikl", back, np.stack([u, v, np.ones_like(u)]))
        return p[0] / p[2], p[1] / p[2]

    tx, ty = ground(u, v)
    x, y = tx, ty
    for _ in range(6):  # the sheet stands off the table: move until the ray meets it
        z = sheet.z(x, y)
        p = np.einsum("ij,jkl->ikl", rot, np.stack([x, y, -z])) + place[:, None, None]
        flat = np.einsum("ij,jkl->ikl", rot, np.stack([x, y, 0 * z])) + place[:, None, None]
        x, y = ground(u - focal * (p[0] / p[2] - flat[0] / flat[2]), v - focal * (p[1] / p[2] - flat[1] / flat[2]))
    e = 2.0
    slope = [(sheet.z(x + e, y) - sheet.z(x - e, y)) / (2 * e), (sheet.z(x, y + e) - sheet.z(x, y - e)) / (2 * e)]
    la = rng.uniform(0, 2 * math.pi)
    shade = np.clip(1 - 1.1 * (math.cos(la) * slope[0] + math.sin(la) * slope[1]), .6, 1.3)

    # sheet and table
    paper = linear(page)
    paper *= (np.array([.93, .925, .90]) ** rng.uniform(.6, 1.3) * (1 + .012 * clouds(rng, paper.shape[:2], 2)[..., None] + .012 * clouds(rng, paper.shape[:2], 130)[..., None])).astype(np.float32)
    scale = focal / place[2] / dpmm
    if scale < .9:
        paper = ndimage.gaussian_filter(paper, (.45 / scale, .45 / scale, 0))
    top, per = table(background, rng)
    top = top[::-1, ::-1] if rng.random() < .5 else top
    if rng.random() < .5:
        top = top.transpose(1, 0, 2)
    px, py = grow(x + size_mm[0] / 2, frame), grow(y + size_mm[1] / 2, frame)
    bx, by = grow(tx * per + top.shape[1] / 2, frame), grow(ty * per + top.shape[0] / 2, frame)
    inside = np.minimum(np.minimum(px, size_mm[0] - px), np.minimum(py, size_mm[1] - py))
    alpha = np.clip(inside * focal / place[2] + .5, 0, 1)
    off = rng.uniform(-3, 3, 2)
    qx, qy = np.abs(px - size_mm[0] / 2 + off[0]) - size_mm[0] / 2, np.abs(py - size_mm[1] / 2 + off[1]) - size_mm[1] / 2
    contact = 1 - .45 * np.clip(1 - np.maximum(qx, qy) / rng.uniform(3, 8), 0, 1)

    # light
    lo = (math.ceil(height / 16), math.ceil(width / 16))
    gy, gx = np.mgrid[-1:1:lo[0] * 1j, -1:1:lo[1] * 1j]
    light = 1 - g["fall"] * (.5 + .5 * (math.cos(la) * gx + math.sin(la) * gy) / 1.3)
    light = light * (1 - rng.uniform(.04, .12) * (gx ** 2 + gy ** 2))
    if grade != "flat" or rng.random() < .4:
        light = light * shadow_field(rng, lo, g["shadow"])
    light = grow(light, frame)
    cast = np.array([[1, 1, 1], [1.06, 1, .80], [1.03, 1, .9], [.93, 1, 1.07], [.97, 1.02, .96]][rng.integers(5)]) * rng.uniform(.98, 1.02, 3)
    expose = g["bright"] / np.percentile(light[alpha > .5], 60)
    light, shade = light * expose, grow(shade, frame)

    picture = np.empty((height, width, 3), np.float32)
    for c in range(3):
        ink = ndimage.map_coordinates(paper[:, :, c], [py * dpmm - .5, px * dpmm - .5], order=1, mode="nearest")
        ground_c = ndimage.map_coordinates(np.ascontiguousarray(top[:, :, c]), [by, bx], order=1, mode="mirror")
        picture[:, :, c] = (alpha * ink * shade + (1 - alpha) * ground_c * contact) * light * cast[c]

    # lens
    unit = width / 3024
    sharp = ndimage.gaussian_filter(picture, (g["blur"] * unit, g["blur"] * unit, 0))
    if grade != "flat":  # focus is somewhere on the sheet, the rest is a little softer
        soft = ndimage.gaussian_filter(sharp, (g["blur"] * unit * .9, g["blur"] * unit * .9, 0))
        fa = rng.uniform(0, 6.28)
        far = grow(np.clip(.5 + .6 * (math.cos(fa) * gx + math.sin(fa) * gy), 0, 1), frame)[..., None]
        sharp = sharp * (1 - far) + soft * far
    length = g["motion"] * unit
    if length > .8:
        n, a = int(math.ceil(length)) | 1, rng.uniform(0, math.pi)
        kernel = np.zeros((2 * n + 1,) * 2)
        for t in np.linspace(-length / 2, length / 2, 40):
            kernel[round(n + t * math.sin(a)), round(n + t * math.cos(a))] += 1 / 40
        for c in range(3):
            sharp[:, :, c] = ndimage.convolve(sharp[:, :, c], kernel.astype(np.float32))

    # sensor and the phone's own treatment
    picture = sharp + g["noise"] * np.sqrt(np.maximum(sharp, 0) * .7 + .02) * rng.standard_normal(sharp.shape, dtype=np.float32)
    tone = rng.normal(0, g["noise"] * .6, (height // 4, width // 4, 3)).astype(np.float32)
    picture += np.stack([grow(tone[:, :, c], frame) for c in range(3)], 2) * .5  # coloured blotches of noise
    picture = np.clip(picture, 0, 1) ** (1 / 2.2)
    picture = picture + .10 * (picture - .5) * (1 - np.abs(2 * picture - 1))
    picture += rng.uniform(.15, .5) * (picture - ndimage.gaussian_filter(picture, (1.4 * unit, 1.4 * unit, 0)))
    notes = {"tilt": round(g["tilt"], 1), "barrel": round(barrel, 3), "blur": round(g["blur"], 2), "motion": round(length, 1), "background": background}
    return np.clip(picture * 255 + .5, 0, 255).astype(np.uint8), notes
