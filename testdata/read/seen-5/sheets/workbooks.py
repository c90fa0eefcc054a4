"""Surveys as workbooks, made with openpyxl; some go through LibreOffice."""
import datetime

import openpyxl
from openpyxl.styles import Alignment, Font, PatternFill

from boats import Boat, cm, comma, dec, feet, feet_words, foot, inch, metres, pair_of, plain, quote
from files import book, convert, emit


def sheet(title, rows=()):
    workbook = openpyxl.Workbook()
    workbook.active.title = title
    fill(workbook.active, rows)
    return workbook, workbook.active


def fill(ws, rows):
    for row in rows:
        ws.append(list(row))


def head(b, write):
    return [["Length overall", feet_words(b.loa)], ["Bow height", write(b.bow)], ["Stern height", write(b.stern)], ["Carry point", write(b.carry)]]


def bilingual():
    """Every label in English and in French."""
    for i, b in pair_of("bilingual", unit="cm"):
        workbook, ws = sheet("Canoe - Canot", [
            ["Boat survey / Relevé de l'embarcation"], ["Owner / Propriétaire", b.owner], ["Length overall / Longueur hors tout", b.loa, "cm"], ["Bow height / Hauteur de l'étrave", b.bow, "cm"],
            ["Stern height / Hauteur de la poupe", b.stern, "cm"], ["Carry point / Point de portage", b.carry, "cm"], [],
            ["Distance from bow / Distance de l'étrave (cm)", "Hull girth / Tour de coque (cm)", "Full girth / Tour complet (cm)"]])
        if i == 1:
            ws.delete_rows(8)
            fill(ws, [["Distance from bow (cm)", "Hull girth (cm)", "Full girth (cm)"], ["Distance de l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)"]])
        fill(ws, b.rows)
        emit("xlsx-bilingual", i, "xlsx", book(workbook), "cm", b.want())


def job_card():
    """A yard's job card: hours and prices above and below the girths."""
    for i, b in pair_of("job card"):
        workbook, ws = sheet("Job 318", [
            ["JOB CARD", None, "No.", 318 + i], ["Customer", b.owner, "Taken in", datetime.date(2026, 5, 4 + i)], ["Boat", b.craft, "Rack", "B 14"], [],
            ["Work", "Hours", "Rate", "Sum"], ["Re-cane 2 seats", 6, 38, 228], ["Varnish rails", 4.5, 38, 171], [],
            ["For the cover:"], ["Length overall, in", b.loa], ["Bow height, in", b.bow], ["Stern height, in", b.stern], ["Carry point, in from bow", b.carry], [],
            ["Station, ft", "Hull girth, in", "Full girth, in", "Initials"]])
        fill(ws, [[foot(at), hull, full, "EP"] for at, hull, full in b.rows])
        fill(ws, [[], ["Materials", "Quantity", "Each", "Sum"], ["Cane, hank", 2, 21.5, 43], ["Varnish, tin", 1, 36, 36], ["Total due", None, None, 478]])
        emit("xlsx-jobcard", i, "xlsx", book(workbook), "in", b.want())


def codes():
    """H1 and F1 for the girths at 1 ft, explained in a line above."""
    for i, b in pair_of("codes"):
        said = ["H3 is the hull girth at 3 ft from the bow, F3 the full girth at 3 ft, and so on. All in inches.", "H = hull girth, F = full girth, the number is feet from the bow. Inches."][i]
        workbook, ws = sheet("Codes", [[said], []] + head(b, inch) + [[]])
        for at, hull, full in b.rows:
            row = [f"H{foot(at)}", hull, None, f"F{foot(at)}", full]
            fill(ws, [row] if i == 0 else [row[:2], row[3:]])
        emit("xlsx-codes", i, "xlsx", book(workbook), "in", b.want())


def both_ends():
    """The distance of every station from either end."""
    for i, b in pair_of("both ends"):
        workbook, ws = sheet("Survey", head(b, quote) + [[], [["From stern", "From bow"][i], ["From bow", "From stern"][i], "Hull girth (in)", "Full girth (in)"]])
        for at, hull, full in b.rows:
            ends = [feet(b.loa - at), feet(at)]
            ws.append((ends if i == 0 else ends[::-1]) + [hull, full])
        emit("xlsx-bothends", i, "xlsx", book(workbook), "in", b.want())


