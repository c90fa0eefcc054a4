"""Digits as they are drawn, before anything happens to them.

Each source gives pictures of HEIGHT x WIDTH pixels, ink white on black, the
digit at most 36 pixels high, and labels.
"""
import glob
import gzip
import math
import struct

import numpy as np
import torch
import torch.nn.functional as F

import strokes

HEIGHT, WIDTH = 44, 40  # a digit box of 8 x 9 mm with 1 mm around it, 4 px a millimetre
BLANK, UNREADABLE, CLASSES = 10, 11, 12
KEPT_BACK = 2500  # of MNIST's training digits, the last
dev = "cuda" if torch.cuda.is_available() else "cpu"


def rand(n, low, high):
    return low + (high - low) * torch.rand(n, device=dev)


def chance(n, p):
    return torch.rand(n, device=dev) < p


# --- MNIST ---------------------------------------------------------------------

def idx(path):
    data = gzip.open(path).read()
    dims = data[3]
    shape = struct.unpack(f">{dims}I", data[4:4 + 4 * dims])
    return torch.from_numpy(np.frombuffer(data, np.uint8, offset=4 + 4 * dims).reshape(shape).copy())


def mnist_files(folder, which):
    """MNIST digits of the set "train" or "t10k", as they are."""
    return idx(f"{folder}/{which}-images-idx3-ubyte.gz"), idx(f"{folder}/{which}-labels-idx1-ubyte.gz")


def mnist(folder, which):
    """MNIST digits on our canvas, 20 px made 34."""
    images, labels = mnist_files(folder, which)
    images, labels = images.to(dev), labels.long().to(dev)
    x = F.interpolate(images[:, None].float(), size=(48, 48), mode="bilinear", align_corners=False)
    return x[:, 0, 2:46, 4:44].to(torch.uint8), labels


# --- fonts ---------------------------------------------------------------------

class Fonts:
    """What fonts.py rendered: digits, and letters that are none."""

    def __init__(self, path):
        data = np.load(path)
        self.images = torch.from_numpy(data["images"]).to(dev)
        self.labels = torch.from_numpy(data["labels"]).long().to(dev)
        self.held = torch.from_numpy(data["held"]).to(dev)
        family = torch.from_numpy(data["families"]).to(dev)
        hand = torch.from_numpy(data["hands"]).to(dev)
        weight = 1 / torch.bincount(family)[family].float() ** .5  # a family of many fonts is still one hand
        weight = torch.where(hand, weight * 4, weight)             # what looks written, more often than what is set
        weight = torch.where(self.labels < 10, weight, weight * .08)
        self.weight = torch.where(self.held, 0., weight)

    def draw(self, n):
        k = torch.multinomial(self.weight, n, replacement=True)
        return self.images[k], self.labels[k]

    def kept_back(self, times):
        return self.images[self.held].repeat(times, 1, 1), self.labels[self.held].repeat(times)


# --- boxes of photographed forms ------------------------------------------------

class Boxes:
    """What "benchmark boxes" wrote to a folder, which may still be filling."""

    def __init__(self, folder):
        self.folder, self.seen = folder, set()
        self.images = torch.empty(0, HEIGHT, WIDTH, dtype=torch.uint8, device=dev)
        self.labels = torch.empty(0, dtype=torch.long, device=dev)

    def look(self):
        new = sorted(set(glob.glob(f"{self.folder}/*.boxes")) - self.seen)
        if new:
            data = b"".join(gzip.open(path).read() for path in new)
            boxes = torch.from_numpy(np.frombuffer(data, np.uint8).reshape(-1, 1 + HEIGHT * WIDTH).copy()).to(dev)
            self.images = torch.cat([self.images, boxes[:, 1:].reshape(-1, HEIGHT, WIDTH)])
            self.labels = torch.cat([self.labels, boxes[:, 0].long()])
            self.seen.update(new)
        return self


# --- strokes -------------------------------------------------------------------

def spline(points, n):
    """n points of a Catmull-Rom line through points."""
    p = np.array(points, float)
    if len(p) == 2:
        return p[0] + (p[1] - p[0]) * np.linspace(0, 1, n)[:, None]
    p = np.vstack([2 * p[0] - p[1], p, 2 * p[-1] - p[-2]])
    t = np.linspace(0, len(p) - 3 - 1e-9, n)
    i = t.astype(int)
    u = (t - i)[:, None]
    a, b, c, d = p[i], p[i + 1], p[i + 2], p[i + 3]
    return .5 * (2 * b + (c - a) * u + (2 * a - 5 * b + 4 * c - d) * u ** 2 + (3 * b - a - 3 * c + d) * u ** 3)


