"""Photographs of filled-in forms with what is written on them: flat, ordinary and steep, twelve of each.

/usr/bin/python3 make.py FOLDER [NAME ...]    makes all, or those named, such as steep-03

Needs Go, poppler-utils, python3-numpy, python3-scipy, python3-pil and the fonts
that hands.py names.
"""
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

import numpy as np
from PIL import Image

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "read" / "lib"))
import boats
import camera
import hands

FAIRTAPE = ["go", "run", "./cmd/fairtape"]  # in the module's top folder
COUNT = 12
BACKGROUNDS = ["wood", "cloth", "tiles", "worktop", "wood"]
PEN_ORDER = ["ball blue", "ball black", "pencil", "gel", "felt", "ball blue", "ball black", "felt blue"]


def blank(boat, paper, known):
    """The page of numbers of an empty form, as a picture, and its layout."""
    with tempfile.TemporaryDirectory() as folder:
        pdf, layout = f"{folder}/form.pdf", f"{folder}/form.json"
        length = f"{boat.loa} cm" if boat.unit == "cm" else boats.feet_words(boat.loa)
        subprocess.run([*FAIRTAPE, "form", *(["--length", length] if known else []), "--unit", boat.unit, "--paper", paper, "--out", pdf, "--layout", layout], check=True, capture_output=True, cwd=HERE.parents[2])
        layout = json.load(open(layout))
        pages = {f["page"] for f in layout["fields"] if f["kind"] == "digits"}
        assert len(pages) == 1, "numbers stand on more than one page"
        page = str(pages.pop())
        subprocess.run(["pdftoppm", "-r", str(hands.DPI), "-f", page, "-l", page, "-png", "-singlefile", pdf, f"{folder}/page"], check=True)
        picture = Image.open(f"{folder}/page.png").convert("RGB")
        picture.load()
    return picture, layout


def field_of(name, boat):
    """The field's name for a value's name: hull_girth@24 is stations[1].hull_girth."""
    if "@" in name:
        kind, at = name.split("@")
        return f"stations[{int(at) // boat.step - 1}].{kind}"
    return name


