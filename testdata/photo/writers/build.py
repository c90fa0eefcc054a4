"""Make the photographs of filled forms and, beside each, what is written on it.

    nice /usr/bin/python3 build.py [NAME ...]     those not there yet, or flat-03 steep-11 ...
"""
import json
import pathlib
import random
import sys

import numpy as np
from PIL import Image
from scipy import ndimage

import camera
import sheet
from hand import WRITERS, Writer

OUT = pathlib.Path("photos").resolve()
GRADES = ["flat", "ordinary", "steep"]
HANDS = list(WRITERS)
# unit, paper of the form, form for a known length, boat's feet
FORMS = [("in", "letter", True, (13, 16)), ("cm", "a4", True, (13, 17)), ("in", "letter", False, (13, 18)), ("cm", "a4", False, (13, 17)), ("in", "letter", True, (16, 18)),
         ("in", "a4", True, (12, 16)), ("cm", "letter", True, (12, 16)), ("in", "letter", True, (20, 23)), ("in", "a4", False, (13, 17)), ("cm", "letter", False, (14, 17)), ("in", "letter", True, (11, 13))]
PRINTERS = [dict(scale=1.0, toner=.96), dict(scale=.965, toner=.88), dict(scale=.99, toner=.58, banding=.06, wear=.15), dict(scale=1.02, toner=.93), dict(scale=.94, toner=.9),
            dict(scale=1.0, toner=.82, wear=.05), dict(scale=.98, toner=.66, banding=.05, wear=.1)]
NOTES = ["dog chewed the tape", "sorry for the pencil", "measured twice", "seat is out", "wind was strong", "ring me on Friday"]
TABLES = ["ply", "mat", "slate", "news", "walnut", "tile", "cream", "gingham", "bluemat", "lap", "ash", "news", "black"]
CROSSINGS = {3: "margin", 9: "above", 14: "smear", 18: "margin", 23: "margin", 27: "scribble", 31: "left", 36: "margin", 41: "scribble", 45: "margin"}
INCHES = {4: 5, 21: 2}  # the one who fills boxes with 0, where many boxes are spare
STRIKERS = ("birk", "ulf", "runa", "yorick")


def settings(grade, r, folds, n):
    """What the phone and the room were like."""
    u = r.uniform
    g = {"flat": dict(tilt=u(.5, 4), fill=u(.87, .94), bend=u(.15, .5), blur=u(.6, 1), far=0, shake=0, noise=u(.018, .03), exposure=u(.9, 1.08), uneven=u(.05, .2), vignette=u(.05, .2), shade=.4, sharpen=u(.5, 1.1), contrast=u(.4, 1.1)),
         "ordinary": dict(tilt=u(4.5, 12), fill=u(.84, .92), bend=u(.4, .9), blur=u(.9, 1.4), far=0, shake=r.choice([0, 0, 1.3, 1.9]), noise=u(.025, .045), exposure=u(.58, .88), uneven=u(.25, .5), vignette=u(.15, .4), shade=.9, sharpen=u(.5, 1.2), contrast=u(.3, 1)),
         "steep": dict(tilt=u(17, 28), fill=u(.85, .92), bend=u(.4, .95), blur=u(1.1, 1.6), far=u(1.2, 2.1), shake=r.choice([0, 1.1, 1.7]), noise=u(.04, .07), exposure=u(.27, .45), uneven=u(.3, .55), vignette=u(.25, .5), shade=.9, sharpen=u(.6, 1.3), contrast=u(.2, .8))}[grade]
    g |= dict(local=u(.1, .5), chroma=u(1.5, 4), denoise=r.choice(["guided", "guided", "soft", "none"]), table=TABLES[n * 4 % len(TABLES)], folds=folds)
    g["shadows"] = r.choice([[], ["edge"], ["phone"]]) if grade == "flat" else [("edge", "hand", "bars", "phone")[n % 4]]
    if grade != "flat" and n % 5 < 2:  # a bulb in the evening
        g["cast"] = (u(1.1, 1.22), u(.96, 1), u(.62, .76))
    else:
        warm = r.gauss(.01, .03)
        g["cast"] = (1 + warm, 1 + r.gauss(.005, .012), 1 - warm * 1.3)
    return g


def wrong(value, r):
    """A number that the owner first wrote by mistake, whole and as long as the true one."""
    v = int(value)
    for _ in range(40):
        w = v + r.choice([10, -10, 2, -2, 5, 30])
        if len(str(w)) == len(str(v)) and w > 0:
            return w
    return v + 1


