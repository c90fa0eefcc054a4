"""Texts and mails as people type them who do not think of a reader."""
import random

from craft import dec, feet, feetlong, feetwords, fleet, ft, glyph, inch, inches, mark, metres, mm, plain, quote
from delimited import table
from files import emit, mail, sealed, text


def hands(seed):
    """Writes every number in another of the ways that one person may use."""
    r = random.Random("hands " + seed)
    return lambda x: r.choice([plain, dec, quote, glyph, inch])(x)


def uneven():
    """Numbers written now this way and now that."""
    for i, b in enumerate(fleet("uneven", 3)):
        write = hands(f"uneven {i}")
        lines = ["Hi,", "", "here we go:", "", f"Length overall {feet(b.loa)}", f"Bow height {write(b.bow)}", f"Stern height {write(b.stern)}", f"Carry point {write(b.carry)}", ""]
        lines += [f"{mark(at)}: hull {write(h)}, full {write(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "Canoe measurements")
        m.set_content("\n".join(lines + ["", b.person.split()[0]]))
        emit("mail-uneven", i, "eml", sealed(m), "in", b.want())


def story():
    """A story around the numbers, with numbers of its own."""
    for i, b in enumerate(fleet("story", 3)):
        lines = ["Good evening,", "", "we bought the canoe in 1987 for 450 dollars, and I have put on new gunwales twice. There are 3 of us and 2 dogs, so it took from 2 until half past 3.", "",
                 f"The length overall is {feetlong(b.loa)}. Height at the bow {inches(b.bow)}, height at the stern {inches(b.stern)}. Carry point {inches(b.carry)} from the bow.", "", "Hull girth and full girth in inches:", ""]
        lines += [f"{mark(at)}   {plain(h)}   {plain(f)}" for at, h, f in b.rows] + ["", "We leave for the lake on 20 June, so it would be good to have it by then. Is it 2 or 3 weeks usually?", "", b.person]
        m = mail(b.mailbox, "A cover for an old friend")
        m.set_content("\n".join(lines))
        emit("mail-story", i, "eml", sealed(m), "in", b.want())


def own_words():
    """Two words of one's own for the girths, explained at the top."""
    for i, b in enumerate(fleet("own-words", 2)):
        lines = ["I write U for under the hull, rim to rim (what you call hull girth), and R for right round (full girth). Inches.", "", f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", ""]
        lines += [f"{mark(at)}: U {dec(h)}, R {dec(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "U and R")
        m.set_content("\n".join(lines + ["", b.person]))
        emit("mail-ownwords", i, "eml", sealed(m), "in", b.want())


def blockquote():
    """An HTML answer above a quoted mail that holds an example."""
    for i, b in enumerate(fleet("blockquote", 2)):
        lines = [f"Length overall: {feet(b.loa)}", f"Bow height: {plain(b.bow)} in", f"Stern height: {plain(b.stern)} in", f"Carry point: {plain(b.carry)} in", ""] + [f"{mark(at)}: hull girth {plain(h)}, full girth {plain(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "Re: How to measure your boat")
        m.set_content('<div dir="ltr">' + "".join(f"<div>{x or '<br>'}</div>" for x in lines) + f'</div><br><div class="gmail_quote"><div dir="ltr" class="gmail_attr">On Thu, Apr 30, 2026 at 9:03 AM Pinfold Cover Loft wrote:<br></div><blockquote class="gmail_quote" style="margin:0 0 0 .8ex">'
                      '<div>An example:</div><div>Length overall: 15 ft 9 in</div><div>1 ft: hull girth 35 1/2, full girth 42</div><div>2 ft: hull girth 38, full girth 52</div></blockquote></div>', subtype="html")
        emit("mail-blockquote", i, "eml", sealed(m), "in", b.want())


def halved():
    """Half-foot stations near the ends, in a mail."""
    for i, b in enumerate(fleet("halved", 3, spacing="ends")):
        name = [lambda at: f"{ft(at):g} ft", mark, lambda at: f"{at // 12}½ ft" if at % 12 and at > 12 else "½ ft" if at % 12 else f"{at // 12} ft"][i]
        lines = ["Hello, at the ends I measured every half foot, as you said I could.", "", f"Length overall {feetwords(b.loa)}", f"Bow height {inch(b.bow)}", f"Stern height {inch(b.stern)}", f"Carry point {inch(b.carry)}", "", "Station: hull girth, full girth (inches)"]
        m = mail(b.mailbox, "Half feet")
        m.set_content("\n".join(lines + [f"{name(at)}: {plain(h)}, {plain(f)}" for at, h, f in b.rows] + ["", b.person]))
        emit("mail-halved", i, "eml", sealed(m), "in", b.want())


def metric():
    """English mails in metres, centimetres and millimetres."""
    for i, b in enumerate(fleet("metric", 3, unit="cm")):
        write, unit = [(metres, "metres"), (lambda x: f"{x} cm", "centimetres"), (mm, "mm")][i]
        station = [metres, lambda x: f"{x} cm", mm][i]
        lines = ["Hi, we are a metric house, so all of this is in " + unit + ".", "", f"Length overall: {write(b.loa)}", f"Bow height: {write(b.bow)}", f"Stern height: {write(b.stern)}", f"Carry point: {write(b.carry)}", "", "station, hull girth, full girth"]
        m = mail(b.mailbox, "Measurements, metric")
        m.set_content("\n".join(lines + [f"{station(at)}, {write(h)}, {write(f)}" for at, h, f in b.rows] + ["", b.person]))
        emit("mail-metric", i, "eml", sealed(m), "cm", b.want())


def square():
    """Square sterns, with a line for the transom."""
    for i, b in enumerate(fleet("square-mail", 3, kind="square", feet=(9, 14))):
        last = [f"Transom: hull girth {plain(b.transom[0])}, full girth {plain(b.transom[1])}", f"At the transom: hull {quote(b.transom[0])}, full {quote(b.transom[1])}", f"transom  hull girth {dec(b.transom[0])}  full girth {dec(b.transom[1])}"][i]
        write = [plain, quote, dec][i]
        lines = [f"Our {b.craft}, square stern, open.", "", f"Length overall {feetwords(b.loa)}", f"Bow height {write(b.bow)}", f"Stern height {write(b.stern)}", f"Carry point {write(b.carry)}", ""] + [f"{mark(at)}: hull girth {write(h)}, full girth {write(f)}" for at, h, f in b.rows] + [last]
        m = mail(b.mailbox, "Skiff")
        m.set_content("\n".join(lines + ["", b.person]))
        emit("mail-square", i, "eml", sealed(m), "in", b.want())


def pasted():
    """A file of commas pasted into the body."""
    for i, b in enumerate(fleet("pasted", 2)):
        rows = [["station ft", "hull girth in", "full girth in"]] + [[ft(at), dec(h), dec(f)] for at, h, f in b.rows]
        m = mail(b.mailbox, "csv")
        m.set_content(f"length overall {dec(b.loa)} in, bow height {dec(b.bow)} in, stern height {dec(b.stern)} in, carry point {dec(b.carry)} in\n\n" + table(rows, newline="\n") + f"\n{b.person}\n")
        emit("mail-pasted", i, "eml", sealed(m), "in", b.want())


def two_files():
    """The hull girths in one attachment, the full girths in another."""
    for i, b in enumerate(fleet("two-files", 2)):
        m = mail(b.mailbox, "Two files")
        m.set_content(f"Hello,\n\ntwo files, my wife did the full girths. Length overall {feetwords(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.\n\n{b.person}\n")
        m.add_attachment(table([["station", "hull girth (in)"]] + [[mark(at), dec(h)] for at, h, _ in b.rows]).encode(), "text", "csv", filename="hull.csv")
        m.add_attachment(table([["station", "full girth (in)"]] + [[mark(at), dec(f)] for at, _, f in b.rows]).encode(), "text", "csv", filename="full.csv")
        emit("mail-twofiles", i, "eml", sealed(m), "in", b.want())


def note():
    """A text file attached to a mail that says nothing but hello."""
    for i, b in enumerate(fleet("note", 2)):
        lines = [f"Length overall   {feetwords(b.loa)}", f"Bow height       {inch(b.bow)}", f"Stern height     {inch(b.stern)}", f"Carry point      {inch(b.carry)}", "", "Station    Hull girth    Full girth"] + [f"{mark(at):<11}{quote(h):<14}{quote(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "notes.txt")
        m.set_content("Hello, see the note.\n")
        m.add_attachment(text(lines), "text", "plain", filename="notes.txt")
        emit("mail-note", i, "eml", sealed(m), "in", b.want())


def counted():
    """A list that the mail program numbers; the number is the foot."""
    for i, b in enumerate(fleet("counted", 2)):
        m = mail(b.mailbox, "Numbered by feet")
        items = "".join(f"<li>hull girth {plain(h)}, full girth {plain(f)}</li>" for _, h, f in b.rows)
        m.set_content(f"<html><body><p>Length overall {feet(b.loa)}<br>Bow height {quote(b.bow)}<br>Stern height {quote(b.stern)}<br>Carry point {quote(b.carry)}</p><p>The number before each line is the feet from the bow:</p><ol>{items}</ol></body></html>", subtype="html")
        emit("mail-counted", i, "eml", sealed(m), "in", b.want())


def across():
    """Three long lines: stations, hull girths, full girths."""
    for i, b in enumerate(fleet("across-txt", 2, feet=(11, 13))):
        lines = [f"Length overall: {feetwords(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)}", ""]
        lines += [f"{'Feet':<12}" + "".join(f"{ft(at):>7}" for at, _, _ in b.rows), f"{'Hull girth':<12}" + "".join(f"{dec(h):>7}" for _, h, _ in b.rows), f"{'Full girth':<12}" + "".join(f"{dec(f):>7}" for _, _, f in b.rows)]
        emit("txt-across", i, "txt", text(lines), "in", b.want())


def unit_last():
    """The unit stands at the very end."""
    for i, b in enumerate(fleet("unit-last", 3, unit="cm")):
        lines = ["Boat: " + b.craft, "", f"Length overall {b.loa}", f"Bow height {b.bow}", f"Stern height {b.stern}", f"Carry point {b.carry}", "", "Station  Hull girth  Full girth"]
        lines += [f"{at:<9}{h:<12}{f}" for at, h, f in b.rows] + ["", ["Everything in centimetres.", "(all cm)", "Units: cm"][i]]
        emit("txt-unitlast", i, "txt", text(lines), "cm", b.want())


def holes():
    """Columns with gaps where a number is missing."""
    for i, b in enumerate(fleet("holes", 2)):
        lines = [f"Length overall      {feetwords(b.loa)}", f"Bow height          {plain(b.bow)} in", f"Stern height        {plain(b.stern)} in", f"Carry point         {plain(b.carry)} in", "", f"{'Station':<10}{'Hull girth':<14}{'Full girth':<14}"]
        drop = []
        for k, (at, h, f) in enumerate(b.rows):
            x, y = dec(h), dec(f)
            if k == 4:
                x, drop = "", drop + [f"hull_girth@{at}"]
            if k == 8:
                y, drop = "", drop + [f"full_girth@{at}"]
            lines.append(f"{mark(at):<10}{x:<14}{y:<14}".rstrip())
        emit("txt-holes", i, "txt", text(lines), "in", b.want(drop))


def answers():
    """What a web form sends: a question and an answer a line."""
    for i, b in enumerate(fleet("answers", 3)):
        lines = ["New entry: cover survey", "Submitted: 2 May 2026 21:14", "", f"Your name: {b.person}", f"Your phone: {b.phone}", f"Make and model: {b.craft}", f"Length overall: {feetwords(b.loa)}", f"Bow height (inches): {dec(b.bow)}", f"Stern height (inches): {dec(b.stern)}", f"Carry point (inches): {dec(b.carry)}"]
        for at, h, f in b.rows:
            lines += [f"Hull girth at {mark(at)} (inches): {dec(h)}", f"Full girth at {mark(at)} (inches): {dec(f)}"]
        lines += ["I agree to the terms: yes", "Entry number: 2048"]
        if i == 2:
            m = mail("Website <forms@pinfold.example>", "New entry: cover survey")
            m["Reply-To"] = b.mailbox
            m.set_content("\n".join(lines))
            emit("mail-entry", 0, "eml", sealed(m), "in", b.want())
        else:
            emit("txt-entry", i, "txt", text(lines), "in", b.want())


def downwards():
    """From the stern end upwards: the last station first."""
    for i, b in enumerate(fleet("downwards", 2)):
        lines = [f"LOA {feet(b.loa)}; bow height {quote(b.bow)}; stern height {quote(b.stern)}; carry point {quote(b.carry)}", "", "Feet from the bow, hull girth, full girth. I started at the back."]
        lines += [f"{ft(at)}   {quote(h)}   {quote(f)}" for at, h, f in reversed(b.rows)]
        emit("txt-downwards", i, "txt", text(lines), "in", b.want())


LAYOUTS = (uneven, story, own_words, blockquote, halved, metric, square, pasted, two_files, note, counted, across, unit_last, holes, answers, downwards)
