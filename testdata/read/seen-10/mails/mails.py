"""English mails in which all the numbers are in the letter itself."""
import html
import io
import textwrap

from PIL import Image, ImageDraw

from boats import curly, dec, feet, feet_long, feet_words, foot, glyph, inch, inches, pair_of, plain, quote, spoken
from files import both, emit, flow, flowed, page, sealed, typed


def logo():
    """A small picture for the foot of a letter."""
    image = Image.new("RGB", (72, 24), "white")
    ImageDraw.Draw(image).polygon([(4, 12), (16, 18), (56, 18), (68, 12)], fill="steelblue")
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def breath():
    """One sentence without end, thumbed into a telephone. The second forgot one full girth and says so."""
    for i, b in pair_of("mail-breath"):
        gap, k = f"full_girth@{b.rows[6][0]}", 6
        if i == 0:
            girths = ", ".join(f"{foot(at)} ft {plain(hull)} and {plain(full)}" for at, hull, full in b.rows)
            lines = flowed([f"hi its {b.first.lower()} about the cover for my {b.craft}, finally got the tape out with the neighbour holding the other end, she is {feet_words(b.loa)} length overall and the bow height is {inch(b.bow)} and the stern height {inch(b.stern)} and the carry point is {inch(b.carry)} from the bow, ok now the girths every foot from the bow, hull girth first then full girth all in inches, {girths}, and the greatest girth is at {feet_words(b.great[0])} with {plain(b.great[1])} hull and {plain(b.great[2])} full, sorry for the mess im typing this in the yard, {b.first.lower()} {b.phone}"])
            emit("mail-breath", i, "eml", sealed(flow(typed(b.mailbox, "cover", lines))), b, {n: x for n, x in b.want(great=True).items() if n != "greatest.opening"})
        else:
            girths = ", ".join(f"{foot(at)}ft {dec(hull)} then " + ("i forgot to write the full one down so leave that" if n == k else dec(full)) for n, (at, hull, full) in enumerate(b.rows))
            words = f"Hello sorry to be so long about it, {b.craft} is {feet_words(b.loa)} long overall, bow height {dec(b.bow)} inches, stern height {dec(b.stern)} inches, we carry it {dec(b.carry)} inches from the bow thats the carry point, then its hull girth then full girth at each foot in inches so {girths} and thats the lot, tracings are in the post and my wife says hello, {b.first} sent from my phone"
            emit("mail-breath", i, "eml", sealed(typed(b.mailbox, "Re: your cover order", textwrap.wrap(words, 76, break_on_hyphens=False))), b, b.want(without=[gap]))


def fix_later():
    """A list with a mistake, put right further down in the same mail: the later number counts."""
    for i, b in pair_of("mail-fixlater"):
        rows, k = [list(row) for row in b.rows], 5
        at, hull, full = b.rows[k]
        stern = b.stern
        if i == 0:
            rows[k][1] = hull - 2
        else:
            stern, rows[2][2] = b.stern + 3, b.rows[2][2] + 10
        lines = [["Hi there,", "Good morning,"][i], "", [f"measured the {b.craft} today, it went quicker than I thought.", f"as promised the sizes of our {b.craft}. The motor is off, so nothing in the way."][i], "",
                 f"Length overall {feet(b.loa, glyph)}", f"Bow height {curly(b.bow)}", f"Stern height {curly(stern)}", f"Carry point {curly(b.carry)}{['', ' from the bow'][i]}", ""]
        lines += [[f"{foot(at)} ft - hull girth {glyph(hull)}, full girth {glyph(full)}", f"{foot(at)}' hull {glyph(hull)} full {glyph(full)}"][i] for at, hull, full in rows]
        at3, full3 = b.rows[2][0], b.rows[2][2]
        lines += [""] + [["All in inches.", "", b.owner, "", f"PS. Reading this over: at {foot(at)} ft I wrote {glyph(hull - 2)} for the hull girth, it should be {glyph(hull)}. My threes look like ones. The rest is right."],
                         ["Hull is the hull girth, full is the full girth, inches.", "", "Correction! I went back to the shed before sending:", f"- stern height is {curly(b.stern)}, not {curly(stern)} as I put above (the straight edge was resting on the skid)", f"- at {foot(at3)}' the full girth should be {glyph(full3)} instead of {glyph(rows[2][2])}", "Everything else I checked and it stands.", "", b.owner]][i]
        emit("mail-fixlater", i, "eml", sealed(typed(b.mailbox, ["Boat sizes", "sizes, with a correction"][i], lines, cte="base64")), b)