def performed(lines, rng):
    """The strokes of a variant as a person may write them one time: corners
    rounded, strokes cut short, drawn out, ended in a hook or joined by a pen that
    was not lifted."""
    lines = [np.array(line) + rng.normal(0, .02, (len(line), 2)) * (rng.random() < .7) for line in lines]
    out = [lines[0]]
    for line in lines[1:]:
        before, gap = out[-1], np.linalg.norm(line[0] - out[-1][-1])
        if gap < .12 and rng.random() < .35:      # a corner that the pen rounds
            near = lambda q, p: p + (q - p) * min(.5, .14 / max(np.linalg.norm(q - p), .01))
            corner = (before[-1] + line[0]) / 2
            out[-1] = np.vstack([before[:-1], near(before[-2], corner), near(line[1], corner), line[1:]])
        elif gap >= .12 and rng.random() < .05:   # a pen that was not lifted
            out += [np.vstack([before[-1], line[0]]), line]
        else:
            out.append(line)
    for k, line in enumerate(out):
        for end in (0, -1):
            chance, tip, inner = rng.random(), line[end], line[1 if end == 0 else -2]
            if chance < .15:
                tip = tip + (inner - tip) * rng.uniform(.0, .3)
            elif chance < .3:
                tip = tip - (inner - tip) / max(np.linalg.norm(inner - tip), .05) * rng.uniform(.0, .1)
            line[end] = tip
        if rng.random() < .06:                    # a hook where the pen lands or leaves
            end = -1 if rng.random() < .5 else 0
            turn, way = rng.normal(0, 1.2), line[end] - line[1 if end == 0 else -2]
            way = way / max(np.linalg.norm(way), .05) * rng.uniform(.04, .11)
            hook = line[end] + way @ np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
            line = np.vstack([hook, line]) if end == 0 else np.vstack([line, hook])
        out[k] = line
    return out


def skeletons(held_out, times):
    """Segments of every variant, performed so many times and padded to one length
    [V, S, 4], the stroke each belongs to [V, S], labels, widths."""
    rng = np.random.default_rng(3)
    last = {d: i for i, (d, _, _) in enumerate(strokes.VARIANTS)}
    segments, owners, labels, widths = [], [], [], []
    for i, (digit, width, lines) in enumerate(strokes.VARIANTS):
        if (i == last[digit]) != held_out:
            continue
        for time in range(times):
            seg, owner = [], []
            for k, line in enumerate(performed(lines, rng) if time else lines):
                q = spline(line, 5 if len(line) == 2 else 3 * len(line))
                seg.append(np.concatenate([q[:-1], q[1:]], 1))
                owner += [k] * (len(q) - 1)
            segments.append(np.concatenate(seg)), owners.append(np.array(owner)), labels.append(digit), widths.append(width)
    most = max(len(s) for s in segments)
    padded = np.stack([np.concatenate([s, np.repeat(s[-1:], most - len(s), 0)]) for s in segments])
    owned = np.stack([np.concatenate([o, np.repeat(o[-1:], most - len(o), 0)]) for o in owners])
    return (torch.tensor(padded, dtype=torch.float32, device=dev), torch.tensor(owned, device=dev),
            torch.tensor(labels, device=dev), torch.tensor(widths, dtype=torch.float32, device=dev))


def distances(segments):
    """How far each pixel is from the nearest of the segments [B, S, 4], in pixels."""
    y, x = torch.meshgrid(torch.arange(HEIGHT, device=dev) + .5, torch.arange(WIDTH, device=dev) + .5, indexing="ij")
    pixel = torch.stack([x, y], -1).reshape(1, 1, -1, 2)
    a, b = segments[:, :, None, :2], segments[:, :, None, 2:]
    ab = b - a
    t = (((pixel - a) * ab).sum(-1) / (ab * ab).sum(-1).clamp_min(1e-6)).clamp(0, 1)
    return (pixel - a - t[..., None] * ab).norm(dim=-1).amin(1).reshape(-1, HEIGHT, WIDTH)


def stroke_glyphs(n, held_out, thinnest=.5, chunk=512):
    """Digits of the skeletons, warped as hands warp them, 36 px high at the most;
    of all digits as many."""
    base, owners, labels, widths = skeletons(held_out, 150 if dev == "cuda" else 8)
    weight = 1 / torch.bincount(labels)[labels].float()
    images, out = torch.empty(n, HEIGHT, WIDTH, dtype=torch.uint8, device=dev), torch.empty(n, dtype=torch.long, device=dev)
    for start in range(0, n, chunk):
        m = min(chunk, n - start)
        v = torch.multinomial(weight, m, replacement=True)
        points = base[v].reshape(m, -1, 2, 2) - .5
        # Strokes do not quite meet, and one is longer than the other.
        most = int(owners.max()) + 1
        loose = .045 * torch.rand(m, 1, 1, device=dev)
        which = owners[v][..., None].expand(-1, -1, 2)
        moved = torch.gather(torch.randn(m, most, 2, device=dev) * loose, 1, which)
        longer = 1 + torch.gather(torch.randn(m, most, 1, device=dev).expand(-1, -1, 2) * loose, 1, which)
        points = (points * longer[:, :, None] + moved[:, :, None]).reshape(m, -1, 2)
        # A smooth warp of the whole digit: a few sine waves, the same for all points.
        for _ in range(3):
            wave, phase = torch.randn(m, 1, 2, device=dev) * 3.2, rand((m, 1), 0, 2 * math.pi)
            size = torch.randn(m, 1, 2, device=dev) * .034
            points = points + size * torch.sin((points * wave).sum(-1) + phase)[..., None]
        height = rand(m, 24, 36)
        width = height * widths[v] * torch.exp(torch.randn(m, device=dev) * .25)
        points = points * torch.stack([width.clamp(max=36), height], -1)[:, None]
        points[..., 0] += -points[..., 1] * (torch.randn(m, 1, device=dev) * .18 + .08)  # slant
        points = points + torch.tensor([WIDTH / 2, HEIGHT / 2], device=dev)
        pen = torch.exp(torch.randn(m, device=dev) * .4) * 1.15  # half-width in px; .5 mm ball-point is 1 px
        ink = torch.sigmoid((pen.clamp(thinnest, 3)[:, None, None] - distances(points.reshape(m, -1, 4))) / .45)
        images[start:start + m] = (ink * 255).to(torch.uint8)
        out[start:start + m] = labels[v]
    return images, out
