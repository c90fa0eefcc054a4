"""Surveys as mails."""
import html

import openpyxl

from boats import XLSX, Boat, boats, cm, dash, dec, emit, feet, feet_close, feet_words, frac, glyph, mark, message, metres, saved, sealed, station, text, ticked
from pages import nested


def whole(b):
    return f"Length overall {feet_words(b.loa)}\nBow height {mark(b.bow)}\nStern height {mark(b.stern)}\nCarry point {mark(b.carry)}\n"


def girths(b, how=frac, between="   "):
    return "\n".join(f"{at // 12} ft{between}{how(h)}{between}{how(f)}" for at, h, f in b.rows) + "\n"


def keyed(b):
    return text([f"length overall,{feet_words(b.loa)}", f"bow height,{frac(b.bow)} in", f"stern height,{frac(b.stern)} in", f"carry point,{frac(b.carry)} in",
                 "station,hull girth (in),full girth (in)"] + [f"{at // 12} ft,{dec(h)},{dec(f)}" for at, h, f in b.rows])


def sheet(b, loa=True):
    wb = openpyxl.Workbook()
    for row in [["Length overall", feet_words(b.loa)], ["Bow height", mark(b.bow)], ["Stern height", mark(b.stern)], ["Carry point", mark(b.carry)]] if loa else []:
        wb.active.append(row)
    wb.active.append(["Station", "Hull girth (in)", "Full girth (in)"])
    for at, h, f in b.rows:
        wb.active.append([f"{at // 12} ft", h, f])
    return saved(wb.save, "xlsx")


def wrap(line, width=68):
    """Soft line breaks of format=flowed: a line that goes on ends in a space."""
    out, now = [], ""
    for word in line.split(" "):
        if now and len(now) + len(word) > width:
            out.append(now + " ")
            now = word
        else:
            now = f"{now} {word}" if now else word
    return "\n".join(out + [now])


def flowed_mail():
    """format=flowed: the stations run on in one paragraph, broken anywhere."""
    for i, b in enumerate(boats("mail-flowed", 3, feet=(9, 18))):
        how = [frac, glyph, frac][i]
        run = "; ".join(f"at {station(at)} hull girth {how(h)} in, full girth {how(f)} in" for at, h, f in b.rows)
        body = "\n\n".join([wrap("Good evening, the wind dropped at last and we could measure, my neighbour held the end of the tape."),
                            wrap(f"The length overall is {feet_words(b.loa)}, the bow height is {frac(b.bow)} in, the stern height is {frac(b.stern)} in, and the carry point is {frac(b.carry)} in."),
                            wrap(f"Girths: {run}."), "Wim"])
        m = message(f"the measurements {i}")
        m.set_content(body + "\n")
        m.set_param("format", "flowed")
        emit("mail-flowed", i, "eml", sealed(m), "in", b.want())


def pasted_mail():
    """HTML only, quoted-printable or base64: coloured tables pasted out of a spreadsheet."""
    for i, b in enumerate(boats("mail-pasted", 4, feet=(8, 20))):
        how = [frac, dec, glyph, dash][i]
        m = message(f"Canoe cover {i}")
        page = (f"<html><head><style>.x1{{color:red}}</style></head><body><div dir=ltr>Hi,<div><br></div><div>pasted from my sheet:</div>{nested(b, how, i == 3)}<div><br></div>"
                "<div class=x1>Sent from my tablet, 10:42</div></div></body></html>")
        m.set_content(page, subtype="html", cte=["quoted-printable", "base64"][i % 2])
        emit("mail-pasted", i, "eml", sealed(m), "in", b.want())


def alternatives_mail():
    """The plain part says only that there is a page; the page has it all."""
    for i, b in enumerate(boats("mail-only-html", 3)):
        m = message(f"Boat numbers {i}")
        m.set_content(["Your mail program does not show web pages.\n", "[image: table]\n", "\n"][i])
        m.add_alternative(f"<html><body><h3>Numbers</h3>{nested(b, [frac, glyph, dec][i])}</body></html>", subtype="html", cte="quoted-printable")
        emit("mail-only-html", i, "eml", sealed(m), "in", b.want())


def enclosed_mail():
    """The relative's mail goes on as an attached message."""
    for i, b in enumerate(boats("mail-enclosed", 3)):
        inner = message("boat", "Fenno Marrable <fenno@marrable.example>")
        inner.set_content(f"Mum, please send this on.\n\n{whole(b)}\nstation   hull girth (in)   full girth (in)\n{girths(b, [frac, glyph, dec][i])}\nFenno\n" if i < 2 else "Mum, please send this on.\n\nFenno\n")
        if i == 2:
            inner.add_attachment(sheet(b), maintype=XLSX.split("/")[0], subtype=XLSX.split("/")[1], filename="boat.xlsx")
        m = message(f"Fwd: boat {i}")
        m.set_content("Hello, my son measured it. His mail is attached.\n\nHesper Quillon\n")
        m.add_attachment(inner)
        emit("mail-enclosed", i, "eml", sealed(m), "in", b.want())