def kayak():
    """A decked boat with half-foot stations at its ends, and what is on the deck there."""
    for i, b in pair_of("kayak", kind="decked", ends=True, feet=(13, 17)):
        middle = len(b.rows) // 2
        on_deck = {3: "toggle, 2 screws", middle - 1: "front of cockpit", middle + 1: "back of cockpit", len(b.rows) - 4: "hatch, 9 in across"}
        workbook, ws = sheet("Kayak", [["Decked. The full girth goes over the deck, at the cockpit over the coaming."], []] + head(b, quote) +
                             [[], ["Station", "On deck here", "Full girth over the deck (in)", "Hull girth (in)"]])
        fill(ws, [[[feet, feet_words][i](at), on_deck.get(k), full, hull] for k, (at, hull, full) in enumerate(b.rows)])
        emit("xlsx-kayak", i, "xlsx", book(workbook), "in", b.want())


def comma_metres():
    """French, every length as text in metres with a comma."""
    for i, b in pair_of("comma metres", unit="cm", french=True):
        workbook, ws = sheet("Housse", [["Housse pour le bateau de " + b.owner], [], ["Longueur hors tout :", metres(b.loa)], ["Hauteur de l'étrave :", metres(b.bow)], ["Hauteur de la poupe :", metres(b.stern)],
                                        ["Point de portage :", metres(b.carry)], [], ["Repère", "Tour de coque", "Tour complet"]])
        fill(ws, [[f"à {metres(at)}" if i else metres(at), metres(hull), metres(full)] for at, hull, full in b.rows])
        emit("xlsx-virgule", i, "xlsx", book(workbook), "cm", b.want())


def not_reached():
    """Words in place of the numbers that could not be taken."""
    for i, b in pair_of("not reached"):
        why = ["could not reach, trestle in the way", "skipped (seat frame)"][i]
        without, rows = [], []
        for k, (at, hull, full) in enumerate(b.rows):
            if k == 4 + i:
                rows.append([f"{foot(at)} ft", why, None])
                without += [f"hull_girth@{at}", f"full_girth@{at}"]
            elif k == 8:
                rows.append([f"{foot(at)} ft", hull, "forgot"])
                without.append(f"full_girth@{at}")
            else:
                rows.append([f"{foot(at)} ft", hull, full])
        workbook, ws = sheet("Sheet1", [["Mostly done, the rest follows on Friday"], []] + head(b, inch) + [["Station", "Hull girth (in)", "Full girth (in)"]] + rows)
        emit("xlsx-notreached", i, "xlsx", book(workbook), "in", b.want(without))


def two_evenings():
    """The odd feet on one evening and the even feet on the next, a sheet for each."""
    for i, b in pair_of("two evenings"):
        workbook, ws = sheet(["Thursday 4 June", "evening 1"][i], [["Odd feet"]] + head(b, quote)[:3] + [[], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]])
        fill(ws, [[foot(at), hull, full] for at, hull, full in b.rows[0::2]])
        ws = workbook.create_sheet(["Friday 5 June", "evening 2"][i])
        fill(ws, [["Even feet"]] + head(b, quote)[3:] + [[], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]])
        fill(ws, [[foot(at), hull, full] for at, hull, full in b.rows[1::2]])
        emit("xlsx-evenings", i, "xlsx", book(workbook), "in", b.want())


def both_units():
    """Every girth in inches, and the same again in centimetres."""
    for i, b in pair_of("both units"):
        def metric(x):
            return round(x * 2.54, 1)
        workbook, ws = sheet("Canoe", [["Measured in inches; centimetres are converted."], [], ["", "inches", "cm"], ["Length overall", b.loa, metric(b.loa)], ["Bow height", b.bow, metric(b.bow)],
                                       ["Stern height", b.stern, metric(b.stern)], ["Carry point", b.carry, metric(b.carry)], [],
                                       ["Station (ft)", "Hull girth (in)", "Hull girth (cm)", "Full girth (in)", "Full girth (cm)"]])
        fill(ws, [[foot(at), hull, metric(hull), full, metric(full)] for at, hull, full in b.rows])
        emit("xlsx-bothunits", i, "xlsx", book(workbook), "in", b.want())