def correct(kind, form, w, values, r):
    """Cross one number out and write it anew, or spoil it; its name, its boxes and whether it can be read."""
    whole = [n for n in values if values[n] == int(values[n])]
    rows = [n for n in whole if n.startswith("full_girth@") and form.parts[n]["whole"][0][3] < form.layout["height"] - 32 and (form.unit == "cm" or values[n] < 100)]
    heights = [n for n in whole if n in ("bow_height", "stern_height") and 10 <= values[n] < 100]
    tops = sorted({p["whole"][0][1] for n, p in form.parts.items() if n.startswith("full_girth@")})
    if kind == "left" and not heights or kind == "above" and len(tops) > 1 and tops[1] - tops[0] < 13.9:
        kind = "margin"
    name = r.choice(heights if kind == "left" else rows)
    boxes, text = form.parts[name]["whole"], str(int(values[name]))
    if kind == "smear":
        w.in_boxes(text, boxes)
        return name, boxes, False
    w.in_boxes(str(wrong(values[name], r)), boxes)
    x0, y0, x1, y1 = boxes[0][0], boxes[0][1], boxes[-1][2], boxes[0][3]
    if kind == "scribble":
        w.scribble(boxes)
        return name, None, False
    w.cross_out(boxes, r.choice([1, 2, 3]))
    high = 5.2 if w.height > 4.5 else 3.6
    if kind == "left":
        w.line(text, x0 - 9.8, (y0 + y1) / 2, high * .95)
    elif kind == "above":
        w.line(text, (x0 + x1) / 2 - 4, y0 - 2.5, 3.9)
    elif form.unit == "cm":
        w.line(text, x1 + 4, (y0 + y1) / 2, high)
    else:
        w.line(text, 198, (y0 + y1) / 2, high * .9)
    return name, None, True


def strike_empty(form, w, values):
    """Long strokes through rows and boxes that stay empty: they say that nothing is there."""
    empty = sorted((p["whole"][0][1], n) for n, p in form.parts.items() if "@" in n and n.startswith("hull") and n not in values and n.replace("hull", "full") not in values)
    rows = []
    for _, n in empty:
        a, b = form.parts[n]["whole"], form.parts[n.replace("hull", "full")]["whole"]
        rows.append((a[0][0], (a[0][1] + a[0][3]) / 2, b[-1][2], a[0][1], a[0][3]))
    if len(rows) > 2 and w.name in ("ulf", "runa"):  # one diagonal through them all
        w.long_stroke(rows[0][0] + 2, rows[0][3] + 1, rows[-1][2] - 2, rows[-1][4] - 1)
    else:
        for x0, y, x1, _, _ in rows:
            w.long_stroke(x0 - 1, y + w.r.gauss(0, .6), x1 + 1, y + w.r.gauss(0, .6))
    for n in ("transom.hull_girth", "transom.full_girth"):
        if n in form.parts and n not in values:
            b = form.parts[n]["whole"]
            y = (b[0][1] + b[0][3]) / 2
            w.long_stroke(b[0][0] - .5, y + w.r.gauss(.5, .5), b[-1][2] + .5, y - w.r.gauss(.5, .5))


def fill(form, boat, w, r, n):
    """Write the survey as its owner would: what stands on the page, what nobody can read, boxes to smear."""
    values = {k: v for k, v in boat.want(great=True).items() if k in form.parts and v < 1000}
    if r.random() < .15:
        values = {k: v for k, v in values.items() if not k.startswith("greatest.")}
    if r.random() < .12 and form.page == 2:
        stop = r.uniform(.6, .8) * max(row[0] for row in boat.rows)
        values = {k: v for k, v in values.items() if "@" not in k or float(k.split("@")[1]) < stop}
    for k in list(values):
        if r.random() < (0, .02, .06)[n % 3]:
            del values[k]
    crossed, smeared, readable = None, None, True
    if n in CROSSINGS:
        crossed, smeared, readable = correct(CROSSINGS[n], form, w, values, r)
    for k in sorted(values, key=lambda k: (float(k.split("@")[1]) if "@" in k else 0, k)):
        if k != crossed and not form.write(w, k, values[k]):
            del values[k]
    for tick, on in (("open", boat.kind != "decked"), ("decked", boat.kind == "decked"), ("stern.pointed", boat.kind != "square"), ("stern.square", boat.kind == "square")):
        if on and tick in form.parts and r.random() < .9:
            w.tick(form.parts[tick]["whole"][0])
    if w.name in STRIKERS:
        strike_empty(form, w, values)
    if not readable:
        del values[crossed]
    return values, [] if readable else [crossed], smeared


def smear(mask, boxes, A, b, r):
    """A wet thumb over some boxes: the ink is drawn sideways until it is only a cloud."""
    k = sheet.DPI / 25.4
    (x0, y0), (x1, y1) = ((A @ np.array(p) + b) * k for p in ((boxes[0][0] - 1, boxes[0][1] - 1), (boxes[-1][2] + 2, boxes[0][3] + 1)))
    part = mask[int(y0):int(y1), int(x0):int(x1)]
    cloud = ndimage.gaussian_filter(part, (8, 32)) * r.uniform(2, 2.5) + .3 * ndimage.gaussian_filter(part, (4, 18))
    part[:] = np.clip(cloud, 0, .75)


