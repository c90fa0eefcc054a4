"""Invented boats, ways to write a length, and what makes files of them."""
import csv, datetime, io, json, os, random, subprocess, sys, tempfile
import docx, openpyxl

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "sheets-office-profile")
made = []


class Boat:
    def __init__(self, seed, unit="in", kind="open", spacing="foot", feet=(11, 17), whole=False, slip=False, tick=None):
        r = self.r = random.Random(f"authored {seed}")
        self.unit, self.kind = unit, kind
        per, self.step = (1, 12) if unit == "in" else (2.54, 30)
        tick = tick or (.5 if unit == "in" else 1)

        def snap(inches):
            n = round(inches * per / tick) * tick
            return int(n) if n == int(n) else n
        length = r.randint(*feet) * 12 + (0 if whole else r.choice([1.5, 2, 3, 4.5, 5, 6, 7, 8.5, 9, 10, 11]))
        if unit == "cm" and whole:
            length = round(length * 2.54 / 30) * 30 / 2.54
        beam, deep, rise = {"open": (r.uniform(30, 37), r.uniform(11.5, 14.5), r.uniform(6, 10)),
                            "square": (r.uniform(40, 52), r.uniform(15, 19), r.uniform(4, 8)),
                            "decked": (r.uniform(21, 27), r.uniform(9.5, 12), r.uniform(4, 7))}[kind]
        bow, stern = deep + rise, deep + rise * (r.uniform(.2, .4) if kind == "square" else r.uniform(.6, 1))
        mid, p, bulge, tail = r.uniform(.46, .54), r.uniform(1.8, 2.5), r.uniform(.35, .65), r.uniform(.6, .8)

        def pair(at):
            t = at / length
            u = (t - mid) / (mid if t < mid else 1 - mid)
            w = beam * (1 - (1 - tail) * u * u if kind == "square" and u > 0 else max(1 - abs(u) ** p, .02) ** .8)
            d = deep + ((bow if u < 0 else stern) - deep) * abs(u) ** 2.7
            vee, box = (w * w + 4 * d * d) ** .5, w + 2 * d
            hull = vee + bulge * .75 * (box - vee)
            return snap(hull), max(snap(hull + w * (1.08 if kind == "decked" else 1)), snap(hull) + snap(1.5))
        self.loa, self.bow, self.stern, self.carry = snap(length), snap(bow), snap(stern), snap(r.uniform(16, 28))
        half = self.step / 2
        grid = [k * half for k in range(1, 90) if k * half < self.loa - 4 * per]
        last = max(a for a in grid if a % self.step == 0)
        keep = {"foot": lambda a: a % self.step == 0, "half": lambda a: True,
                "ends": lambda a: a % self.step == 0 or a < 2 * self.step or a > last - 2 * self.step}[spacing]
        self.rows = [(int(a), *pair(a / per)) for a in grid if keep(a)]
        most = max(self.rows, key=lambda x: (x[2], x[1]))
        at = max((most[0] / per + d for d in range(-7, 8)), key=lambda a: pair(a)[1])
        self.great = (snap(at), max(pair(at)[0], most[1]), max(pair(at)[1], most[2]))
        self.opening = self.great[2] - self.great[1]
        self.transom = pair(length) if kind == "square" else None
        if slip:
            k = r.randrange(2, len(self.rows) - 2)
            at, h, f = self.rows[k]
            how = r.choice(["ten", "foot", "swap", "twist"])
            big = 12 if unit == "in" else 30
            if how == "ten":
                f += 10 * r.choice([-1, 1]) if f - 10 > h else 10
            elif how == "foot":
                h -= big
            elif how == "swap":
                h, f = f, h
            else:
                f += r.choice([3, 4, 5]) * (1 if unit == "in" else 2)
            self.rows[k] = (at, h, f)

    def want(self, drop=(), great=False, opening=False, **other):
        v = {"length_overall": self.loa, "bow_height": self.bow, "stern_height": self.stern, "carry_point": self.carry}
        if great:
            v |= {"greatest.at": self.great[0], "greatest.hull_girth": self.great[1], "greatest.full_girth": self.great[2]}
        if opening:
            v["greatest.opening"] = self.opening
        if self.transom:
            v |= {"transom.hull_girth": self.transom[0], "transom.full_girth": self.transom[1]}
        for at, h, f in self.rows:
            v[f"hull_girth@{at:g}"], v[f"full_girth@{at:g}"] = h, f
        v |= other
        return {k: x for k, x in v.items() if k not in drop}