def fair_copy():
    """A sheet of notes, and a fair copy for the shop that takes its numbers from it."""
    for i, b in pair_of("fair copy"):
        workbook, ws = sheet("Notes", [["loa", b.loa], ["bow", b.bow], ["stern", b.stern], ["carry", b.carry], []] + [[foot(at), hull, full] for at, hull, full in b.rows])
        ws = workbook.create_sheet("For the shop")
        fill(ws, [[f"{b.owner}: {b.craft}", None, None], ["Length overall (in)", "=Notes!B1"], ["Bow height (in)", "=Notes!B2"], ["Stern height (in)", "=Notes!B3"], ["Carry point (in)", "=Notes!B4"], [],
                  ["Station (ft)", "Hull girth (in)", "Full girth (in)"]])
        fill(ws, [[f"=Notes!A{6 + k}", f"=Notes!B{6 + k}", f"=Notes!C{6 + k}"] for k in range(len(b.rows))])
        for cell in ws[7]:
            cell.font, cell.fill = Font(bold=True), PatternFill("solid", fgColor="E2EFDA")
        workbook.move_sheet("For the shop", -1)
        workbook.active = 0
        emit("xlsx-faircopy", i, "xlsx", convert(book(workbook), "xlsx", "xlsx"), "in", b.want())


def skiff():
    """OpenDocument, a square stern; stations named by inches from the bow."""
    for i, b in pair_of("skiff", kind="square", feet=(9, 13)):
        workbook, ws = sheet("Skiff", [["Inches throughout", None, None], ["Length overall", b.loa], ["Bow height", b.bow], ["Stern height", b.stern], ["Carry point", b.carry], [],
                                       ["Inches from bow", "Hull girth", "Full girth", "Place"]])
        fill(ws, [[at, hull, full, {2: "front thwart", 5: "rowing thwart"}.get(k)] for k, (at, hull, full) in enumerate(b.rows)])
        fill(ws, [["Transom" if i else b.loa, *b.transom, "stern sheets end 2 in before" if i else "transom"]])
        emit("ods-skiff", i, "ods", convert(book(workbook), "xlsx", "ods"), "in", b.want())


def from_stem():
    """OpenDocument in French: étrave + 30 cm."""
    for i, b in pair_of("étrave plus", unit="cm", tick=.5, french=True):
        workbook, ws = sheet("Mesures", [[f"Canoë, mesuré le 14 juin par {b.owner}"], ["Longueur hors tout", f"{comma(b.loa)} cm"], ["Étrave, hauteur", f"{comma(b.bow)} cm"],
                                         ["Poupe, hauteur", f"{comma(b.stern)} cm"], ["Point de portage", f"étrave + {comma(b.carry)} cm"], [], ["Où", "Tour de coque, cm", "Tour complet, cm"]])
        fill(ws, [[f"étrave + {at} cm" if i == 0 else f"étrave + {at}", hull, full] for at, hull, full in b.rows])
        ws["A1"].alignment = Alignment(horizontal="left")
        emit("ods-etrave", i, "ods", convert(book(workbook), "xlsx", "ods"), "cm", b.want())


def unsure():
    """Two girths and a height of which the owner was not sure; the rest is plain."""
    for i, b in enumerate([Boat("unsure 1"), Boat("unsure 2")]):
        def about(x):
            return [f"{int(x)} or {int(x) + 1}", f"about {int(x)}"][i]
        workbook, ws = sheet("Canoe", head(b, quote) + [[], ["Station (ft)", "Hull girth (in)", "Full girth (in)", "Remarks"]])
        ws["B3"] = [f"{int(b.stern)} to {int(b.stern) + 1} in", f"{plain(b.stern)} in??"][i]
        doubt = ["stern_height"]
        for k, (at, hull, full) in enumerate(b.rows):
            row = [foot(at), hull, full, None]
            if k == 2 + i:
                row[1], row[3] = about(hull), "tape would not lie flat"
                doubt.append(f"hull_girth@{at}")
            if k == 7:
                row[2] = about(full)
                doubt.append(f"full_girth@{at}")
            ws.append(row)
        emit("xlsx-unsure", i, "xlsx", book(workbook), "in", b.want(doubt), doubt)


LAYOUTS = (bilingual, job_card, codes, both_ends, kayak, comma_metres, not_reached, two_evenings, both_units, fair_copy, skiff, from_stem, unsure)
