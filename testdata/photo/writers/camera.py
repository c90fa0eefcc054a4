"""A phone's camera over a table: pin-hole, lens, light, sensor and file."""
import math

import numpy as np
from PIL import Image
from scipy import ndimage

from table import table

SENSORS = [(4080, 3060), (3840, 2880), (3968, 2976), (3456, 2592), (4032, 2268)]


class Surface:
    """Height of the paper over the table in mm: curl, waves, folds."""

    def __init__(self, size, rng, bend, folds):
        self.w, self.h, self.folds = *size, folds
        self.waves = [(rng.uniform(.3, 1) * bend, rng.uniform(110, 280), rng.uniform(0, math.pi), rng.uniform(0, 6.3)) for _ in range(3)]
        self.curl = [(rng.uniform(0, 5) * bend, c) for c in rng.permutation(4)[:2]]

    def height(self, x, y):
        """Folds are (axis, place in mm, rise of the crease in mm)."""
        z = np.full_like(x, .3)
        for a, length, turn, phase in self.waves:
            z = z + a * (1 + np.sin((x * math.cos(turn) + y * math.sin(turn)) * 2 * math.pi / length + phase))
        for amount, c in self.curl:
            cx, cy = (0, self.w)[c % 2], (0, self.h)[c // 2]
            z = z + amount * np.exp(-((x - cx) ** 2 + (y - cy) ** 2) / 72 ** 2)
        for axis, at, rise in self.folds:
            d = np.abs((x if axis == "x" else y) - at)
            z = z + rise * np.exp(-np.sqrt(d * d + 4) / 34)
        return z


class Camera:
    """Where the phone is, so that the whole sheet, or a frame on it, is in its picture."""

    def __init__(self, size, rng, tilt, fill, sideways, pixels=None, frame=None):
        long_side, short = pixels or SENSORS[rng.integers(len(SENSORS))]
        left, top, right_edge, foot = frame or (0, 0, *size)
        self.w, self.h = (long_side, short) if sideways else (short, long_side)
        self.f = long_side * rng.uniform(.7, .82)
        self.k1 = rng.uniform(-.03, .03)
        toward, roll = rng.uniform(0, 2 * math.pi), rng.normal(0, 2.8)
        if rng.random() < .6:  # mostly the hand leans from the foot of the page
            toward = math.pi / 2 + rng.normal(0, .35)
        self.toward, t = toward, math.radians(tilt)
        self.forward = np.array([-math.cos(toward) * math.sin(t), -math.sin(toward) * math.sin(t), -math.cos(t)])
        right = np.array([1.0, 0, 0]) - self.forward[0] * self.forward
        right /= np.linalg.norm(right)
        down = np.cross(self.forward, right)
        if down[1] < 0:
            down = -down
        a = math.radians(roll)
        self.right, self.down = math.cos(a) * right + math.sin(a) * down, -math.sin(a) * right + math.cos(a) * down
        aim, dist = np.array([(left + right_edge) / 2, (top + foot) / 2, 0]), 500.0
        corners = np.array([(x, y, 4.0) for x in (left, right_edge) for y in (top, foot)])
        off = rng.normal(0, .008, 2) * (self.w, self.h)
        for _ in range(30):
            self.eye = aim - self.forward * dist
            p = self.project(corners)
            lo, hi = p.min(0), p.max(0)
            dist *= max((hi - lo) / (np.array([self.w, self.h]) * fill))
            move = ((lo + hi) / 2 - np.array([self.w, self.h]) / 2 - off) * dist / self.f
            aim = aim + (self.right * move[0] + self.down * move[1]) * .8
        self.dist = dist

    def project(self, p):
        v = p - self.eye
        z = v @ self.forward
        q = np.c_[v @ self.right / z, v @ self.down / z]
        q *= 1 + self.k1 * (q ** 2).sum(1, keepdims=True)
        return q * self.f + (self.w / 2, self.h / 2)

    def ground(self, step, surface):
        """For every step-th pixel: where its ray meets the paper, and the table."""
        y, x = np.mgrid[0:self.h + step:step, 0:self.w + step:step].astype(float)
        qx, qy = (x - self.w / 2) / self.f, (y - self.h / 2) / self.f
        r2 = qx * qx + qy * qy
        for _ in range(2):
            s = 1 + self.k1 * r2
            r2 = (qx * qx + qy * qy) / s ** 2
        qx, qy = qx / (1 + self.k1 * r2), qy / (1 + self.k1 * r2)
        d = self.forward + qx[..., None] * self.right + qy[..., None] * self.down
        meet = lambda z: (self.eye[0] + d[..., 0] * (z - self.eye[2]) / d[..., 2], self.eye[1] + d[..., 1] * (z - self.eye[2]) / d[..., 2])
        flat = meet(0.0)
        px, py = flat
        for _ in range(5):
            px, py = meet(surface.height(np.clip(px, 0, surface.w), np.clip(py, 0, surface.h)))
        return (px, py), flat


HARD = {"edge": (.0015, .004), "bars": (.003, .008)}  # how far the edges of hard shadows fade, in shares of the picture


def shadow(shape, rng, kind, hard=HARD):
    """A shadow over the picture, 0 to 1: phone, hand, a hard edge, or the bars of a window."""
    h, w = shape
    y, x = np.mgrid[0:h, 0:w] / max(shape)
    cx, cy, a = rng.uniform(.1, .65), rng.uniform(.15, .9), rng.uniform(0, 6.3)
    u, v = (x - cx) * math.cos(a) + (y - cy) * math.sin(a), -(x - cx) * math.sin(a) + (y - cy) * math.cos(a)
    soft = rng.uniform(.014, .045)
    if kind == "phone":
        s = (np.abs(u) < .12) & (np.abs(v) < .25)
    elif kind == "hand":
        s = np.hypot(u / .18, v / .11) < 1
        for k in range(4):
            s |= (np.abs(v - .07 + .048 * k) < .018) & (u > 0) & (u < .34 - .035 * abs(k - 1.5))
        s |= (np.abs(v) < .085) & (u < 0)
    elif kind == "edge":
        s, soft = u > rng.uniform(-.05, .1), rng.uniform(*hard["edge"])
    else:
        s, soft = (np.abs(u + .22) < .05) | (np.abs(u - .12) < .07) | (np.abs(v - .3) < .03), rng.uniform(*hard["bars"])
    return ndimage.gaussian_filter(s.astype(np.float32), soft * max(shape))


def guided(y, size, floor):
    """Smooth where the picture is flat, keep its edges."""
    box = lambda m: ndimage.uniform_filter(m, size)
    mean = box(y)
    spread = box(y * y) - mean * mean
    keep = spread / (spread + np.float32(floor))
    return box(keep) * y + box(mean * (1 - keep))


def develop(img, rng, g):
    """From light to the phone's picture: noise, denoising, tone curve, sharpening."""
    noise = rng.standard_normal(img.shape, np.float32) * np.sqrt(img * np.float32(g["noise"] ** 2) + np.float32((g["noise"] * .12) ** 2))
    img = np.clip(img + .6 * noise + .4 * np.roll(noise, (0, 1), (0, 1)), 0, 1.5)
    high = img > .82
    img[high] = .82 + .18 * (1 - np.exp(-(img[high] - .82) / .18))
    img **= np.float32(1 / 2.2)
    luma = img @ np.array([.3, .59, .11], np.float32)
    colour = [ndimage.zoom(ndimage.gaussian_filter((img[..., c] - luma)[::2, ::2], g["chroma"], truncate=2.5), 2, order=1)[:luma.shape[0], :luma.shape[1]] for c in range(3)]
    if g["denoise"] == "guided":
        luma = guided(luma, 5, (g["noise"] * .55) ** 2)
    elif g["denoise"] == "soft":
        luma = ndimage.gaussian_filter(luma, .8, truncate=2.5)
    near, wide = (luma - ndimage.gaussian_filter(luma, s, truncate=2.5) for s in (1.1, 3.2))
    luma = luma + g["sharpen"] * np.clip(near, -.09, .09) + g["local"] * np.clip(wide, -.12, .12)
    luma = luma - .06 * g["contrast"] * np.sin(np.clip(luma, 0, 1) * 2 * math.pi)
    return np.stack([np.clip(luma + c, 0, 1) for c in colour], -1)


def shoot(rgb, size, rng, g):
    """Photograph a sheet (its image and its size in mm); g is the grade's settings."""
    cam = Camera(size, rng, g["tilt"], g["fill"], g.get("sideways"), g.get("pixels"), g.get("frame"))
    surf = Surface(size, rng, g["bend"], g["folds"])
    step = 8
    (px, py), (tx, ty) = cam.ground(step, surf)
    grow = lambda m: np.asarray(Image.fromarray(m.astype(np.float32), "F").resize((m.shape[1] * step, m.shape[0] * step), Image.BILINEAR))
    # resize centres its pixels: shift by half a step so that node k lies at pixel k * step
    full = lambda m: grow(m)[step // 2:step // 2 + cam.h, step // 2:step // 2 + cam.w]
    e = .5
    zx = (surf.height(px + e, py) - surf.height(px - e, py)) / (2 * e)
    zy = (surf.height(px, py + e) - surf.height(px, py - e)) / (2 * e)
    az, low = rng.uniform(0, 6.3), rng.uniform(.5, .9)
    shade = 1 + low * .55 * np.clip(-(zx * math.cos(az) + zy * math.sin(az)), -.5, .5)
    hh, ww = px.shape
    yy, xx = np.mgrid[0:hh, 0:ww] / max(hh, ww) - .5
    lamp = 1 + g["uneven"] * (xx * math.cos(az + 1) + yy * math.sin(az + 1)) * 1.1
    lamp *= 1 - g["vignette"] * (xx ** 2 + yy ** 2) * 1.6
    for kind in g["shadows"]:
        lamp *= 1 - rng.uniform(.2, .38) * g["shade"] * shadow((hh, ww), rng, kind, g.get("hard", HARD))
    k = rgb.shape[1] / size[0]
    X, Y, TX, TY = full(px), full(py), full(tx), full(ty)
    inside = np.clip(np.minimum(np.minimum(X, size[0] - X), np.minimum(Y, size[1] - Y)) * k / 1.5 + .5, 0, 1)
    wood, per = table(g["table"], rng)
    n = wood.shape[0]
    turn, ox, oy = rng.normal(0, .4), rng.uniform(0, 400), rng.uniform(0, 400)
    on, off = inside > 0, inside < 1
    U = ((TX[off] * math.cos(turn) + TY[off] * math.sin(turn)) * per + ox) % (n - 1)
    V = ((TY[off] * math.cos(turn) - TX[off] * math.sin(turn)) * per + oy) % (n - 1)
    cast = np.clip(1 - .45 * np.exp(-np.maximum(np.maximum(-TX - 1, TX - size[0] - 1), np.maximum(-TY - 1, TY - size[1] - 1)).clip(0) / rng.uniform(1.2, 4)), 0, 1)
    light_paper, light_table = full(shade * lamp)[on], (full(lamp) * cast)[off]
    at_sheet, at_table = np.array([Y[on] * k - .5, X[on] * k - .5], np.float32), np.array([V, U], np.float32)
    img = np.empty((cam.h, cam.w, 3), np.float32)
    for c in range(3):
        page, under = np.zeros((2, cam.h, cam.w), np.float32)
        page[on] = ndimage.map_coordinates(rgb[..., c], at_sheet, order=1, mode="nearest") * light_paper
        under[off] = ndimage.map_coordinates(wood[..., c], at_table, order=1, mode="nearest") * light_table
        img[..., c] = inside * page + (1 - inside) * under
    img = (np.clip(img, 0, None) / 255) ** np.float32(2.2)
    # focus and shake
    far = np.clip(((TX - size[0] / 2) * -math.cos(cam.toward) + (TY - size[1] / 2) * -math.sin(cam.toward)) / 180 - .25, 0, 1) if g["far"] > 0 else None
    dy, dx = ((0, 1), (1, 0), (1, 1), (-1, 1))[rng.integers(4)]
    for c in range(3):
        s = ndimage.gaussian_filter(img[..., c], g["blur"], truncate=3)
        if far is not None:
            s = s * (1 - far) + ndimage.gaussian_filter(s, g["far"], truncate=3) * far
        if g["shake"] > .6:
            part = g["shake"] / 6
            s = s * (1 - 2 * part) + part * (np.roll(s, (dy, dx), (0, 1)) + np.roll(s, (-dy, -dx), (0, 1)))
        img[..., c] = s * np.float32(g["cast"][c] * g["exposure"])
    return Image.fromarray((develop(img, rng, g) * 255 + .5).astype(np.uint8))
