"""Mails: typed, flowed, as web pages, answered, forwarded, with attachments."""
import html

import docx

from boats import cm, comma, curly, dash, dec, feet, feet_long, feet_words, foot, glyph, halves, inch, inches, metres, pair_of, plain, quote
from files import DOCX, emit, flowed, page, saved, sealed, text, typed


def ends(b, write=inch):
    return [f"Length overall {feet_words(b.loa)}", f"Bow height {write(b.bow)}", f"Stern height {write(b.stern)}", f"Carry point {write(b.carry)}"]


def triples():
    """An engineer: numbers in brackets, said once what they are."""
    for i, b in pair_of("mail-triples"):
        write = [dec, plain][i]
        lines = ["Good evening,", "", f"my boat: {'; '.join(ends(b)).lower()}.", "", "Girths as (station in feet, hull girth in inches, full girth in inches):", ""]
        lines += [f"({foot(at)}, {write(hull)}, {write(full)})" for at, hull, full in b.rows]
        emit("mail-triples", i, "eml", sealed(typed(b.mailbox, "Data for the cover", lines + ["", "Regards,", b.owner])), "in", b.want())


def number_first():
    """Flowed text; the number stands before its name."""
    for i, b in pair_of("mail-numberfirst"):
        lines = flowed(f"Hello! It rained until four, then we carried her onto the lawn and got everything in half an hour. She is {feet_long(b.loa)} in length overall, with a bow height of {inches(b.bow)} "
                       f"and a stern height of {inches(b.stern)}, and the carry point is {inches(b.carry)} from the bow. Now the girths, all in inches:")
        said = [lambda at, hull, full: f"- {foot(at)} ft: {plain(hull)} hull girth, {plain(full)} full girth", lambda at, hull, full: f"{foot(at)} ft from the bow: {glyph(hull)} for the hull girth, {glyph(full)} for the full girth"][i]
        m = typed(b.mailbox, "All measured", lines + [""] + [said(*row) for row in b.rows] + ["", b.first], params={"format": "flowed"})
        emit("mail-numberfirst", i, "eml", sealed(m), "in", b.want())


def answered():
    """The shop's questions quoted; all hull girths answer one of them, all full girths the next."""
    for i, b in pair_of("mail-answered"):
        between = [", ", "\n"][i]
        questions = [("What is the length overall?", feet_words(b.loa)), ("Bow height?", inch(b.bow)), ("Stern height?", inch(b.stern)), ("Carry point, from the bow?", inch(b.carry)),
                     ("The hull girth at every foot, in inches?", between.join(f"{foot(at)} ft {plain(hull)}" for at, hull, _ in b.rows)),
                     ("The full girth at every foot, in inches?", between.join(f"{foot(at)} ft {plain(full)}" for at, _, full in b.rows))]
        lines = ["Answers in between.", "", "On Sunday, 7 June 2026 at 17:40, Pinfold Cover Loft <orders@pinfold.example> wrote:", ""]
        for question, answer in questions:
            lines += [f"> {question}", answer, ""]
        m = typed(b.mailbox, "Re: Six questions about your boat", lines + ["> Thank you!", "", "You are welcome,", b.first])
        m["In-Reply-To"] = "<six-questions@pinfold.example>"
        emit("mail-answered", i, "eml", sealed(m), "in", b.want())


def spanned():
    """A table of an office program whose heading spans both girths."""
    for i, b in pair_of("mail-spanned"):
        write = [dec, curly][i]
        cell = "<td style='border:solid windowtext 1.0pt;padding:0in 5.4pt 0in 5.4pt'><p class=MsoNormal>{}</p></td>"
        rows = "".join("<tr>" + "".join(cell.format(x) for x in (f"{foot(at)} ft", write(hull), write(full))) + "</tr>" for at, hull, full in b.rows)
        head = "<tr><td rowspan=2><p class=MsoNormal>Station</p></td><td colspan=2><p class=MsoNormal align=center>Girth, inches</p></td></tr><tr>" + cell.format("Hull girth") + cell.format("Full girth") + "</tr>"
        told = "".join(f"<p class=MsoNormal>{html.escape(x, False)}<o:p></o:p></p>" for x in ["Hello,", *ends(b, quote)])
        m = page(b.mailbox, "Cover", f"<div class=WordSection1>{told}<p class=MsoNormal>&nbsp;</p><table class=MsoNormalTable border=1 cellspacing=0 cellpadding=0>{head}{rows}</table><p class=MsoNormal>{b.owner}</p></div>", cte=["quoted-printable", "base64"][i])
        emit("mail-spanned", i, "eml", sealed(m), "in", b.want())


