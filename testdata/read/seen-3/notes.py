"""Plain text files: typed in an editor, or on a telephone."""
from craft import cm, comma, dec, feet, feetlong, feetwords, fleet, ft, glyph, hyphen, inch, inches, mark, metrescomma, plain, quote, tick
from files import emit, text


def listed():
    """A line for each foot, in words."""
    for i, b in enumerate(fleet("listed", 4)):
        row = [lambda at, h, f: f"{mark(at)}: hull {plain(h)}, full {plain(f)}", lambda at, h, f: f"{mark(at)} - {plain(h)} hull - {plain(f)} full",
               lambda at, h, f: f"At {mark(at)}: hull girth {inch(h)}, full girth {inch(f)}", lambda at, h, f: f"{ft(at)} foot   hull {quote(h)}   full {quote(f)}"][i]
        lines = [f"Measurements for the cover of our {b.craft}", "", f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Carry point: {quote(b.carry)} from the bow", "",
                 "Girths, every foot from the bow, in inches:", ""] + [row(*r) for r in b.rows] + ["", f"{b.person}, {b.phone}"]
        emit("txt-listed", i, "txt", text(lines), "in", b.want())


def ruled():
    """Columns under a ruled heading."""
    for i, b in enumerate(fleet("ruled", 3)):
        write = [dec, plain, lambda x: f"{x:.1f}"][i]
        lines = [f"BOAT SURVEY       {b.craft}", "=" * 40, f"{'Length overall':<20}{feetwords(b.loa)}", f"{'Bow height':<20}{write(b.bow)} in", f"{'Stern height':<20}{write(b.stern)} in", f"{'Carry point':<20}{write(b.carry)} in", "",
                 f"{'Station':<10}{'Hull girth':>12}{'Full girth':>12}", f"{'(ft)':<10}{'(in)':>12}{'(in)':>12}", "-" * 34]
        lines += [f"{ft(at):<10}{write(h):>12}{write(f):>12}" for at, h, f in b.rows]
        emit("txt-ruled", i, "txt", text(lines, newline="\r\n" if i else "\n"), "in", b.want())


def slashes():
    """hull/full behind each foot mark, said once at the top."""
    for i, b in enumerate(fleet("slashes", 3)):
        sep = ["/", " / ", " & "][i]
        lines = ["Hi, here are my numbers. For each foot mark: hull girth" + sep + "full girth, in inches.", ""]
        lines += [f"{tick(at)}  {dec(h)}{sep}{dec(f)}" for at, h, f in b.rows]
        lines += ["", f"Length overall {feet(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)} back from the bow."]
        emit("txt-slashes", i, "txt", text(lines), "in", b.want())


def paragraph():
    """Running text, the way some people tell it on the telephone."""
    for i, b in enumerate(fleet("paragraph", 2)):
        write = [plain, inches][i]
        told = "; ".join(f"at {feetlong(at)} the hull girth is {write(h)} and the full girth {write(f)}" for at, h, f in b.rows)
        body = (f"My boat is {feetlong(b.loa)} long overall. The bow height is {inches(b.bow)} and the stern height is {inches(b.stern)}. "
                f"You grip it at the carry point {inches(b.carry)} from the bow. I then measured every foot from the bow, in inches: {told}. That was the last one before the stern.")
        lines, line = [], ""
        for word in body.split():
            if len(line) + len(word) > 76:
                lines, line = lines + [line], ""
            line = f"{line} {word}".strip()
        emit("txt-paragraph", i, "txt", text(lines + [line, "", b.person]), "in", b.want())


def two():
    """All hull girths in one list, all full girths in a second."""
    for i, b in enumerate(fleet("two", 3)):
        lines = [f"Overall length  {feet(b.loa)}", f"Height of bow  {quote(b.bow)}", f"Height of stern  {quote(b.stern)}", f"Carry point  {quote(b.carry)}", ""]
        first, second = [("HULL GIRTH (inches)", "FULL GIRTH (inches)"), ("Hull girths, open at the top", "Full girths, closed loop"), ("Hull girth:", "Full girth:")][i]
        lines += [first] + [f"{mark(at)}  {plain(h)}" for at, h, _ in b.rows] + ["", second] + [f"{mark(at)}  {plain(f)}" for at, _, f in b.rows]
        emit("txt-two", i, "txt", text(lines), "in", b.want())