def two(layout, **how):
    slip = how.pop("slip", True)
    return list(enumerate([Boat(f"{layout} 0", **how), Boat(f"{layout} 1", slip=slip, **how)]))


# ways of writing
G = {.5: "½", .25: "¼", .75: "¾"}
N = {.5: "1/2", .25: "1/4", .75: "3/4"}


def parts(x):
    return int(x), x - int(x)


def fr(x):
    w, r = parts(x)
    return f"{w} {N[r]}" if r else f"{w}"


def hy(x):
    return fr(x).replace(" ", "-")


def gl(x):
    w, r = parts(x)
    return f"{w if w or not r else ''}{G.get(r, '')}"


def dec(x):
    return f"{x:g}"


def d1(x):
    return f"{x:.1f}"


def com(x):
    return f"{x:g}".replace(".", ",")


def q(x):
    return fr(x) + '"'


def gq(x):
    return gl(x) + '"'


def gc(x):
    return gl(x) + "”"


def inn(x):
    return fr(x) + " in"


def ins(x):
    return fr(x) + " inches"


def fi(x, how=fr):
    f, i = divmod(x, 12)
    return f"{int(f)}' {how(i)}\"" if i else f"{int(f)}'"


def fic(x):
    f, i = divmod(x, 12)
    return f"{int(f)}’{gl(i)}”"


def fw(x):
    f, i = divmod(x, 12)
    return f"{int(f)} ft {fr(i)} in" if i else f"{int(f)} ft"


def fl(x):
    f, i = divmod(x, 12)
    return f"{int(f)} feet {fr(i)} inches" if i else f"{int(f)} feet"


def cm(x):
    return f"{x:g} cm"


def cmc(x):
    return f"{com(x)} cm"


def m2(x):
    return f"{x / 100:.2f}".replace(".", ",") + " m"


def mm(x):
    return f"{x * 10:.0f}"


def ft(at):
    return at // 12 if at % 12 == 0 else at / 12


def halves(rows):
    n = (len(rows) + 1) // 2
    return rows[:n], rows[n:]


def put(layout, i, ext, data, unit, values, doubt=()):
    name = f"{layout}-{i + 1}.{ext}"
    open(os.path.join(HERE, name), "wb").write(data)
    values = {k: int(v) if v == int(v) else v for k, v in values.items()}
    with open(os.path.join(HERE, name + ".want.json"), "w") as f:
        json.dump({"unit": unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    made.append(name)


def sheet(title="Sheet1", rows=()):
    wb = openpyxl.Workbook()
    wb.active.title = title
    for r in rows:
        wb.active.append(list(r))
    return wb, wb.active


def add(ws, rows):
    for r in rows:
        ws.append(list(r))


def saved(wb):
    out = io.BytesIO()
    wb.save(out)
    return out.getvalue()


def lo(data, source, target):
    with tempfile.TemporaryDirectory() as d:
        p = os.path.join(d, "a." + source)
        open(p, "wb").write(data)
        o = os.path.join(d, "o")
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--convert-to", target, "--outdir", o, p], check=True, capture_output=True, timeout=180)
        return open(os.path.join(o, "a." + target.split(":")[0]), "rb").read()


def lines(rows, sep=",", nl="\r\n", **how):
    out = io.StringIO()
    csv.writer(out, delimiter=sep, lineterminator=nl, **how).writerows(rows)
    return out.getvalue()


def grid(doc, rows, style="Table Grid"):
    t = doc.add_table(rows=0, cols=max(len(r) for r in rows))
    if style:
        t.style = style
    for row in rows:
        for c, x in zip(t.add_row().cells, row):
            c.text = "" if x is None else str(x)
    return t


def run(layouts):
    for f in layouts:
        f()
    print(len(made), "files", len({n.rsplit("-", 1)[0] for n in made}), "layouts")
