"""Mails, plain texts, web pages and PDFs."""
import html

from reportlab.lib import colors
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table

from boats import cm, comma, dec, feet, feet_french, feet_long, feet_words, foot, glyph, halves, inch, inches, metres, pair_of, plain, quote
from files import XLSX, Sheet, convert, emit, fill, laid_out, page, saved, sealed, separated, text, typed, workbook


def pairs():
    """A mail with a foot and two numbers a line, said above what they are."""
    for i, b in pair_of("mail-pairs", slip=True):
        lines = ["Hello,", "", "Here are the measurements of my canoe for the cover you are going to make.", ""]
        lines += [f"Length overall: {feet(b.loa)}", f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Carry point: {quote(b.carry)}", ""] if i == 0 else [f"Overall length is {feet_words(b.loa)}", f"Height at the bow is {quote(b.bow)}", f"Height at the stern is {quote(b.stern)}", f"Carry point is {quote(b.carry)} from the bow", ""]
        lines += [["At each foot, hull girth first and then full girth, in inches:", "Feet - hull girth / full girth (inches)"][i], ""]
        lines += [[f"{foot(at)}:  {plain(hull)}  {plain(full)}", f"{foot(at)} - {dec(hull)} / {dec(full)}"][i] for at, hull, full in b.rows]
        lines += ["", ["Nothing stays in the boat.", "The yoke stays in, nothing else."][i], "", "Best regards", b.owner, b.phone]
        if i:
            lines += ["", "On Fri, May 15, 2026 at 4:12 PM Pinfold Cover Loft <orders@pinfold.example> wrote:", "> Hello, and thank you for your order. How to measure is in the leaflet", "> attached. Please send the numbers in any form you like.", ">", "> Pinfold Cover Loft"]
        emit("mail-pairs", i, "eml", sealed(typed(b.mailbox, ["Canoe cover measurements", "Re: your instructions"][i], lines)), b)


def prose():
    """Everything in sentences."""
    for i, b in pair_of("mail-prose", feet=(11, 13)):
        def said(k, at, hull, full):
            if i:
                return f"{['At', 'Then at'][k > 0]} {foot(at)} {'foot' if at == 12 else 'feet'} the hull girth is {plain(hull)} and the full girth {plain(full)}."
            return f"At {foot(at)} ft I get {plain(hull)} inches for the hull girth and {plain(full)} inches for the full girth."
        lines = ["Dear Pinfold,", "", [f"Thank you for the instructions. My {b.craft} is {feet_long(b.loa)} long overall. The bow height is {inches(b.bow)} and the stern height is {inches(b.stern)}. The carry point is {inches(b.carry)} from the bow.", f"I have measured my {b.craft}. From tip to tip she is {feet_long(b.loa)}. The bow is {inches(b.bow)} high, the stern is {inches(b.stern)} high. We carry her by the thwart, {inches(b.carry)} from the bow."][i], ""]
        if i:
            lines += ["Now the girths, all of them in inches.", ""]
        lines += [said(k, *row) for k, row in enumerate(b.rows)]
        lines += ["", f"The greatest girth is at {feet_long(b.great[0])}, where the hull girth is {inches(b.great[1])} and the full girth {inches(b.great[2])}. The opening there is {inches(b.opening)}.", "", "Tracings of the ends go into the post tomorrow.", "", "Yours sincerely,", b.owner]
        m = page(b.mailbox, f"The {b.craft}", "".join(f"<p>{line}</p>" for line in lines if line)) if i else typed(b.mailbox, f"The {b.craft}", lines)
        emit("mail-prose", i, "eml", sealed(m), b, b.want(great=True))


def under_questions():
    """Answers typed below the shop's questions, which are quoted."""
    for i, b in pair_of("mail-underquestions"):
        rows = [[f"{foot(at)} ft: {plain(hull)} / {plain(full)}", f"{foot(at)}'   {glyph(hull)}   {glyph(full)}"][i] for at, hull, full in b.rows]
        lines = [f"Hi, answers below. {b.first}", "", "On Mon, 4 May 2026, Pinfold Cover Loft wrote:", "> Dear customer,", "> thank you for your order. Please measure your boat and answer here.", ">", "> 1. Length overall, tip to tip?", "", feet_words(b.loa), "", "> 2. Bow height?", "", inch(b.bow), "", "> 3. Stern height?", "", inch(b.stern), "",
                 "> 4. Carry point, from the foremost point?", "", inch(b.carry), "", "> 5. At every foot: hull girth, then full girth (inches)?", "", *rows, "", "> 6. Greatest girth: where, hull girth, full girth?", "", f"{feet_words(b.great[0])}, {inch(b.great[1])}, {inch(b.great[2])}", "",
                 "> 7. What stays under the cover?", "", ["Both seats.", "A cushion and the yoke."][i], "", "> Thank you!", "> Pinfold Cover Loft"]
        values = b.want(great=True)
        del values["greatest.opening"]
        emit("mail-underquestions", i, "eml", sealed(typed(b.mailbox, "Re: Measuring your boat", lines)), b, values)


def pasted_sheet():
    """Cells pasted from a spreadsheet into a mail, with the plain text that the mail program makes of them."""
    for i, b in pair_of("mail-pastedsheet"):
        names = [("Length overall", "Bow height", "Stern height", "Carry point"), ("Total length", "Height, bow", "Height, stern", "Carry thwart from bow")][i]
        rows = [[names[0], feet(b.loa), ""], [names[1], quote(b.bow), ""], [names[2], quote(b.stern), ""], [names[3], quote(b.carry), ""], ["", "", ""], [["Station (ft)", "Hull girth (in)", "Full girth (in)"], ["Feet", "Hull girth, inches", "Full girth, inches"]][i]]
        rows += [[foot(at), [plain, dec][i](hull), [plain, dec][i](full)] for at, hull, full in b.rows]
        hello, bye = ["Hi, pasted from my spreadsheet:", "Good evening, these are the numbers, copied out of my sheet."][i], [b.owner, f"Cheers, {b.first} ({b.phone})"][i]
        m = typed(b.mailbox, ["measurements", "Cover"][i], [hello, ""] + ["\t".join(map(str, row)) for row in rows] + ["", bye])
        cells = "".join("<tr style='height:15.0pt'>" + "".join(f"<td style='border:.5pt solid windowtext;padding:0 5pt;font-family:Calibri'{' align=right' if c and k > 5 else ''}>{html.escape(str(x), False) or '&nbsp;'}</td>" for c, x in enumerate(row)) + "</tr>\n" for k, row in enumerate(rows))
        m.add_alternative(f"<html><body><p>{hello}</p>\n<table style='border-collapse:collapse'><tbody>\n{cells}</tbody></table>\n<p>{bye}</p></body></html>", subtype="html")
        emit("mail-pastedsheet", i, "eml", sealed(m), b)


def attached_book():
    """A short mail, all numbers in the workbook that is attached."""
    for i, b in pair_of("mail-attachedbook", slip=True):
        book, sheet = workbook("Measurements", [["Name", b.owner], ["Boat", b.craft], []])
        facts = [["Length overall (in)" if i else "Length overall", b.loa if i else feet_words(b.loa)], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry]]
        girths = [["Station (ft)" if i else "Distance from bow (in)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at) if i else at, hull, full] for at, hull, full in b.rows]
        fill(sheet, girths + [[]] + facts if i else facts + [[]] + girths)
        m = typed(b.mailbox, ["Canoe survey attached", "My boat"][i], ["Hello,", "", [f"please find my measurements attached. If anything is odd, ring me on {b.phone} after 6 pm.", "the sheet is attached. My neighbour held the tape. We would like the cover by the end of June if you can."][i], "", "Kind regards", b.owner])
        m.add_attachment(saved(book), XLSX[0], XLSX[1], filename=["canoe survey.xlsx", f"{b.first}_boat.xlsx"][i])
        emit("mail-attachedbook", i, "eml", sealed(m), b)


def joined_french():
    """French: the four lengths in the mail, the girths in separated values attached."""
    for i, b in pair_of("mail-jointfr", unit="cm", french=True):
        rows = [["Distance de l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [list(row) for row in b.rows]
        write = [cm, metres][i]
        lines = ["Bonjour,", "", "Vous trouverez les tours dans le fichier joint. Pour le reste :", "", f"- longueur hors tout : {write(b.loa)}", f"- hauteur {['de l’étrave', 'avant'][i]} : {cm(b.bow)}", f"- hauteur {['de la poupe', 'arrière'][i]} : {cm(b.stern)}", f"- point de portage : {cm(b.carry)}", "", "Merci d'avance,", b.owner, f"Tél. {b.phone}"]
        m = typed(b.mailbox, "Mesures du canot (fichier joint)", lines)
        m.add_attachment(separated(rows, ";", ["utf-8-sig", "cp1252"][i]), "text", "csv", filename="tours.csv")
        emit("mail-jointfr", i, "eml", sealed(m), b)


def telephone_french():
    """French, short lines typed on a telephone; between two numbers in the second."""
    for i, b in pair_of("mail-telephonefr", unit="cm", french=True, feet=(11, 14)):
        k = 6
        doubt = [[], [f"full_girth@{b.rows[k][0]}"]][i]
        lines = ["Bonjour", "Voici mes mesures en cm", f"{['Longueur hors tout', 'Long. totale'][i]} {b.loa}", f"{['Hauteur étrave', 'Haut. avant'][i]} {b.bow}", f"{['Hauteur poupe', 'Haut. arrière'][i]} {b.stern}", f"Point de portage {b.carry}", ""]
        lines += [["Tour de coque / tour complet", "Distance : tour de coque, tour complet"][i]]
        lines += [[f"{at} cm : {hull} / {full}", f"{at} : {hull}, {f'{full} ou {full + 1}' if n == k else full}"][i] for n, (at, hull, full) in enumerate(b.rows)]
        lines += ["", f"Plus grand tour à {b.great[0]} cm : {b.great[1]} / {b.great[2]}"] if i == 0 else []
        lines += ["", "Merci", b.first, "", "Envoyé de mon téléphone"]
        values = b.want(doubt, great=i == 0)
        values.pop("greatest.opening", None)
        emit("mail-telephonefr", i, "eml", sealed(typed(b.mailbox, "Housse canot", lines)), b, values, doubt)


def attached_print():
    """A sheet printed to PDF and attached; the carry point, forgotten there, is in the mail."""
    for i, b in pair_of("mail-attachedpdf"):
        book, sheet = workbook("Canoe", [[f"{b.craft} - {b.owner}"], [], ["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], [], [["Station (ft)", "Hull girth (in)", "Full girth (in)"], ["Foot mark", "Tape under hull, inches", "Tape all around, inches"]][i]])
        fill(sheet, [[foot(at), [dec, plain][i](hull), [dec, plain][i](full)] for at, hull, full in b.rows])
        for name in "ABC":
            sheet.column_dimensions[name].width = 20
        m = typed(b.mailbox, "Survey", ["Hello,", "", f"survey attached. {['I forgot the carry point on it: it is', 'One thing is missing there, the carry point is'][i]} {inches(b.carry)} from the bow.", "", b.owner])
        m.add_attachment(convert(saved(book), "xlsx", "pdf"), "application", "pdf", filename="survey.pdf")
        emit("mail-attachedpdf", i, "eml", sealed(m), b)


def forwarded():
    """A wife or a son sends on what the owner wrote, in centimetres."""
    for i, b in pair_of("mail-forwarded", unit="cm"):
        lines = [["My husband's numbers, see below. His mail program would not send to you.", "Dad asked me to pass this on."][i], "", ["-------- Forwarded Message --------", "---------- Forwarded message ---------"][i], f"From: {b.mailbox}", "Date: Sat, 9 May 2026", f"Subject: {b.craft}", f"To: {['Anne', 'Joe'][i]} <{['anne', 'joe'][i]}@family.example>", "", "",
                 f"{['Length overall', 'Length over all'][i]} {b.loa} cm", f"Bow{[' height', ', height'][i]} {b.bow} cm", f"Stern{[' height', ', height'][i]} {b.stern} cm", f"Carry point {b.carry} cm{['', ' from bow'][i]}", "", "Stations every 30 cm from the bow.", ""]
        lines += [[f"{'Station':<10}{'Hull girth':<13}Full girth", "cm from bow   hull girth   full girth"][i]] + [[f"{at:<10}{hull:<13}{full}", f"{at:>11}   {hull:>10}   {full:>10}"][i] for at, hull, full in b.rows]
        lines += ["", f"Greatest girth at {b.great[0]} cm: hull girth {b.great[1]} cm, full girth {b.great[2]} cm, opening {b.opening} cm.", ""]
        emit("mail-forwarded", i, "eml", sealed(typed(f"{['Anne', 'Joe'][i]} {b.owner.split()[-1]} <{['anne', 'joe'][i]}@family.example>", f"Fwd: {b.craft}", lines)), b, b.want(great=True))


def columns():
    """A text in columns; a boat with a transom, which the second does not carry by hand."""
    for i, b in pair_of("txt-columns", kind="square", feet=(10, 14), slip=True):
        lines = [f"Boat:    {b.craft}, square stern", f"Owner:   {b.owner}", f"Phone:   {b.phone}", "", f"Length overall:  {feet(b.loa)}", f"{['Bow height:   ', 'Height at bow:'][i]}   {quote(b.bow)}", f"{['Stern height:   ', 'Height at stern:'][i]} {quote(b.stern)}", "Carry point:     none, she lives on a trailer" if i else f"Carry point:     {quote(b.carry)}", "",
                 "Station     Hull girth     Full girth     (inches)"]
        lines += [f"{str(foot(at)) + ' ft':<12}{plain(hull):<15}{plain(full)}" for at, hull, full in b.rows]
        lines += [f"{'Transom':<12}{plain(b.transom[0]):<15}{plain(b.transom[1])}", "", ["Motor comes off. Seats stay.", "Oars and one thwart stay inside."][i]]
        emit("txt-columns", i, "txt", text(lines, newline=["\r\n", "\n"][i]), b, b.want(without=["carry_point"] if i else []))


def notebook_french():
    """French text, inches, a line for every foot."""
    for i, b in pair_of("txt-carnetfr", french=True):
        lines = [f"Mesures du {b.craft} de {b.owner}", "", *([f"Longueur hors tout : {feet_french(b.loa)}", f"Hauteur de l'étrave : {plain(b.bow)} po", f"Hauteur de la poupe : {plain(b.stern)} po", f"Point de portage : {plain(b.carry)} po", ""] if i == 0 else [f"Le canot fait {feet_french(b.loa)} hors tout.", f"Étrave : {plain(b.bow)} po de haut", f"Poupe : {plain(b.stern)} po de haut", f"Point de portage à {plain(b.carry)} po de l'étrave", ""])]
        lines += [[f"{foot(at)} pi : tour de coque {plain(hull)} po, tour complet {plain(full)} po", f"À {foot(at)} pi - tour de coque : {comma(hull)} po - tour complet : {comma(full)} po"][i] for at, hull, full in b.rows]
        lines += ["", ["J'ai mesuré seul, avec un ruban de couture de 10 pieds.", "Ruban vérifié sur le bord d'une feuille, 11 po."][i]]
        emit("txt-carnetfr", i, "txt", text(lines), b)


def page_french():
    """A French sheet saved as a web page by the office program."""
    first, second = [list(pair_of("html-feuillefr", unit="cm", french=True, tick=tick)) for tick in (1, .5)]
    for i, b in (first[0], second[1]):
        book, sheet = workbook("Mesures", [["Mesures pour une housse"], [b.owner], []])
        fill(sheet, [["Longueur hors tout (cm)", comma(b.loa) if i else b.loa], ["Hauteur de l'étrave (cm)", comma(b.bow) if i else b.bow], ["Hauteur de la poupe (cm)", comma(b.stern) if i else b.stern], ["Point de portage (cm)", comma(b.carry) if i else b.carry], [], ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]])
        fill(sheet, [[at, hull if i == 0 else comma(hull), full if i == 0 else comma(full)] for at, hull, full in b.rows])
        if i:
            fill(sheet, [[], ["Plus grand tour à (cm)", b.great[0]], ["Tour de coque à cet endroit (cm)", comma(b.great[1])], ["Tour complet à cet endroit (cm)", comma(b.great[2])], ["Ouverture à cet endroit (cm)", comma(b.opening)]])
        emit("html-feuillefr", i, "html", convert(saved(book), "xlsx", "html"), b, b.want(great=bool(i)))


def printed():
    """A sheet printed to PDF by the office program, centimetres, closer stations near the ends."""
    for i, b in pair_of("pdf-sheetprint", unit="cm", ends=True):
        book, sheet = workbook("Boat", [["Boat survey"], [f"{b.owner}, {b.phone}"], ["All measurements in centimetres"], []])
        fill(sheet, [["Length overall", b.loa], [["Bow height", "Height of bow above bottom"][i], b.bow], [["Stern height", "Height of stern above bottom"][i], b.stern], [["Carry point", "Carry point from bow"][i], b.carry], [], [["Station", "Hull girth", "Full girth", "Remarks"], ["Distance from bow", "Hull girth", "Full girth", "Remarks"]][i]])
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.append([at, hull, full, [{3: "front seat"}, {2: "deck ends", 9: "yoke"}][i].get(k)])
        fill(sheet, [[], ["Greatest girth at", b.great[0]], ["hull girth", b.great[1]], ["full girth", b.great[2]], ["opening", b.opening]])
        for name, width in zip("ABCD", (28, 14, 14, 16)):
            sheet.column_dimensions[name].width = width
        sheet.print_options.gridLines = bool(i)
        emit("pdf-sheetprint", i, "pdf", convert(saved(book), "xlsx", "pdf"), b, b.want(great=True))


def filled_form():
    """A form with fields filled in; one number in the second carries a question mark."""
    for i, b in pair_of("form-measuring", feet=(11, 16)):
        doubt = [[], [f"hull_girth@{b.rows[3][0]}"]][i]
        s = Sheet()
        s.say(60, 45, "BOAT MEASURING FORM"), s.say(60, 60, "Please give girths in inches, to the nearest half inch.")
        for k, (label, name, x) in enumerate((("Name", "name", b.owner), ("Telephone", "phone", b.phone), ("Make and model", "model", b.craft), ("Length overall (ft and in)", "loa", feet(b.loa)), ("Bow height (in)", "bow", plain(b.bow)), ("Stern height (in)", "stern", plain(b.stern)), ("Carry point (in from bow)", "carry", plain(b.carry)))):
            s.say(60, 88 + 21 * k, label), s.field(name, 220, 88 + 21 * k, x, 150)
        s.say(60, 248, "Station"), s.say(130, 248, "Hull girth"), s.say(220, 248, "Full girth")
        for k in range(16):
            y = 268 + 21 * k
            row = b.rows[k] if k < len(b.rows) else None
            hull, full = map(plain, row[1:]) if row else ("", "")
            s.say(62, y, f"{k + 1} ft"), s.field(f"hull_{k + 1}", 130, y, hull + "?" * (row is not None and f"hull_girth@{row[0]}" in doubt)), s.field(f"full_{k + 1}", 220, y, full)
        s.say(330, 248, "Greatest girth")
        for k, (label, name, x) in enumerate((("at (ft and in)", "greatest_at", feet(b.great[0])), ("hull girth (in)", "greatest_hull", plain(b.great[1])), ("full girth (in)", "greatest_full", plain(b.great[2])), ("opening there (in)", "greatest_opening", plain(b.opening)))):
            s.say(330, 268 + 21 * k, label), s.field(name, 430, 268 + 21 * k, x)
        emit("form-measuring", i, "pdf", s.done(), b, b.want(doubt, great=True), doubt)


def slip_french():
    """A French page with the girths in two tables side by side."""
    for i, b in pair_of("pdf-fichefr", unit="cm", french=True, slip=True, feet=(12, 17)):
        styles = getSampleStyleSheet()
        ruled = [("GRID", (0, 0), (-1, -1), .5, colors.grey), ("BACKGROUND", (0, 0), (-1, 0), colors.whitesmoke), ("FONTSIZE", (0, 0), (-1, -1), 9)]
        head = [["Station (cm)", "Tour de coque", "Tour complet"], ["Distance (cm)", "Tour ouvert (coque)", "Tour fermé (complet)"]][i]
        facts = Table([["Longueur hors tout", cm(b.loa)], ["Hauteur de l'étrave", cm(b.bow)], ["Hauteur de la poupe", cm(b.stern)], ["Point de portage", cm(b.carry)]], style=ruled[:1], hAlign="LEFT")
        parts = [Table([head] + [list(map(str, row)) for row in rows], style=ruled) for rows in halves(b.rows)]
        girths = Table([parts], style=[("VALIGN", (0, 0), (-1, -1), "TOP")], hAlign="LEFT") if i == 0 else Table([head] + [list(map(str, row)) for row in b.rows], style=ruled, hAlign="LEFT")
        story = [Paragraph("Fiche de mesures", styles["Title"]), Paragraph(f"{b.owner}, {b.phone} - {b.craft}", styles["Normal"]), Spacer(1, 10), facts, Spacer(1, 14), Paragraph("Tours en centimètres, station par station depuis l'étrave", styles["Normal"]), Spacer(1, 6), girths]
        emit("pdf-fichefr", i, "pdf", laid_out(story, A4), b)


LAYOUTS = (pairs, prose, under_questions, pasted_sheet, attached_book, joined_french, telephone_french, attached_print, forwarded, columns, notebook_french, page_french, printed, filled_form, slip_french)