def forwarded_mail():
    """Forwarded in the text, with a line above it."""
    for i, b in enumerate(boats("mail-forward", 3)):
        start = ["---------- Forwarded message ---------", "Begin forwarded message:", "-------- Forwarded Message --------"][i]
        gt = "> " if i == 1 else ""
        inner = f"From: Fenno Marrable <fenno@marrable.example>\nDate: Sun, 31 May 2026 at 18:20\nSubject: canoe\nTo: Hesper Quillon <hesper@quillon.example>\n\n{whole(b)}\nstation / hull girth (in) / full girth (in)\n{girths(b, dec, ' / ')}"
        body = f"Here is what my son measured, please use these.\n\nHesper\n\n{start}\n" + "\n".join((gt + line).rstrip() for line in inner.splitlines()) + "\n"
        m = message(f"Fwd: canoe {i}")
        m.set_content(body)
        emit("mail-forward", i, "eml", sealed(m), "in", b.want())


def bare_attachment_mail():
    """An attachment with no ending to its name, or with no name, of no stated kind."""
    for i, b in enumerate(boats("mail-bare", 4)):
        data = [keyed(b), sheet(b), keyed(b), sheet(b)][i]
        m = message(f"survey {i}")
        m.set_content("Attached, thanks.\n")
        m.add_attachment(data, maintype="application", subtype="octet-stream", filename=["survey", "boat measurements", None, "canoe 2026.06"][i])
        emit("mail-bare", i, "eml", sealed(m), "in", b.want())


def corrected_mail():
    """New numbers above a quotation of the customer's own earlier ones."""
    for i, b in enumerate(boats("mail-again", 4)):
        old = Boat(f"mail-again-old-{i}", feet=(10, 22))
        first = f"{whole(old)}\nstation, hull girth (in), full girth (in)\n{girths(old, dec, ', ')}"
        quote = "\n".join("> " + line for line in first.splitlines())
        lead = ["On Sat, 23 May 2026 at 09:15, Hesper Quillon <hesper@quillon.example> wrote:", "Le 23 mai 2026 à 09:15, Hesper Quillon <hesper@quillon.example> a écrit :",
                "Hesper Quillon <hesper@quillon.example> wrote on 23.05.2026 09:15:", "On 23/05/2026 09:15, Hesper Quillon wrote:"][i]
        m = message(f"Re: measurements {i}")
        m.set_content(f"Please forget the earlier mail, that was the other boat. These are right:\n\n{whole(b)}\nstation, hull girth (in), full girth (in)\n{girths(b, dec, ', ')}\nSorry!\nHesper\n\n{lead}\n{quote}\n",
                      cte="quoted-printable" if i % 2 else None)
        emit("mail-again", i, "eml", sealed(m), "in", b.want())


def inline_mail():
    """A small table attached inline between two texts."""
    for i, b in enumerate(boats("mail-inline", 3)):
        m = message(f"girths {i}")
        m.set_content(f"Hello,\n\n{whole(b)}\nthe girths are just below:\n")
        rows = text(["station;hull girth (in);full girth (in)"] + [f"{at // 12} ft;{dec(h)};{dec(f)}" for at, h, f in b.rows])
        m.add_attachment(rows, maintype="text", subtype=["csv", "plain", "csv"][i], filename=["girths.csv", "girths.txt", None][i], disposition="inline")
        m.add_attachment(b"That is all. Call 902 555 0131 before 9 pm.\n", maintype="text", subtype="plain", disposition="inline")
        emit("mail-inline", i, "eml", sealed(m), "in", b.want())


def signed_mail():
    """A signature full of numbers, with nothing to mark it as one."""
    for i, b in enumerate(boats("mail-signed", 3, "cm")):
        french = i == 1
        lead = (f"Bonjour,\n\nlongueur hors tout {metres(b.loa).replace('.', ',')}, hauteur de l'étrave {cm(b.bow)}, hauteur de la poupe {cm(b.stern)}, point de portage {cm(b.carry)}.\n\nstation (cm) : tour de coque (cm) ; tour complet (cm)\n"
                if french else f"Hello,\n\nlength overall {metres(b.loa)}, bow height {cm(b.bow)}, stern height {cm(b.stern)}, carry point {cm(b.carry)}.\n\nstation (cm): hull girth (cm); full girth (cm)\n")
        rows = "\n".join(f"{at}{' :' if french else ':'} {dec(h)} ; {dec(f)}" for at, h, f in b.rows)
        tail = "\n\nKind regards\n\nYsolde Kettrick\nKettrick & Partners, Surveyors of Land\nUnit 12, 180 Harbour Road, 4th floor\nTel 01 70 18 55 20, ext. 36\nReg. 24 108 660, VAT 30 60 90 120\nOpen 9 - 17, Sat 10 - 13\n"
        m = message(f"boat {i}")
        m.set_content(lead + rows + tail, charset=["utf-8", "iso-8859-15", "windows-1252"][i])
        emit("mail-signed", i, "eml", sealed(m), "cm", b.want())


