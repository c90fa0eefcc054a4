"""Mails with a part of the numbers in the letter and the rest in a file, English and French."""
import io

import docx
import xlsxwriter
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table

from boats import cm, comma, dash, dec, feet_words, foot, inch, inches, metres, pair_of, plain
from files import DOCX, XLSX, emit, grid, laid_out, repacked, saved, sealed, separated, typed


def with_csv():
    """The girths as separated values, the rest in a sentence of the mail, centimetres."""
    for i, b in pair_of("mail-withcsv", unit="cm", slip=True):
        head = [["station_cm", "hull_girth_cm", "full_girth_cm"], ["Distance from bow (cm)", "Hull girth (cm)", "Full girth (cm)"]][i]
        rows = [head] + [list(row) for row in b.rows]
        m = typed(b.mailbox, ["girths.csv", "Survey in a csv"][i], ["Hi,", "", [f"Our {b.craft} is {b.loa} cm length overall, bow height {b.bow} cm, stern height {b.stern} cm. The carry point is {b.carry} cm from the bow. The girths are in the file.",
                  f"girths attached as csv, and here what did not fit into a table: length overall {b.loa / 100:.2f} m, bow height {b.bow / 100:.2f} m, stern height {b.stern / 100:.2f} m, carry point {b.carry / 100:.2f} m from the bow."][i], "", b.owner, b.phone])
        m.add_attachment(separated(rows, [",", ";"][i]), "text", "csv", filename=["girths.csv", "boat survey.csv"][i])
        emit("mail-withcsv", i, "eml", sealed(m), b)


def with_document():
    """A Word page that was full, and the last stations in the mail."""
    for i, b in pair_of("mail-withdocx", feet=(13, 17)):
        n = [9, 8][i]
        paper = docx.Document()
        paper.add_heading(["Canoe measurements", f"{b.craft} of {b.owner}"][i], 1)
        for label, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            paper.add_paragraph(f"{label}: {x}", style=["List Bullet", "Normal"][i])
        grid(paper, [[["Station", "Hull girth (in)", "Full girth (in)"], ["Feet from the bow", "Hull girth, inches", "Full girth, inches"]][i]] + [[f"{foot(at)} ft", [plain, dash][i](hull), [plain, dash][i](full)] for at, hull, full in b.rows[:n]])
        rest = [[f"{foot(at)} ft: hull girth {plain(hull)}, full girth {plain(full)}", f"At {foot(at)} ft hull girth {dash(hull)} in and full girth {dash(full)} in"][i] for at, hull, full in b.rows[n:]]
        m = typed(b.mailbox, "Cover", [f"Hello, the page is attached. It was full after {n} ft, so the rest of the stations is here{['', ', in inches too'][i]}:", "", *rest, "", "Regards,", b.owner])
        m.add_attachment(saved(paper), *DOCX, filename="canoe.docx")
        emit("mail-withdocx", i, "eml", sealed(m), b)


def with_book():
    """French: a workbook that works the full girth out of hull girth and opening; the lengths are in the mail."""
    for i, b in pair_of("mail-classeurfr", unit="cm", french=True):
        out = io.BytesIO()
        book = xlsxwriter.Workbook(out, {"in_memory": True})
        sheet, bold = book.add_worksheet(["Tours", "Feuille1"][i]), book.add_format({"bold": True, "border": 1})
        sheet.write(0, 0, f"{b.craft} - {b.owner}", bold)
        sheet.write_row(2, 0, [["Station (cm)", "Tour de coque (cm)", "Ouverture (cm)", "Tour complet (cm)"], ["Distance de l'étrave (cm)", "Coque : tour (cm)", "Ouverture (cm)", "Tour complet = coque + ouverture (cm)"]][i], bold)
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.write_row(3 + k, 0, [at, hull, full - hull])
            sheet.write_formula(3 + k, 3, f"=B{k + 4}+C{k + 4}", None, full)
        sheet.set_column(0, 3, 24)
        book.close()
        m = typed(b.mailbox, ["Mes mesures", f"Housse pour mon {b.craft}"][i], ["Bonjour,", "", [f"Voici le classeur avec les tours. Longueur hors tout : {b.loa} cm. Hauteur de l'étrave : {b.bow} cm. Hauteur de la poupe : {b.stern} cm. Point de portage à {b.carry} cm de l'étrave.",
                  f"les tours sont dans le classeur ci-joint. Le bateau fait {b.loa} cm hors tout ; la hauteur de l'étrave est de {b.bow} cm, celle de la poupe de {b.stern} cm, et le point de portage se trouve à {b.carry} cm de l'étrave."][i], "", ["Merci bien,", "Salutations,"][i], b.owner], cte="quoted-printable")
        m.add_attachment(repacked(out.getvalue()), *XLSX, filename=["mesures.xlsx", "relevé.xlsx"][i])
        emit("mail-classeurfr", i, "eml", sealed(m), b)


def with_print():
    """French: a print attached, and the greatest girth, found afterwards, in the mail."""
    for i, b in pair_of("mail-pdfjointfr", unit="cm", french=True, slip=True):
        styles = getSampleStyleSheet()
        ruled = [("GRID", (0, 0), (-1, -1), .5, colors.black), ("BACKGROUND", (0, 0), (-1, 0), colors.lightgrey)]
        facts = [["Longueur hors tout", metres(b.loa) if i else cm(b.loa)], ["Hauteur étrave", cm(b.bow)], ["Hauteur poupe", cm(b.stern)], ["Point de portage (de l'étrave)", cm(b.carry)]]
        girths = [[["Station", "Tour de coque", "Tour complet"], ["à partir de l'étrave", "tour de la coque", "tour complet"]][i]] + [[f"{at} cm", f"{hull} cm", f"{full} cm"] for at, hull, full in b.rows]
        sheet = laid_out([Paragraph(["Relevé", f"Relevé du {b.craft}"][i], styles["Title"]), Table(facts, style=ruled[:1], hAlign="LEFT"), Spacer(1, 12), Table(girths, style=ruled, hAlign="LEFT"), Spacer(1, 8), Paragraph(f"{b.owner}, {b.phone}", styles["Normal"])], A4)
        m = typed(b.mailbox, "Relevé pour la housse", ["Bonjour,", "", ["le relevé est en pièce jointe. J'ai cherché ensuite le plus grand tour :", "Mon relevé est joint. Il y manque le plus grand tour, que voici :"][i], f"à {b.great[0]} cm de l'étrave, tour de coque {b.great[1]} cm, tour complet {b.great[2]} cm, ouverture {b.opening} cm.", "", "Bien à vous,", b.owner], charset="iso-8859-1", cte="quoted-printable")
        m.add_attachment(sheet, "application", "pdf", filename="releve.pdf")
        emit("mail-pdfjointfr", i, "eml", sealed(m), b, b.want(great=True))


LAYOUTS = (with_csv, with_document, with_book, with_print)