def dictated():
    """Said over the telephone and written down with the words around it. The second says "about" once."""
    for i, b in pair_of("mail-dictated", feet=(11, 15)):
        write, doubt = [plain, spoken][i], [[], [f"full_girth@{b.rows[4][0]}"]][i]
        who, he = [("my uncle", "he"), ("Grandmother", "she")][i]
        said = [["At {at} {ft} {hull} under the hull, {full} all the way round.", "Then at {at} {ft} it is {hull} under the hull and {full} all the way round.", "{at} {ft} back from the bow: under the hull {hull}, all the way round {full}."],
                ["\"At {at} {ft} I have {hull} under, and {full} when I close the loop.\"", "\"At {at} {ft}, wait, yes, {hull} under and {full} with the loop closed.\"", "\"Next one, {at} {ft}: {hull} under, {full} closed.\""]][i]
        lines = ["Dear Pinfold people,", "", f"{who[0].upper()}{who[1:]} has no computer and read the numbers to me over the telephone, so I write them just as {he} said them. " + ["\"Under the hull\" is the hull girth and \"all the way round\" is the full girth, in inches.", "What she calls \"under\" is the hull girth, from gunwale to gunwale under the boat, and \"closed\" or \"the loop closed\" is the full girth. Inches."][i], "",
                 [f"The boat is {feet_long(b.loa)} in length overall. The bow height is {write(b.bow)} inches, he says, and the stern height {write(b.stern)}. The carry point is {write(b.carry)} inches from the bow.", f"\"She is {feet_long(b.loa)} overall. Bow height {write(b.bow)} inches. Stern height {write(b.stern)} inches. Carry point {write(b.carry)} inches, that is where the thwart is.\""][i], ""]
        for k, (at, hull, full) in enumerate(b.rows):
            closed = f"{'about ' * (f'full_girth@{at}' in doubt)}{write(full)}"
            lines.append(said[k % 3].format(at=foot(at), ft="foot" if at == 12 else "feet", hull=write(hull), full=closed))
        lines += ["", [f"The fattest place (greatest girth) is at {feet_long(b.great[0])}: {write(b.great[1])} under the hull and {write(b.great[2])} all the way round.", "She had to stop there because the kettle was on."][i], "", "Kind regards,", f"{b.owner} (for {who})"]
        values = b.want(doubt, great=i == 0)
        values.pop("greatest.opening", None)
        emit("mail-dictated", i, "eml", sealed(flow(typed(b.mailbox, "numbers by telephone", flowed(lines)))), b, values, doubt)


def questions():
    """Answers under the shop's questions, whose example has numbers of its own."""
    for i, b in pair_of("mail-questions", slip=True):
        mine = ["", f"{''.join(n[0] for n in b.owner.split())}: "][i]
        rows = [f"{mine}{foot(at)} - {plain(hull)} / {plain(full)}" for at, hull, full in b.rows]
        lines = [["My answers are under your questions.", f"Answers inline, marked {mine.strip(': ')}."][i], "", "On 1 June 2026 Pinfold Cover Loft <orders@pinfold.example> wrote:",
                 "> Thank you for your order. You need a tape of at least 10 ft and about 20 minutes. Please answer below each question and send this letter back.", ">",
                 "> What is the length overall, in a straight line between the foremost and the aftmost point?", "", mine + feet_words(b.loa), "",
                 "> How high is the bow, and how high the stern (inches)?", "", f"{mine}bow {plain(b.bow)}, stern {plain(b.stern)}", "",
                 "> How far from the bow is your carry point?", "", mine + inches(b.carry), "",
                 "> Now the girths at every foot: foot - hull girth / full girth. An example from another boat, so you see how we like it:", "> 3 - 33 1/2 / 47", "> 4 - 36 / 54", "", *rows, "",
                 "> Where is the greatest girth, and what is the opening (rim to rim) there?", "", f"{mine}at {feet_words(b.great[0])}, hull girth {plain(b.great[1])}, full girth {plain(b.great[2])}, opening {plain(b.opening)}", "",
                 "> What stays in the boat under the cover?", "", mine + ["one seat, 8 inches below the rim", "nothing at all"][i], "", "> With thanks,", "> the Pinfold Cover Loft", "> telephone 555-0142"]
        emit("mail-questions", i, "eml", sealed(flow(typed(b.mailbox, "Re: Your boat, and what we need", flowed(lines)))), b, b.want(great=True))