def two_sources_mail():
    """Body and sheet each have part; in the last two the bow height stands in both and differs."""
    for i, b in enumerate(boats("mail-sources", 4)):
        clash = i >= 2
        m = message(f"canoe survey {i}")
        said = f"Bow height is {frac(b.bow + 2)} inches" if clash else "Everything about the ends is in the sheet"
        m.set_content(f"Hello,\n\nthe sheet is attached. {said}. The greatest girth is at {feet_words(b.great[0])}: hull girth {frac(b.great[1])} in, full girth {frac(b.great[2])} in, opening {frac(b.opening)} in.\n\nDorrie\n")
        m.add_attachment(sheet(b), maintype=XLSX.split("/")[0], subtype=XLSX.split("/")[1], filename="numbers.xlsx")
        doubt = ["bow_height"] if clash else []
        emit("mail-sources", i, "eml", sealed(m), "in", b.want(skip=doubt, great=True), doubt)


def running_mail():
    """Terse: station, hull girth and full girth as triples in running text."""
    for i, b in enumerate(boats("mail-terse", 3, feet=(8, 16))):
        how = [dec, glyph, dec][i]
        triples = [f"{at // 12} ft {how(h)} {how(f)}" for at, h, f in b.rows] if i < 2 else [f"{at // 12}ft={how(h)}/{how(f)}" for at, h, f in b.rows]
        lines = [", ".join(triples[k:k + 4]) for k in range(0, len(triples), 4)]
        body = (f"LOA {feet_close(b.loa)}. Bow height {frac(b.bow)} in. Stern height {frac(b.stern)} in. Carry point {frac(b.carry)} in.\n\nStation, then hull girth, then full girth, inches:\n" + ",\n".join(lines) + "\n\nFenno\n")
        m = message(f"canoe {i}")
        m.set_content(body)
        emit("mail-terse", i, "eml", sealed(m), "in", b.want())


def unsure_mail():
    """A range, an estimate, a ditto, a dotted line, a number written twice in two ways."""
    for i, b in enumerate(boats("mail-unsure", 5)):
        at, h, f = b.rows[5]
        key, bad = [("hull_girth", f"{int(h)}-{int(h) + 1}"), ("full_girth", f"about {int(f)}"), ("full_girth", "ditto"), ("hull_girth", "...."), ("full_girth", f"{int(f)}? hard to hold the tape")][i]
        rows = "\n".join(f"{ticked(a)}: hull girth {bad if a == at and key[0] == 'h' else mark(hh)}, full girth {bad if a == at and key[0] == 'f' else mark(ff)}" for a, hh, ff in b.rows)
        m = message(f"numbers {i}")
        m.set_content(f"Hi,\n\n{whole(b)}\n{rows}\n\nThanks, Wim\n")
        emit("mail-unsure", i, "eml", sealed(m), "in", b.want(skip=[f"{key}@{at}"]), [f"{key}@{at}"])


def metric_page_mail():
    """Both parts of the mail say the same; the page is in French."""
    for i, b in enumerate(boats("mail-both", 3, "cm", spacing="mixed", feet=(9, 16))):
        m = message(f"Mesures {i}", "Odalie Brissac <odalie@brissac.example>")
        boat = [("Longueur hors tout", cm(b.loa)), ("Hauteur de l'étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", cm(b.carry))]
        m.set_content("Bonjour,\n\n" + "\n".join(f"{label} : {v}" for label, v in boat) + "\n\nDistance de l'étrave, tour de coque, tour complet :\n" + "\n".join(f"- à {cm(at)} : {cm(h)} ; {cm(f)}" for at, h, f in b.rows) + "\n\nOdalie\n")
        rows = "".join(f"<tr><td>{cm(at)}</td><td>{cm(h)}</td><td>{cm(f)}</td></tr>" for at, h, f in b.rows)
        m.add_alternative("<p>Bonjour,</p><ul>" + "".join(f"<li>{html.escape(label)}&nbsp;: <b>{v}</b></li>" for label, v in boat) +
                          f"</ul><table><tr><th>Distance de l’étrave</th><th>Tour de coque</th><th>Tour complet</th></tr>{rows}</table><p>Odalie</p>", subtype="html")
        emit("mail-both", i, "eml", sealed(m), "cm", b.want())


LAYOUTS = (flowed_mail, pasted_mail, alternatives_mail, enclosed_mail, forwarded_mail, bare_attachment_mail, corrected_mail, inline_mail, signed_mail, two_sources_mail, running_mail,
           unsure_mail, metric_page_mail)
