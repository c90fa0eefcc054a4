"""Mails: numbers typed into the body, tables, attachments, quoted and forwarded."""
import docx
import openpyxl
from reportlab.platypus import Spacer, Table

from craft import cm, comma, dec, feet, feetcurly, feetlong, feetwords, fleet, ft, glyph, inch, inches, mark, metrescomma, plain, quote, tick
from delimited import table
from files import book, emit, letter, mail, sealed
from letters import grid
from prints import RULES, drawn

XLSX = ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet")
DOCX = ("application", "vnd.openxmlformats-officedocument.wordprocessingml.document")


def typed():
    """A short greeting and a list."""
    for i, b in enumerate(fleet("mail-typed", 4)):
        row = [lambda at, h, f: f"{mark(at)}  {plain(h)}  {plain(f)}", lambda at, h, f: f"{tick(at)} - {quote(h)} - {quote(f)}", lambda at, h, f: f"{mark(at)}: {dec(h)} / {dec(f)}", lambda at, h, f: f"{ft(at)}: hull {dec(h)}, full {dec(f)}"][i]
        head = ["(station, hull girth, full girth, in inches)", "Foot mark - hull girth - full girth", "Each line is station: hull girth / full girth, inches", "By feet from the bow, girths in inches"][i]
        lines = ["Hello,", "", f"we would like a cover for our {b.craft}. Here is what I measured yesterday.", "", f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Carry point: {quote(b.carry)}", "", head]
        lines += [row(*r) for r in b.rows] + ["", "Thanks!", b.person.split()[0]]
        m = mail(b.mailbox, "Measurements")
        m.set_content("\n".join(lines))
        emit("mail-typed", i, "eml", sealed(m), "in", b.want())


def signed():
    """Flowed text with a signature full of digits."""
    for i, b in enumerate(fleet("mail-signed", 3)):
        lines = [f"Good morning, our boat is {feetlong(b.loa)} in length overall. Bow height {inches(b.bow)}, stern height {inches(b.stern)}, and the carry point is {inches(b.carry)} from the bow.", "", "Station    Hull girth    Full girth"]
        lines += [f"{mark(at):<11}{plain(h):<14}{plain(f)}" for at, h, f in b.rows] + ["", "Regards", b.person, "", "-- ", b.person, "Unit 14, 220 Mill Street, 3rd floor", f"Tel {b.phone}   Fax {b.phone[:-2]}99", "Open 9 to 5"]
        m = mail(b.mailbox, "Boat cover, numbers as promised")
        m.set_content("\n".join(lines), cte="quoted-printable", params={"format": "flowed"} if i else {})
        emit("mail-signed", i, "eml", sealed(m), "in", b.want())


def webmail():
    """A table in an HTML mail with a plain part that says the same."""
    for i, b in enumerate(fleet("mail-webmail", 3)):
        write = [plain, quote, glyph][i]
        lines = ["Hi there,", "", f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", ""]
        m = mail(b.mailbox, "cover for " + b.craft.split(",")[0])
        m.set_content("\n".join(lines + ["Station\tHull girth (in)\tFull girth (in)"] + [f"{mark(at)}\t{write(h)}\t{write(f)}" for at, h, f in b.rows]))
        cell = '<td style="border:1px solid #ccc;padding:3px 8px">'
        rows = "".join(f"<tr>{cell}{mark(at)}</td>{cell}{write(h)}</td>{cell}{write(f)}</td></tr>" for at, h, f in b.rows)
        m.add_alternative("<html><body><div>" + "</div><div>".join(x or "<br>" for x in lines) + f"</div><table style=\"border-collapse:collapse\"><tr>{cell}Station</td>{cell}Hull girth (in)</td>{cell}Full girth (in)</td></tr>{rows}</table></body></html>", subtype="html")
        emit("mail-webmail", i, "eml", sealed(m), "in", b.want())


def markup():
    """HTML alone, a line each, non-breaking spaces."""
    for i, b in enumerate(fleet("mail-markup", 2)):
        lines = [f"Length overall&nbsp;{feetcurly(b.loa)}", f"Bow height&nbsp;{glyph(b.bow)}”", f"Stern height&nbsp;{glyph(b.stern)}”", f"Carry point&nbsp;{glyph(b.carry)}”", "<br>", "Station – hull girth – full girth (inches)"]
        lines += [f"{mark(at).replace(' ', '&nbsp;')} – {glyph(h)} – {glyph(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "My numbers")
        m.set_content('<html><head><style>p{margin:0 0 3pt 0}</style></head><body>' + "".join([f"<p>{x}</p>", f"<div><span style='font-size:11pt'>{x}</span></div>"][i] for x in lines) + f"<p>{b.person}</p></body></html>", subtype="html")
        emit("mail-markup", i, "eml", sealed(m), "in", b.want())


def workbook(b):
    wb = openpyxl.Workbook()
    for row in [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[ft(at), h, f] for at, h, f in b.rows]:
        wb.active.append(row)
    return book(wb)


def attached():
    """Girths in a workbook, the rest in the text of the mail."""
    for i, b in enumerate(fleet("mail-attached", 3)):
        m = mail(b.mailbox, "Survey attached")
        m.set_content(f"Hello,\n\nthe girths are in the attached file. The length overall is {feetwords(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.\n\nYou can reach me at {b.phone} until 8 in the evening.\n\n{b.person}\n")
        m.add_attachment(workbook(b), *XLSX, filename=["girths.xlsx", "Boat 2026.xlsx", "canoe (2).xlsx"][i])
        emit("mail-attached", i, "eml", sealed(m), "in", b.want())


def enclosed():
    """Everything in an attachment: a table file, a Word document, a PDF."""
    for i, b in enumerate(fleet("mail-enclosed", 3)):
        m = mail(b.mailbox, "Canoe")
        m.set_content(["Please find attached.\n", "As attached. We measured it twice, on the 25th and the 26th.\n", "Numbers attached, call me on " + b.phone + " with questions.\n"][i])
        head = [["Length overall", feetwords(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]]
        rows = [["Station", "Hull girth (in)", "Full girth (in)"]] + [[mark(at), plain(h), plain(f)] for at, h, f in b.rows]
        if i == 0:
            m.add_attachment(table(head + [[]] + rows).encode(), "text", "csv", filename="boat.csv")
        elif i == 1:
            doc = docx.Document()
            grid(doc, head)
            doc.add_paragraph("")
            grid(doc, rows)
            m.add_attachment(letter(doc), *DOCX, filename="boat.docx")
        else:
            m.add_attachment(drawn([Table(head, style=RULES), Spacer(1, 12), Table(rows, style=RULES)]), "application", "pdf", filename="boat.pdf")
        emit("mail-enclosed", i, "eml", sealed(m), "in", b.want())


def forwarded():
    """Numbers that somebody of the house measured, sent on by another."""
    for i, b in enumerate(fleet("mail-forwarded", 3)):
        start = [["---------- Forwarded message ---------", f"From: {b.person} <{b.address}>", "Date: Fri, May 1, 2026 at 7:12 PM", "Subject: canoe numbers", "To: Lena Ferriby <lena@ferriby.example>"],
                 ["-----Original Message-----", f"From: {b.person}", "Sent: Friday, 1 May 2026 19:12", "To: Lena Ferriby", "Subject: canoe numbers"],
                 ["Begin forwarded message:", "", f"From: {b.person} <{b.address}>", "Subject: canoe numbers", "Date: 1 May 2026 at 19:12:40 ADT", "To: Lena Ferriby <lena@ferriby.example>"]][i]
        lines = ["See below, the boat is measured at last.", "Lena", ""] + start + ["", f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", "", "Station, hull girth, full girth (inches):"]
        lines += [f"{mark(at)}, {plain(h)}, {plain(f)}" for at, h, f in b.rows]
        m = mail("Lena Ferriby <lena@ferriby.example>", "Fwd: canoe numbers")
        m.set_content("\n".join(lines))
        emit("mail-forwarded", i, "eml", sealed(m), "in", b.want())


def quoted():
    """An answer above the shop's mail, which has examples of its own."""
    for i, b in enumerate(fleet("mail-quoted", 3)):
        lines = ["Thank you, here they are, all in inches.", "", f"length overall {feetwords(b.loa)}", f"bow height {plain(b.bow)}", f"stern height {plain(b.stern)}", f"carry point {plain(b.carry)}", ""]
        lines += [f"{mark(at)}: hull girth {plain(h)}, full girth {plain(f)}" for at, h, f in b.rows]
        lines += ["", b.person, "", "On Thu, Apr 30, 2026 at 9:03 AM Pinfold Cover Loft <orders@pinfold.example> wrote:", "", "> Dear customer,", ">", "> please measure your boat at every foot. An example:", ">", "> length overall 15 ft 9 in", "> 1 ft: hull girth 35 1/2, full girth 42",
                  "> 2 ft: hull girth 38, full girth 52", ">", "> It takes about 20 minutes. Pinfold Cover Loft, 4 Mill Lane"]
        m = mail(b.mailbox, "Re: How to measure your boat")
        m["In-Reply-To"] = "<how-to@pinfold.example>"
        m.set_content("\n".join(lines), cte="quoted-printable" if i else None)
        emit("mail-quoted", i, "eml", sealed(m), "in", b.want())


def between():
    """Answers typed between the shop's questions, which are quoted."""
    for i, b in enumerate(fleet("mail-between", 2)):
        lines = ["Hi, answers below.", "", "On 30 Apr 2026, at 09:03, Pinfold Cover Loft <orders@pinfold.example> wrote:", ""]
        for question, answer in [("What is the length overall?", feetwords(b.loa)), ("What is the bow height?", inches(b.bow)), ("What is the stern height?", inches(b.stern)), ("How far from the bow is the carry point?", inches(b.carry))]:
            lines += [f"> {question}", "", answer, ""]
        lines += ["> Hull girth and full girth at every foot, in inches?", "", "Station  Hull  Full"] + [f"{mark(at):<9}{plain(h):<6} {plain(f)}" for at, h, f in b.rows] + ["", "> We answer within 2 days.", "", "Great.", b.person]
        m = mail(b.mailbox, "Re: Your boat")
        m.set_content("\n".join(lines))
        emit("mail-between", i, "eml", sealed(m), "in", b.want())


def french():
    """French mails, in centimetres and in inches."""
    for i in range(3):
        b = fleet("mail-fr", 3, unit=["cm", "cm", "in"][i], french=True)[i]
        unit, write = (["cm", "cm", "po"][i], [dec, comma, plain][i])
        long = [metrescomma, cm, lambda x: f"{int(x // 12)} pi {plain(x % 12)} po"][i](b.loa)
        station = [lambda at: f"{at} cm", lambda at: f"{at} cm", lambda at: f"{at // 12} pi"][i]
        lines = ["Bonjour,", "", f"voici les mesures de notre canot, prises le 2 mai.", "", f"Longueur hors tout : {long}", f"Hauteur de l'étrave : {write(b.bow)} {unit}", f"Hauteur de la poupe : {write(b.stern)} {unit}", f"Point de portage : {write(b.carry)} {unit}", "",
                 f"Station - tour de coque - tour complet (en {['centimètres', 'centimètres', 'pouces'][i]})"] + [f"{station(at)} - {write(h)} - {write(f)}" for at, h, f in b.rows] + ["", "Cordialement,", b.person, f"Tél. {b.phone}"]
        m = mail(b.mailbox, "Housse pour canot")
        m.set_content("\n".join(lines), charset="iso-8859-1" if i == 1 else "utf-8")
        emit("mail-french", i, "eml", sealed(m), b.unit, b.want())


def sentences():
    """Everything told in sentences."""
    for i, b in enumerate(fleet("mail-told", 2, feet=(11, 13))):
        lines = [f"Hi. The canoe is {feetlong(b.loa)} overall. Bow height is {inches(b.bow)}, stern height is {inches(b.stern)}. The carry point is {inches(b.carry)} back from the bow.", ""]
        lines += [[f"At {feetlong(at)} I get {inches(h)} for the hull girth and {inches(f)} for the full girth.", f"{mark(at).capitalize()} from the bow the hull girth is {plain(h)} and the full girth is {plain(f)}."][i] for at, h, f in b.rows] + ["", "That's all of it.", b.person]
        m = mail(b.mailbox, "measured it")
        m.set_content("\n".join(lines))
        emit("mail-told", i, "eml", sealed(m), "in", b.want())


def phone():
    """Thumb-typed on a telephone."""
    for i, b in enumerate(fleet("mail-phone", 3)):
        lines = [f"length overall {feet(b.loa)}", f"bow height {dec(b.bow)}", f"stern height {dec(b.stern)}", f"carry point {dec(b.carry)}", ""] + [["hull girth then full girth", "ft / hull girth / full girth", "hull girth x full girth"][i]]
        lines += [[f"{ft(at)}ft {dec(h)} {dec(f)}", f"{ft(at)} / {dec(h)} / {dec(f)}", f"{ft(at)}’ {dec(h)} x {dec(f)}"][i] for at, h, f in b.rows] + ["", ["Sent from my phone", "Get the mail app for phones", "Sent from a pocket, excuse typos"][i]]
        m = mail(b.mailbox, ["Canoe", "numbers", "(no subject)"][i])
        m.set_content("\n".join(lines))
        emit("mail-phone", i, "eml", sealed(m), "in", b.want())


def disagree():
    """One number in the body is not the one in the attachment."""
    for i, b in enumerate(fleet("mail-disagree", 2)):
        at, h, f = b.rows[4]
        m = mail(b.mailbox, "Survey, file and text")
        said = [f"the hull girth at {mark(at)} is {plain(h - 4)}", f"at {mark(at)} the full girth is {plain(f + 5)}"][i]
        m.set_content(f"Hello,\n\nattached are the girths. Length overall {feetwords(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.\n\nFor the record, in inches, {said}.\n\n{b.person}\n")
        m.add_attachment(workbook(b), *XLSX, filename="girths.xlsx")
        doubt = [[f"hull_girth@{at}"], [f"full_girth@{at}"]][i]
        emit("mail-disagree", i, "eml", sealed(m), "in", b.want(doubt), doubt)


def postscript():
    """A correction in a postscript: the later word holds."""
    for i, b in enumerate(fleet("mail-postscript", 2)):
        k = 5
        at, h, f = b.rows[k]
        lines = ["Hello, all in inches:", "", f"length overall {feetwords(b.loa)}", f"bow height {plain(b.bow)}", f"stern height {plain(b.stern)}", f"carry point {plain(b.carry)}", "", "station: hull girth, full girth"]
        lines += [f"{mark(a)}: {plain(x - 3 if a == at and i == 0 else x)}, {plain(y + 6 if a == at and i == 1 else y)}" for a, x, y in b.rows]
        lines += ["", b.person, "", [f"PS: the hull girth at {mark(at)} is wrong above, it should be {plain(h)}.", f"PS: please correct the full girth at {mark(at)}: it is {plain(f)}, not {plain(f + 6)}."][i]]
        m = mail(b.mailbox, "Boat")
        m.set_content("\n".join(lines))
        emit("mail-postscript", i, "eml", sealed(m), "in", b.want())


def unsure():
    """Guesses and ranges among good numbers."""
    for i, b in enumerate(fleet("mail-guesses", 3)):
        lines = ["Hi, inches everywhere.", "", f"length overall {feetwords(b.loa)}", f"bow height {plain(b.bow)}", f"stern height {['about ' + plain(b.stern), f'{int(b.stern)} or {int(b.stern) + 1}', plain(b.stern) + '?'][i]}", f"carry point {plain(b.carry)}", "", "station, hull girth, full girth"]
        doubt = ["stern_height"]
        for k, (at, h, f) in enumerate(b.rows):
            said = plain(f)
            if k == 6:
                said = [f"{int(f)}-{int(f) + 1}", "same", f"roughly {int(f)}"][i]
                doubt.append(f"full_girth@{at}")
            lines.append(f"{mark(at)}, {plain(h)}, {said}")
        m = mail(b.mailbox, "cover")
        m.set_content("\n".join(lines + ["", b.person]))
        emit("mail-guesses", i, "eml", sealed(m), "in", b.want(doubt), doubt)


def ordered():
    """Numbered lines of which the number is not the foot: heights first."""
    for i, b in enumerate(fleet("mail-ordered", 2)):
        told = [f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Carry point: {quote(b.carry)}"] + [f"At {mark(at)}: hull girth {quote(h)}, full girth {quote(f)}" for at, h, f in b.rows]
        m = mail(b.mailbox, "Re: measurements")
        m.set_content("\n".join(["As asked:", ""] + [f"{k + 1}{'.)'[i]} {x}" for k, x in enumerate(told)] + ["", b.person]))
        emit("mail-ordered", i, "eml", sealed(m), "in", b.want())


LAYOUTS = (typed, signed, webmail, markup, attached, enclosed, forwarded, quoted, between, french, sentences, phone, disagree, postscript, unsure, ordered)