def across():
    """A pasted table with the stations along the top, in two bands."""
    for i, b in pair_of("mail-across"):
        write = [plain, dec][i]

        def band(rows):
            lines = [["Station"] + [f"{foot(at)} ft" for at, _, _ in rows], ["Hull girth (in)"] + [write(hull) for _, hull, _ in rows], ["Full girth (in)"] + [write(full) for _, _, full in rows]]
            return "<table border=1 style=\"border-collapse:collapse\"><tbody>" + "".join("<tr>" + "".join(f"<td style=\"padding:2px 5px\">{x}</td>" for x in line) + "</tr>" for line in lines) + "</tbody></table><br>"
        told = "".join(f"<div>{x}</div>" for x in ["Hi,", "<br>", *ends(b), "<br>"])
        emit("mail-across", i, "eml", sealed(page(b.mailbox, "My canoe", f"<div dir=\"ltr\">{told}{''.join(band(rows) for rows in halves(b.rows))}<div>{b.first}</div></div>")), "in", b.want())


def forwarded_twice():
    """A grandson's mail, sent on by his mother and then by his grandfather."""
    for i, b in pair_of("mail-forwardedtwice"):
        start = [lambda who, day: ["---------- Forwarded message ---------", f"From: {who}", f"Date: {day}", "Subject: Fwd: canoe"], lambda who, day: ["-------- Forwarded Message --------", "Subject: \tFwd: canoe", f"Date: \t{day}", f"From: \t{who}"]][i]
        lines = ["Dear Sirs, the young people did the measuring. Please see the bottom.", b.owner, "", *start("Prue Lowrie <prue@lowrie.example>", "Mon, 8 Jun 2026 19:02"), "", "Dad, from Finn. xx", "", *start("Finn Lowrie <finn@lowrie.example>", "Mon, 8 Jun 2026 18:47"), "",
                 *ends(b, quote), "", "station - hull girth - full girth (in)"] + [f"{foot(at)} ft - {plain(hull)} - {plain(full)}" for at, hull, full in b.rows]
        emit("mail-forwardedtwice", i, "eml", sealed(typed(b.mailbox, "Fwd: Fwd: canoe", lines)), "in", b.want())


def french_reply():
    """A French answer above the shop's French letter with its example; half centimetres."""
    for i, b in pair_of("mail-reponse", unit="cm", tick=.5, french=True):
        lines = ["Bonjour,", "", f"Longueur hors tout : {metres(b.loa) if b.loa == int(b.loa) else cm(b.loa)}", f"Hauteur de l'étrave : {cm(b.bow)}", f"Hauteur de la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}", "", "Tour de coque et tour complet (cm) :"]
        lines += [[f"{at} cm : {comma(hull)} et {comma(full)}", f"- à {at} cm : {comma(hull)} / {comma(full)}"][i] for at, hull, full in b.rows]
        lines += ["", "Cordialement,", b.owner, "", "Le dim. 7 juin 2026 à 17:40, Pinfold Cover Loft <orders@pinfold.example> a écrit :", "> Madame, Monsieur,", "> voici un exemple :", "> Longueur hors tout : 4,80 m", "> 30 cm : 90 et 107", "> 60 cm : 96 et 132", "> Merci !"]
        emit("mail-reponse", i, "eml", sealed(typed(b.mailbox, "Re: Vos mesures", lines, charset=["utf-8", "iso-8859-15"][i], cte="quoted-printable")), "cm", b.want())


def ends_attached():
    """The girths in the body, the rest in a text file."""
    for i, b in pair_of("mail-endsattached"):
        m = typed(b.mailbox, "Girths here, the rest attached", ["Hi,", "", "hull girth and full girth at each foot, inches:", ""] + [f"{foot(at):>2} ft   {plain(hull):<8} {plain(full)}" for at, hull, full in b.rows] + ["", f"Tel. {b.phone}"])
        m.add_attachment(text(ends(b), newline="\r\n"), "text", "plain", filename=["boat.txt", "Length and heights.txt"][i])
        emit("mail-endsattached", i, "eml", sealed(m), "in", b.want())