def across():
    """A table laid across: a column for each foot. The second struck one number out and put another behind it."""
    for i, b in pair_of("mail-across", feet=(11, 14)):
        rows = [[["Foot", "Feet from bow"][i]] + [str(foot(row[0])) for row in b.rows], [["Hull girth (in)", "Hull girth, in."][i]] + [plain(row[1]) for row in b.rows], [["Full girth (in)", "Full girth, in."][i]] + [plain(row[2]) for row in b.rows]]
        facts = [f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Carry point: {quote(b.carry)} from the bow"]
        cells = [[html.escape(x, False) for x in row] for row in rows]
        if i:
            cells[1][4] = f"<s>{plain(b.rows[3][1] + 10)}</s> {cells[1][4]}"
        table = "<table border=1 cellspacing=0 cellpadding=3>" + "".join("<tr>" + "".join(f"<t{'dh'[not c]}>{x}</t{'dh'[not c]}>" for c, x in enumerate(row)) + "</tr>\n" for row in cells) + "</table>"
        quoted = "<blockquote style='border-left:2px solid #999;padding-left:8px'><p>On Monday Pinfold Cover Loft wrote:</p><p>A boat of 16 ft has 15 stations. A tape of 10 ft is long enough. The girths are wanted to the nearest 1/2 in.</p></blockquote>"
        body = f"<p>Hello{[',', ' again,'][i]}</p><p>{'<br>'.join(map(html.escape, facts))}</p><p>{['The girths, a column for every foot:', 'And the girths. I struck one out where I had read the wrong end of the tape.'][i]}</p>{table}<p>{b.owner}<br>{b.phone}</p>"
        if i == 0:
            m = both(b.mailbox, "Table for my cover", ["Hello,", "", *facts, "", "The girths, a column for every foot:", "", *("\t".join(row) for row in rows), "", b.owner, b.phone], body + quoted)
        else:
            m = page(b.mailbox, "Re: table", body + "<img src='cid:boat.logo'>" + quoted, cte="quoted-printable")
            m.add_related(logo(), "image", "png", cid="<boat.logo>", filename="logo.png", disposition="inline")
        emit("mail-across", i, "eml", sealed(m), b)


def bullets():
    """Bullets within bullets; the second as plain text only."""
    for i, b in pair_of("mail-bullets", slip=True):
        facts = [f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)}"]
        each = [(f"{foot(at)} ft", f"hull girth: {glyph(hull)}", f"full girth: {glyph(full)}") for at, hull, full in b.rows]
        great = (f"Greatest girth, at {feet_words(b.great[0])}", f"hull girth: {glyph(b.great[1])}", f"full girth: {glyph(b.great[2])}")
        dot, ring = [("* ", "  o "), ("\u2022 ", "    - ")][i]
        lines = [["Here goes:", f"Dear all, this is our {b.craft}, weight 64 lb, built by my brother in 1988."][i], "", *(dot + x for x in facts), dot + "Stations (girths in inches):", ""]
        lines += [mark + x for group in each + [great] for mark, x in zip((dot, ring, ring), group)]
        lines += ["", b.owner]
        body = f"<p>Here goes:</p><ul>{''.join(f'<li>{x}</li>' for x in facts)}<li>Stations (girths in inches):</li></ul><ul>" + "".join(f"<li><b>{a}</b><ul><li>{u}</li><li>{v}</li></ul></li>\n" for a, u, v in each + [great]) + f"</ul><p>{b.owner}</p>"
        m = both(b.mailbox, "measurements (bullets)", lines, body, cte="quoted-printable") if i == 0 else typed(b.mailbox, "Measurements", lines)
        values = b.want(great=True)
        del values["greatest.opening"]
        emit("mail-bullets", i, "eml", sealed(m), b, values)


def daughter():
    """A father's list, forwarded by his daughter, who measured what he left out."""
    for i, b in pair_of("mail-daughter", slip=True):
        lines = [[f"Hello, Dad sent this to me instead of you. He forgot the stern height, so I measured it tonight: the stern height is {inches(b.stern)}.", f"Please find Dad's list below. He left the carry point out: it is {inches(b.carry)} from the bow, I put the tape on it myself."][i], "", "Best, " + ["Mara", "June"][i], "", "Begin forwarded message:", "",
                 f"> From: {b.mailbox}", "> Date: 2 June 2026 at 19:04", "> Subject: canoe", f"> To: {['Mara', 'June'][i]}", ">", "> Can you send this on.", ">", f"> LENGTH OVERALL  {feet_words(b.loa)}", f"> BOW HEIGHT  {quote(b.bow)}", *([f"> CARRY POINT  {quote(b.carry)}"] if i == 0 else [f"> STERN HEIGHT  {quote(b.stern)}"]), ">",
                 ["> FT   HULL GIRTH   FULL GIRTH  (INCHES)", "> FOOT / HULL GIRTH / FULL GIRTH, ALL INCHES"][i]]
        lines += [[f"> {foot(at):<5}{plain(hull):<13}{plain(full)}", f"> {foot(at)} / {dec(hull)} / {dec(full)}"][i] for at, hull, full in b.rows]
        lines += [">", "> Dad", ">", ">> On 28 May 2026 Pinfold Cover Loft wrote:", ">> Please send the girths at every foot, hull girth and full girth,", ">> the two heights, the length and the carry point. Thank you!"]
        emit("mail-daughter", i, "eml", sealed(typed(f"{['Mara', 'June'][i]} {b.owner.split()[-1]} <{['mara', 'june'][i]}@kin.example>", "Fwd: canoe", lines)), b)


LAYOUTS = (breath, fix_later, dictated, questions, across, bullets, daughter)
