"""What happens to a digit on its way from the pen to the reader."""
import math

import torch
import torch.nn.functional as F

from glyphs import BLANK, HEIGHT, UNREADABLE, WIDTH, chance, dev, distances, rand

SIDE = 32  # pixels of what the network sees, both ways

# How far a digit may stray from the way it was drawn, at the worst.
SIZE, TURN, SHEAR, ASPECT, MOVE, WARP, TILT = (.55, 1.08), .12, .17, .15, .08, .025, .12


def place(images, strength):
    """Turn, slant, stretch, tilt, warp and move digits within their boxes.

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
    tilt = torch.randn(n, 1, 1, 2, device=dev) * (TILT * strength)[:, None, None, None]
    grid = grid * (1 + (tilt * grid.flip(3)).clamp(-.4, .4))  # as a page seen from the side
    field = torch.randn(n, 2, 4, 4, device=dev) * (WARP * strength)[:, None, None, None]
    field = F.interpolate(field, size=(HEIGHT, WIDTH), mode="bicubic", align_corners=True)
    return F.grid_sample(images[:, None].float() / 255, grid + field.permute(0, 2, 3, 1), align_corners=False)[:, 0]


def thicken(x, strength):
    """Thicker and thinner pens."""
    a = (rand(len(x), -1, 1) * strength)[:, None, None]
    grown = F.max_pool2d(x[:, None], 3, 1, 1)[:, 0]
    shrunk = -F.max_pool2d(-x[:, None], 3, 1, 1)[:, 0]
    x = torch.where(a > 0, x + a.clamp(min=0) * (grown - x), x - .6 * a.clamp(max=0).abs() * (x - shrunk))
    # Or a line of even darkness, drawn where soft ink passes a threshold.
    hard = torch.sigmoid((x - rand(len(x), .3, .72)[:, None, None]) / .08)
    return torch.where(chance(len(x), .25)[:, None, None] & (x.amax((1, 2), keepdim=True) > .8), hard, x)


def rows_columns():
    return torch.arange(HEIGHT, device=dev)[None, :, None].float(), torch.arange(WIDTH, device=dev)[None, None, :].float()


def patches(n, cells):
    """Soft random fields between 0 and 1."""
    return F.interpolate(torch.rand(n, 1, cells, cells, device=dev), size=(HEIGHT, WIDTH), mode="bilinear", align_corners=False)[:, 0]


def box_lines(x, p):
    """Remains of the printed box, where it was not taken out cleanly."""
    n = len(x)
    rows, columns = rows_columns()
    for position, axis in ((4, columns), (WIDTH - 5, columns), (4, rows), (HEIGHT - 5, rows)):
        at = (position + torch.randn(n, device=dev) * 1.2)[:, None, None]
        line = torch.exp(-((axis - at) / rand(n, .4, 1.0)[:, None, None]) ** 2)
        strength = rand(n, .1, .8) * chance(n, p)
        x = torch.maximum(x, line * strength[:, None, None] * (patches(n, 6) > .45))
    return x


def ruled(x, p):
    """The line of ruled paper: faint remains of it, or the gap that taking it out
    tore into the digit."""
    n = len(x)
    rows, _ = rows_columns()
    line = torch.exp(-((rows - rand(n, 2, HEIGHT - 2)[:, None, None]) / rand(n, .4, 1.1)[:, None, None]) ** 2)
    x = torch.maximum(x, line * (rand(n, .1, .55) * chance(n, p))[:, None, None] * (patches(n, 5) > .35))
    return x * (1 - line * (rand(n, .3, 1) * chance(n, p / 2))[:, None, None])


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


def shaken(x, p):
    """A telephone that moved: the mean along a short line."""
    n = len(x)
    angle, length = rand(n, 0, math.pi), rand(n, 1, 4) * chance(n, p)
    grid = F.affine_grid(torch.eye(2, 3, device=dev).expand(n, -1, -1), (n, 1, HEIGHT, WIDTH), align_corners=False)
    step = torch.stack([torch.cos(angle) * length * 2 / WIDTH, torch.sin(angle) * length * 2 / HEIGHT], -1)[:, None, None]
    return sum(F.grid_sample(x[:, None], grid + t * step, align_corners=False)[:, 0] for t in (-.5, -.25, 0, .25, .5)) / 5


def jpeg(x, p):
    """Blocks of 8 x 8 whose finer waves were rounded away (ITU-T T.81, A.3.3)."""
    n = len(x)
    k = torch.arange(8, device=dev).float()
    wave = torch.cos((2 * k[None] + 1) * k[:, None] * math.pi / 16) * .5
    wave[0] *= .5 ** .5
    padded = F.pad(x, (0, 0, 0, 4)).reshape(n, 6, 8, 5, 8).permute(0, 1, 3, 2, 4)
    coarse = (1 + k[:, None] + k[None]) * rand(n, .01, .05)[:, None, None, None, None]
    waves = wave @ padded @ wave.T
    rounded = wave.T @ ((waves / coarse).round() * coarse) @ wave
    out = rounded.permute(0, 1, 3, 2, 4).reshape(n, 48, 40)[:, :HEIGHT]
    return torch.where(chance(n, p)[:, None, None], out, x)


def camera(x, strength):
    """Pale and dark ink, blur, uneven paper, noise."""
    n = len(x)
    x = x * (1 - strength * rand(n, 0, .65))[:, None, None]
    x = shaken(x, .12)
    blurred = F.avg_pool2d(F.avg_pool2d(x[:, None], 3, 1, 1), 3, 1, 1)[:, 0]
    wide = F.avg_pool2d(blurred[:, None], 3, 1, 1)[:, 0]
    how = (strength * torch.rand(n, device=dev))[:, None, None]
    x = torch.where(how < .4, x + how * (blurred - x), torch.where(how < .8, blurred, wide))
    coarse = chance(n, .25) & (strength > .4)  # a small photo: every second pixel is a guess
    small = F.interpolate(F.avg_pool2d(x[:, None], 2), size=(HEIGHT, WIDTH), mode="bilinear", align_corners=False)[:, 0]
    x = torch.where(coarse[:, None, None], small, x)
    paper = F.interpolate(torch.randn(n, 1, 3, 3, device=dev), size=(HEIGHT, WIDTH), mode="bicubic", align_corners=True)[:, 0]
    x = x + paper * (strength * rand(n, 0, .05))[:, None, None] + torch.randn_like(x) * (strength * rand(n, 0, .08))[:, None, None]
    return jpeg(x, .2).clamp(0, 1)


def levelled(x, p):
    """As parse/photo hands boxes out: what is noise taken for paper, the pen's
    usual darkness for black, and edges made as soft as usual."""
    n = len(x)
    noise = rand(n, .01, .08)[:, None, None]
    pen = (x.amax((1, 2)) * rand(n, .55, 1)).clamp_min(.2)[:, None, None]
    clean = torch.where(x > noise, x / pen, torch.zeros_like(x)).clamp(0, 1)
    share = (rand(n, 0, .3) * chance(n, .6))[:, None, None]
    clean = clean + share * (F.pad(clean, (1, 0))[..., :-1] + F.pad(clean, (0, 1))[..., 1:] - 2 * clean)
    clean = clean + share * (F.pad(clean, (0, 0, 1, 0))[:, :-1] + F.pad(clean, (0, 0, 0, 1))[:, 1:] - 2 * clean)
    return torch.where(chance(n, p)[:, None, None], clean, x)


# --- boxes of photographed forms -------------------------------------------------

def jostled(images):
    """Boxes that were photographed, a little turned, slanted, stretched and warped."""
    n = len(images)
    turn, shear, aspect = (torch.randn(n, device=dev) * s for s in (.07, .08, .08))
    cos, sin, ratio = torch.cos(turn), torch.sin(turn), WIDTH / HEIGHT
    theta = torch.zeros(n, 2, 3, device=dev)
    theta[:, 0, 0], theta[:, 0, 1] = cos * torch.exp(-aspect), (sin + shear) / ratio
    theta[:, 1, 0], theta[:, 1, 1] = -sin * ratio, cos * torch.exp(aspect)
    field = F.interpolate(torch.randn(n, 2, 4, 4, device=dev) * .012, size=(HEIGHT, WIDTH), mode="bicubic", align_corners=True)
    grid = F.affine_grid(theta, (n, 1, HEIGHT, WIDTH), align_corners=False) + field.permute(0, 2, 3, 1)
    return normalise(F.grid_sample(images[:, None].float() / 255, grid, align_corners=False)[:, 0])


# --- what is no digit ------------------------------------------------------------

def scribble(n):
    """Random lines: crossings-out and what is no digit."""
    points = torch.stack([rand((n, 9), 4, WIDTH - 4), rand((n, 9), 4, HEIGHT - 4)], -1)
    points[:, 1:] = torch.where(chance((n, 1, 1), .5), points[:, 1:], points[:, :-1] * .5 + points[:, 1:] * .5)
    keep = torch.randint(2, 9, (n,), device=dev)
    segments = torch.cat([points[:, :-1], points[:, 1:]], -1)
    last = torch.gather(segments, 1, (keep - 1)[:, None, None].expand(-1, 1, 4))
    segments = torch.where((torch.arange(8, device=dev)[None] < keep[:, None])[..., None], segments, last)
    return torch.sigmoid((rand(n, .6, 1.8)[:, None, None] - distances(segments)) / .45)


def strike(n):
    """Two or three strokes through a digit, as people cross out."""
    rows = torch.arange(3, device=dev)[None]
    y0 = rand((n, 3), .3, .7) * HEIGHT
    slope = rand((n, 1), -.5, .5) * HEIGHT
    x0, x1 = rand((n, 3), 0, .2) * WIDTH, rand((n, 3), .8, 1) * WIDTH
    segments = torch.stack([x0, y0 - slope / 2, x1, y0 + slope / 2], -1)
    cross = chance((n, 1, 1), .5) & (rows == 1)[..., None]
    segments = torch.where(cross, torch.stack([x0, y0 + slope.abs() / 2 + 6, x1, y0 - slope.abs() / 2 - 6], -1), segments)
    return torch.sigmoid((rand(n, .7, 1.6)[:, None, None] - distances(segments)) / .45)


def pair(left, right):
    """Two digits where one is expected, side by side and perhaps touching."""
    n = len(left)
    size, apart = rand(n, .5, .7), rand(n, .22, .3)

    def at(x, side):
        theta = torch.zeros(n, 2, 3, device=dev)
        theta[:, 0, 0], theta[:, 1, 1] = 1 / size, 1 / size
        theta[:, 0, 2], theta[:, 1, 2] = -side * 2 * apart / size, torch.randn(n, device=dev) * .08
        return F.grid_sample(x[:, None], F.affine_grid(theta, (n, 1, HEIGHT, WIDTH), align_corners=False), align_corners=False)[:, 0]

    return torch.maximum(at(left, -1), at(right, 1))


# How a box is looked at, as box.go has it: moved, turned, stretched.
VIEWS = [(0, 0, 0, 1, 1), (0, 0, .09, .93, 1), (0, 0, -.09, 1.05, 1), (1, .5, 0, 1, 1.08), (-1, -.5, 0, 1, .92)]


def normalise(x, view=VIEWS[0]):
    """Centre the ink, bring it to one size and look at it; the Go reader does the same.

    The box of the ink is where its row and column sums pass 1.5 and 98.5 %. It
    is scaled to 22 of 32 px, but ink under 16 px is not blown up further.
    """
    n = len(x)
    dx, dy, turn, larger, wider = view
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
    step = torch.maximum(bottom - top, right - left).clamp_min(16) / 22 / larger  # canvas pixels per network pixel
    cx, cy = (left + right) / 2 + dx * step, (top + bottom) / 2 + dy * step
    cos, sin = math.cos(turn), math.sin(turn)
    theta = torch.zeros(n, 2, 3, device=dev)
    theta[:, 0, 0], theta[:, 0, 1], theta[:, 0, 2] = cos * step * SIDE / WIDTH / wider, -sin * step * SIDE / WIDTH, 2 * cx / WIDTH - 1
    theta[:, 1, 0], theta[:, 1, 1], theta[:, 1, 2] = sin * step * SIDE / HEIGHT / wider, cos * step * SIDE / HEIGHT, 2 * cy / HEIGHT - 1
    grid = F.affine_grid(theta, (n, 1, SIDE, SIDE), align_corners=False)
    out = F.grid_sample(x[:, None], grid, align_corners=False)
    return out / out.amax((1, 2, 3), keepdim=True).clamp_min(.25)  # pale ink is ink; noise is not


def spoil(images, labels, junk, harshness=.5):
    """Boxes as a photo shows them, with the labels they then have.

    A share of junk becomes crossed-out, written-over, scribbled and doubly
    filled boxes, which nobody can read, and empty ones. The lower the harshness
    exponent, the more boxes are spoiled as far as they go. A label of -1 is no
    lesson.
    """
    n = len(images)
    strength = torch.rand(n, device=dev) ** harshness
    x = thicken(place(images, strength), strength)
    others = x.roll(1, 0)
    labels = labels.clone()
    q = int(n * junk) // 5
    if q:
        x[:q] = torch.maximum(x[:q], strike(q))  # crossed out
        first, second = x[q:2 * q], others[q:2 * q].roll(1, 0)
        both = torch.maximum(first, second)      # written over
        larger = torch.maximum(first.sum((1, 2)), second.sum((1, 2)))
        clear = both.sum((1, 2)) > 1.3 * larger  # else one digit hides the other: no lesson in it
        x[q:2 * q] = both
        labels[:4 * q] = UNREADABLE
        labels[q:2 * q] = torch.where(clear, UNREADABLE, -1)
        x[2 * q:3 * q] = scribble(q)
        x[3 * q:4 * q] = pair(x[3 * q:4 * q], others[3 * q:4 * q])
        x[4 * q:5 * q] = 0
        labels[4 * q:5 * q] = BLANK
    x = specks(ruled(intruders(box_lines(x, .12), others, .12), .08), .05)
    return normalise(levelled(camera(x, strength), .6)), labels