def document():
    """The girths in a word processor's file, an advertisement beside it."""
    for i, b in pair_of("mail-document"):
        d = docx.Document()
        d.add_paragraph("Girths in inches")
        for at, hull, full in b.rows:
            d.add_paragraph([f"{foot(at)} ft: hull girth {plain(hull)}, full girth {plain(full)}", f"{foot(at)} ft\thull girth {glyph(hull)}\tfull girth {glyph(full)}"][i])
        m = typed(b.mailbox, "Re: cover", ["Good morning,", "", f"{', '.join(ends(b))}.", "The girths are in the document. The leaflet is only so that you see the sort of boat.", "", b.owner])
        m.add_attachment(saved(d), *DOCX, filename="girths.docx")
        m.add_attachment(text(["SPRING SALE", "Canoes from 12 to 17 ft, 10 percent off until 30 June"]), "text", "plain", filename="leaflet.txt")
        emit("mail-document", i, "eml", sealed(m), "in", b.want())


def side_by_side():
    """Two lists beside each other: hull girths and full girths, each with its foot."""
    for i, b in pair_of("mail-sidebyside"):
        write = [plain, dash][i]
        lines = [*ends(b), "", f"{'HULL GIRTH (in)':<24}FULL GIRTH (in)"] + [f"{f'{foot(at)} ft  {write(hull)}':<24}{foot(at)} ft  {write(full)}" for at, hull, full in b.rows]
        emit("mail-sidebyside", i, "eml", sealed(typed(b.mailbox, "girths", [["Hello.", "Good day."][i], ""] + lines + ["", b.owner])), "in", b.want())


def not_sure():
    """Honest about what they are not sure of."""
    for i, b in pair_of("mail-notsure", slip=False):
        at, hull, full = b.rows[6]
        row = [f"hull girth {plain(hull)}, full girth {int(full)} or {int(full) + 1}, the wind kept taking the tape", f"hull girth {plain(hull)}, full girth somewhere near {int(full)}"][i]
        lines = ["Hi,", "", f"length overall {feet_words(b.loa)}", f"bow height {plain(b.bow)} in", f"stern height {['roughly ' + plain(b.stern) + ' in', '??'][i]}", f"carry point {plain(b.carry)} in", "", "Girths in inches:"]
        lines += [f"{foot(a)} ft: {row}" if a == at else f"{foot(a)} ft: hull girth {plain(h)}, full girth {plain(f)}" for a, h, f in b.rows]
        doubt = [["stern_height", f"full_girth@{at}"], [f"full_girth@{at}"]][i]
        emit("mail-notsure", i, "eml", sealed(typed(b.mailbox, "most of it", lines + ["", b.first])), "in", b.want(["stern_height", f"full_girth@{at}"]), doubt)


def stopped():
    """Half a survey: the rest is to follow."""
    for i, b in pair_of("mail-stopped", slip=False, feet=(14, 17)):
        kept, later = b.rows[:8], b.rows[8:]
        lines = ["Hi,", "", f"we got as far as {foot(kept[-1][0])} ft before the light went. The rest at the weekend.", "", f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Carry point: {quote(b.carry)}", ""]
        lines += [[f"{foot(at)} ft: hull girth {quote(hull)} - full girth {quote(full)}", f"{foot(at)} ft... hull girth {quote(hull)}... full girth {quote(full)}"][i] for at, hull, full in kept]
        missing = ["stern_height"] + [f"{girth}@{at}" for at, _, _ in later for girth in ("hull_girth", "full_girth")]
        emit("mail-stopped", i, "eml", sealed(typed(b.mailbox, "First half", lines + ["", b.owner])), "in", b.want(missing))


def short():
    """Small letters on a telephone, h and f explained; a square stern."""
    for i, b in pair_of("mail-short", kind="square", feet=(10, 13)):
        lines = ["h = hull girth, f = full girth, inches", "", f"length overall {feet(b.loa)}", f"bow height {dec(b.bow)}", f"stern height {dec(b.stern)}", f"carry point {dec(b.carry)}", ""]
        lines += [[f"{foot(at)}ft h {dec(hull)} f {dec(full)}", f"{foot(at)} ft: h{dec(hull)}, f{dec(full)}"][i] for at, hull, full in b.rows] + [[f"transom h {dec(b.transom[0])} f {dec(b.transom[1])}", f"transom: h{dec(b.transom[0])}, f{dec(b.transom[1])}"][i]]
        emit("mail-short", i, "eml", sealed(typed(b.mailbox, "skiff", lines + ["", "sent from the boat shed"])), "in", b.want())


LAYOUTS = (triples, number_first, answered, spanned, across, forwarded_twice, french_reply, ends_attached, document, side_by_side, not_sure, stopped, short)