class Filling:
    """Writes values into the boxes of a page and keeps account of what is written."""

    def __init__(self, writer, layout, unit, rng):
        self.writer, self.unit, self.rng = writer, unit, rng
        self.boxes = {f["name"]: f["boxes"] for f in layout["fields"]}
        self.values, self.doubt, self.rewritten = {}, [], {}

    def digits(self, field, number):
        """A whole number, right-aligned, in a field's boxes; returns those used."""
        text, boxes = str(number), self.boxes[field]
        used = boxes[-len(text):]
        assert len(used) == len(text), (field, number)
        for digit, (x0, y0, x1, y1) in zip(text, used):
            self.writer.figure(digit, (x0 + x1) / 2, (y0 + y1) / 2)
        return used

    def write(self, name, field, value):
        """A value into its boxes."""
        whole = int(value)
        if field + ".feet" in self.boxes:
            self.digits(field + ".feet", whole // 12)
            self.digits(field + ".inches", whole % 12)
        else:
            self.digits(field, whole)
        self.half(field, value)
        self.values[name] = value

    def half(self, field, value):
        if value != int(value):
            self.writer.tick(self.boxes[field + ".half"][0])

    def correct(self, name, field, value):
        """A wrong number crossed out and the right one beside or above it: in doubt."""
        whole, r = int(value), self.rng
        wrong = max(3, whole + r.choice([-10, 10, 1, -1, 3, 20]))
        used = self.digits(field, wrong)
        self.writer.strike(used[0][0] + .6, used[-1][2] - .6, (used[0][1] + used[0][3]) / 2)
        pitch = self.boxes["stations[1].hull_girth"][0][1] - self.boxes["stations[0].hull_girth"][0][1]
        small, text = self.writer.height * .58, str(whole)
        room = pitch - 9 if field.startswith("stations") else 3.0
        if field.endswith("full_girth") and field.startswith("stations") and (room < 4 or r.random() < .5):
            right = used[-1][2] + (15.2 if self.unit == "in" else 3.5)
            x, y, small = right, (used[0][1] + used[0][3]) / 2 + r.uniform(-1, .5), small * (1 if self.unit == "in" else 1.25)
        else:
            small = min(small, room - .2)
            x, y = (used[0][0] + used[-1][2]) / 2 - len(text) * small * .33 + r.uniform(0, 2), used[0][1] - room / 2
        for k, digit in enumerate(text):
            self.writer.figure(digit, x + (k + .5) * small * .72, y, height=small, calm=.25)
        self.half(field, value)
        self.doubt.append(name)
        self.rewritten[name] = value


def plan(grade, k):
    """All choices of one photograph, the same in every run."""
    g = ["flat", "ordinary", "steep"].index(grade)
    r, n = random.Random(f"photos {grade} {k}"), g * COUNT + k
    order = list(hands.HANDS)
    fonts = list(hands.FONTS)
    hand = fonts[(n // 4) % len(fonts)] if n % 4 == 3 else order[(n - n // 4) % len(order)]
    pen = PEN_ORDER[(n * 3 + n // 8) % len(PEN_ORDER)]
    if grade == "steep" and pen == "pencil" and r.random() < .5:
        pen = "ball blue"
    kind = {4: "square", 9: "decked"}.get((n * 5 + 2) % 11, "open")
    metric = k % 3 == 1
    return dict(hand=hand, pen=pen, kind=kind, unit="cm" if metric else "in", paper="a4" if metric or k == 8 else "letter",
                known=k not in (5, 10), size=r.choice(camera.SMALL if k % 5 == 4 else camera.SIZES), background=BACKGROUNDS[(n + k) % 5],
                crossed=r.choice([0, 0, 1, 1, 2]), empty=r.choice([0, 0, 0, 1, 2]), turn=[0, 0, 0, 1, 0, 0, 3, 0, 0, 2, 0, 0][(k + g) % 12],
                exif=r.choice([1, 1, 6, 8]), quality=r.randint(*{"flat": (78, 92), "ordinary": (70, 88), "steep": (60, 82)}[grade]))


def make(root, grade, k):
    """One photograph and what is written on it."""
    p, name = plan(grade, k), f"{grade}-{k + 1:02}"
    r, rng = random.Random(name), np.random.default_rng(hands.hash_of(name))
    boat = boats.Boat(f"photo {name}", unit=p["unit"], kind=p["kind"], feet=(11, 18))
    page, layout = blank(boat, p["paper"], p["known"])
    size = (layout["width"], layout["height"])
    writer = hands.Writer(p["hand"], p["pen"], size, name)
    filling = Filling(writer, layout, p["unit"], r)
    want = boat.want(great=True)
    cells = [n for n in want if "@" in n or n in ("bow_height", "stern_height", "greatest.hull_girth")]
    r.shuffle(cells)
    crossed, empty = cells[:p["crossed"]], cells[p["crossed"]:p["crossed"] + p["empty"]]
    for value_name, value in want.items():
        field = field_of(value_name, boat)
        if value_name in crossed:
            filling.correct(value_name, field, value)
        elif value_name not in empty:
            filling.write(value_name, field, value)
    for tick in ["decked" if boat.kind == "decked" else "open", "stern.square" if boat.kind == "square" else "stern.pointed"]:
        writer.tick(filling.boxes[tick][0])
    picture, notes = camera.shoot(writer.onto(page), size, hands.MM, rng, grade, p["size"], p["background"])
    picture = np.rot90(picture, p["turn"])
    exif = Image.Exif()
    if not p["turn"] and p["exif"] != 1:  # the sensor lay sideways, the tag says so
        picture = np.rot90(picture, 1 if p["exif"] == 6 else -1)
        exif[0x0112] = p["exif"]
    path = root / f"{name}.jpg"
    Image.fromarray(np.ascontiguousarray(picture)).save(path, quality=p["quality"], subsampling=2, exif=exif)
    sheet = {"unit": p["unit"], "values": filling.values, "doubt": filling.doubt}
    path.with_name(path.name + ".want.json").write_text(json.dumps(sheet, indent=1) + "\n")
    return dict(p, **notes, size=list(p["size"]), exif=exif.get(0x0112, 1), empty_cells=empty, rewritten=filling.rewritten)


def main():
    root = pathlib.Path(sys.argv[1])
    root.mkdir(exist_ok=True)
    chosen = sys.argv[2:] or [f"{g}-{k + 1:02}" for g in camera.GRADES for k in range(COUNT)]
    book = root / "manifest.json"
    done = json.loads(book.read_text()) if book.exists() else {}
    for name in chosen:
        grade, k = name.split("-")
        done[name] = make(root, grade, int(k) - 1)
        print(name, done[name], flush=True)
        book.write_text(json.dumps(dict(sorted(done.items())), indent=1) + "\n")


if __name__ == "__main__":
    main()