def series():
    """The girths one after the other, with the first and last foot said."""
    for i, b in enumerate(fleet("series", 2)):
        n = b.rows[-1][0] // 12
        lines = [f"Length overall {feetwords(b.loa)}", f"Bow height {inch(b.bow)}", f"Stern height {inch(b.stern)}", f"Carry point {inch(b.carry)}", "",
                 f"Hull girth at every foot from 1 ft to {n} ft:", ", ".join(plain(h) for _, h, _ in b.rows), f"Full girth at every foot from 1 ft to {n} ft:", ", ".join(plain(f) for _, _, f in b.rows)]
        emit("txt-series", i, "txt", text(lines), "in", b.want())


def french():
    """A French list in centimetres."""
    for i, b in enumerate(fleet("fr-list", 3, unit="cm", french=True)):
        row = [lambda at, h, f: f"À {at} cm : coque {h} cm, complet {f} cm", lambda at, h, f: f"{at} cm - tour de coque {comma(h)} - tour complet {comma(f)}", lambda at, h, f: f"{at} : {h} / {f}"][i]
        lines = ["Bonjour,", "", f"voici les mesures de mon bateau ({b.person}).", "", f"Longueur hors tout : {metrescomma(b.loa)}", f"Hauteur à l'étrave : {cm(b.bow)}", f"Hauteur à la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}", "",
                 "Tous les 30 cm depuis l'étrave" + (" (tour de coque / tour complet, en cm) :" if i == 2 else " :")] + [row(*r) for r in b.rows] + ["", "Merci !"]
        emit("txt-french", i, "txt", text(lines, "latin-1" if i == 1 else "utf-8"), "cm", b.want())


def coded():
    """H and F with the foot as a number, the code explained."""
    for i, b in enumerate(fleet("coded", 2)):
        lines = ["H = hull girth, F = full girth, the number is the foot mark, all in inches", "", f"LOA = {feet(b.loa)}", f"bow height = {dec(b.bow)}", f"stern height = {dec(b.stern)}", f"carry point = {dec(b.carry)}", ""]
        lines += [f"H{ft(at)} = {dec(h)}   F{ft(at)} = {dec(f)}" for at, h, f in b.rows]
        emit("txt-coded", i, "txt", text(lines), "in", b.want())


def chart():
    """A table with bars and dashes, as people copy it from a note program."""
    for i, b in enumerate(fleet("chart", 3)):
        write = [glyph, plain, hyphen][i]
        lines = [f"# {b.craft}", "", f"- **Length overall:** {feet(b.loa)}", f"- **Bow height:** {write(b.bow)}\"", f"- **Stern height:** {write(b.stern)}\"", f"- **Carry point:** {write(b.carry)}\"", "",
                 "| Station | Hull girth | Full girth |", "| ---: | ---: | ---: |"] + [f"| {tick(at)} | {write(h)}\" | {write(f)}\" |" for at, h, f in b.rows]
        emit("txt-chart", i, "txt", text(lines), "in", b.want())


def greatest():
    """A list with the greatest girth and the opening told after it."""
    for i, b in enumerate(fleet("greatest", 3)):
        told = [f"Greatest girth: at {feetwords(b.great[0])} from the bow, hull {plain(b.great[1])}, full {plain(b.great[2])}. Opening there {plain(b.opening)}.",
                f"Biggest girth is {feetwords(b.great[0])} from the bow: hull girth {inch(b.great[1])}, full girth {inch(b.great[2])}, opening {inch(b.opening)}",
                f"GREATEST GIRTH at {inch(b.great[0])}: hull girth {inch(b.great[1])}; full girth {inch(b.great[2])}; opening there {inch(b.opening)}"][i]
        lines = [f"length overall {feetwords(b.loa)}", f"bow height {inch(b.bow)}", f"stern height {inch(b.stern)}", f"carry point {inch(b.carry)}", "", "station, hull girth, full girth (inches)"]
        lines += [f"{mark(at)}, {plain(h)}, {plain(f)}" for at, h, f in b.rows] + ["", told]
        emit("txt-greatest", i, "txt", text(lines), "in", b.want(great=True, opening=True))


LAYOUTS = (listed, ruled, slashes, paragraph, two, series, french, coded, chart, greatest)