def paper_marks(rgb, form, A, b, size, r, rng, n):
    """A ring of coffee, or folds; one fold may run through a row of numbers."""
    rows = [p["whole"][0] for key, p in form.parts.items() if key.startswith("full_girth@")]
    middle = rows[min(len(rows) - 1, 2 + n % 7)]
    through = A @ np.array([(middle[0] + middle[2]) / 2, (middle[1] + middle[3]) / 2 + 1]) + b
    folds, mark = [], "-"
    if n % 9 == 5:
        mark = "ring"
        rgb = sheet.coffee(rgb, (through[0] - r.uniform(20, 60), through[1] + r.uniform(-12, 30)), rng, radius=r.uniform(33, 44))
    elif n % 9 == 1:
        mark, folds = "fold", [("y", through[1], r.uniform(2, 4.5))]
    elif r.random() < .4:
        folds = [("y", size[1] * t + r.gauss(0, 3), r.uniform(.8, 3)) for t in (1 / 3, 2 / 3)] if r.random() < .5 else [("x", size[0] / 2 + r.gauss(0, 2), r.uniform(.8, 3))]
    for fold in folds:
        rgb = sheet.crease(rgb, fold, rng)
    return rgb, folds, mark


def picture(n):
    """The n-th photograph: name, picture, want, and a line for the list."""
    grade, k = GRADES[n // 16], n % 16
    r, rng = random.Random(f"second forms, photo {n}"), np.random.default_rng(910000 + 7 * n)
    unit, paper, known, feet = FORMS[(n * 3 + n // 11) % len(FORMS)]
    page = 2
    if n in INCHES:
        unit, paper, known, feet = FORMS[INCHES[n]]
    if n in (10, 37):
        unit, paper, known, feet, page = ("cm", "a4", True, (25, 26), 3) if n == 10 else ("in", "letter", True, (25, 26), 3)
    boat = sheet.boats.Boat(f"form {n}", unit=unit, kind=r.choice(["open"] * 5 + ["square"] * 3 + ["decked"]), feet=feet, slip=r.random() < .3)
    layout, grey = sheet.blank(unit, paper, boat.loa if known else None, page)
    form = sheet.Form(layout, page)
    w = Writer(HANDS[(k * (7, 5, 11)[n // 16] + 3 * (n // 16)) % 16], n)
    values, doubt, smeared = fill(form, boat, w, r, n)
    how = dict(sheet=paper, skew=r.gauss(0, .4), shift=(r.gauss(0, .9), r.gauss(0, .9)), banding=.02, wear=.0) | PRINTERS[(n * 2 + n // 7) % len(PRINTERS)]
    if how["scale"] == .94:
        how["sheet"] = "letter" if paper == "a4" else "a4"
    dark, A, b = sheet.printed(grey, rng, how)
    stock = r.choice(["white", "white", "warm", "recycled", "grey"])
    mask = sheet.ink_mask(w.ink, A, b, dark.shape)
    if smeared:
        mask = mask.copy()
        smear(mask, smeared, A, b, r)
    note = n % 6 == 4
    if note:
        low = max(p["whole"][0][3] for key, p in form.parts.items() if "girth@" in key)
        y = low + 10 if low < layout["height"] - 40 else layout["height"] - 10
        mask = np.maximum(mask, sheet.note_mask(NOTES[n // 6 % len(NOTES)], (98, y), 4.2, A, b, dark.shape, sheet.NOTE_FONTS[n // 6 % 3]))
    rgb = sheet.compose(dark, sheet.paper_stock(dark.shape, rng, stock), mask, w.pen, rng)
    size = sheet.SHEETS[how["sheet"]]
    rgb, folds, mark = paper_marks(rgb, form, A, b, size, r, rng, n)
    g = settings(grade, r, folds, n)
    g["sideways"] = n in (11, 29)
    img = camera.shoot(rgb, size, rng, g)
    want = {"unit": unit, "values": {key: int(v) if v == int(v) else v for key, v in values.items()}, "doubt": doubt}
    line = f"{grade}-{k + 1:02d} {w.name} {unit} {paper} p{page} scale {how['scale']} toner {how['toner']} {stock} tilt {g['tilt']:.0f} {g['table']} {' '.join(g['shadows']) or 'clear'} {g['denoise']} {mark} {'crossed ' + CROSSINGS[n] if n in CROSSINGS else ''} {'note' if note else ''} {len(values)} numbers"
    return f"{grade}-{k + 1:02d}.jpg", img, want, line


def save(img, path, n):
    """As the phone does: JPEG of 70 to 90, some turned by a tag only."""
    exif = Image.Exif()
    if n % 12 == 9:
        img, exif[0x0112] = img.rotate(90, expand=True), 6
    for q in [(90, 84, 78, 72, 70)[n % 5], 74, 70]:
        img.save(path, quality=q, exif=exif)
        if path.stat().st_size < 4.1e6:
            return q


def main(names):
    OUT.mkdir(exist_ok=True)
    done = [] if names else [p.stem for p in OUT.glob("*.jpg")]
    for n in sorted(range(48), key=lambda n: n % 16):
        stem = f"{GRADES[n // 16]}-{n % 16 + 1:02d}"
        if stem in done or names and stem not in names:
            continue
        name, img, want, line = picture(n)
        q = save(img, OUT / name, n)
        (OUT / f"{name}.want.json").write_text(json.dumps(want, indent=1, ensure_ascii=False) + "\n")
        print(line, f"JPEG {q} {(OUT / name).stat().st_size / 1e6:.1f} MB", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
