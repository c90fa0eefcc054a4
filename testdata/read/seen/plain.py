"""Surveys as plain text and as separated values."""
import csv
import io

from boats import (boats, cm, curly, dash, dec, emit, feet, feet_close, feet_dash, feet_words, frac, glyph, halves, inches, mark, metres,
                   metres_comma, mm, point, station, tenths, text, ticked)


def leaders_txt():
    """A retired engineer's report with numbered items and dot leaders."""
    for i, b in enumerate(boats("txt-leaders", 4, square=True)):
        how = [mark, dash, curly, point][i]

        def dots(label, value):
            return f"{label} ".ljust(48, ".") + f" {value}"
        lines = ["SURVEY OF AN OPEN BOAT FOR A FITTED COVER", "=" * 41, f"Prepared by {b.name}, P.Eng. (ret.)     Sheet 1 of 1     Rev. 2",
                 "Instrument: fabric tape, 120 in, checked against a steel rule", "", "1. PRINCIPAL DIMENSIONS (inches unless marked)", "",
                 dots("1.1  Length overall", feet_dash(b.loa)), dots("1.2  Bow height above base line", how(b.bow)),
                 dots("1.3  Stern height above base line", how(b.stern)), dots("1.4  Carry point, aft of foremost point", how(b.carry)), "",
                 "2. GIRTHS AT STATIONS (inches)", "   H = hull girth, open at the top;  F = full girth, closed loop", ""]
        lines += [f"     Sta. {ticked(at):<6} H ....... {how(h):<8} F ....... {how(f)}" for at, h, f in b.rows]
        lines += ["", "3. TRANSOM", "", dots("3.1  Hull girth at transom", how(b.transom[0])), dots("3.2  Full girth at transom", how(b.transom[1])), "", "END OF REPORT"]
        emit("txt-leaders", i, "txt", text(lines), "in", b.want())


def one_by_one_txt():
    """One number a line, each with its label."""
    for i, b in enumerate(boats("txt-single", 4)):
        if i == 1:
            b = boats("txt-single-cm", 1, "cm")[0]
            lines = ["Canot de Benoît, mesures prises dimanche", "", f"Longueur totale : {cm(b.loa)}", f"Hauteur de l'étrave : {cm(b.bow)}",
                     f"Hauteur de la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}", ""]
            for at, h, f in b.rows:
                lines += [f"Tour de coque à {cm(at)} : {cm(h)}", f"Tour complet à {cm(at)} : {cm(f)}"]
        else:
            lines = [f"Length overall: {feet_words(b.loa)}", f"Bow height: {mark(b.bow)}", f"Stern height: {mark(b.stern)}", f"Carry point: {mark(b.carry)}", ""]
            pairs = [(f"Hull girth at {station(at)}: {inches(h)}", f"Full girth at {station(at)}: {inches(f)}") for at, h, f in b.rows]
            if i == 2:
                lines += [p[0] for p in pairs] + [""] + [p[1] for p in pairs]
            elif i == 3:
                for at, h, f in b.rows:
                    lines += [f"{station(at)}, hull girth = {glyph(h)} in", f"{station(at)}, full girth = {glyph(f)} in"]
            else:
                for p in pairs:
                    lines += [*p, ""]
        emit("txt-single", i, "txt", text(lines, newline=["\n", "\r\n"][i % 2]), b.unit, b.want())


def piped_txt():
    """A programmer's table with upright bars and a line of dashes."""
    for i, b in enumerate(boats("txt-piped", 4, spacing="mixed", feet=(9, 18))):
        how = [frac, point, glyph, dash][i]
        joint = ["|", "+", "|", "+"][i]
        lines = ["# Cover survey", "", "| what | value |", f"|------{joint}-------|", f"| length overall | {feet(b.loa)} |", f"| bow height | {mark(b.bow)} |",
                 f"| stern height | {mark(b.stern)} |", f"| carry point | {mark(b.carry)} |", "",
                 f"| station | hull girth (in) | full girth (in) | remarks |", f"|---------{joint}-----------------{joint}-----------------{joint}---------|"]
        lines += [f"| {station(at):<11} | {how(h):>8} | {how(f):>8} | {'by the thwart' if k == 3 else ''} |" for k, (at, h, f) in enumerate(b.rows)]
        lines += ["", "Everything measured twice with the same tape."]
        emit("txt-piped", i, "txt", text(lines), "in", b.want())


def phone_txt():
    """A teenager's note from a telephone."""
    for i, b in enumerate(boats("txt-phone", 4)):
        how = [dec, glyph, dec, frac][i]
        bullet = ["-", "•", "*", "–"][i]
        lines = ["hey heres the canoe stuff", "", f"{bullet} length overall {feet_close(b.loa)}", f"{bullet} bow height {how(b.bow)} in",
                 f"{bullet} stern height {how(b.stern)} in", f"{bullet} carry thing (the bar u lift it by) {how(b.carry)} in from the front", "",
                 "ok so first number is just under the hull from edge to edge, second one is all the way around. inches", ""]
        join = [", ", " then ", " / ", " & "][i]
        lines += [f"{bullet} {ticked(at) if i == 1 else station(at).replace(' ', '')}: {how(h)}{join}{how(f)}" for at, h, f in b.rows]
        lines += ["", "lmk if u need anything else, im 16 so mom pays lol"]
        emit("txt-phone", i, "txt", text(lines), "in", b.want())


def boxed_txt():
    """A table drawn with box characters."""
    for i, b in enumerate(boats("txt-boxed", 3, feet=(10, 20))):
        if i == 1:
            b = boats("txt-boxed-cm", 1, "cm")[0]
        name, how = (cm, dec) if b.unit == "cm" else (station, [point, dec, glyph][i])
        cells = [["Station", f"Hull girth ({b.unit})", f"Full girth ({b.unit})", "Opening"]] + [[name(at), how(h), how(f), how(f - h)] for at, h, f in b.rows]
        wide = [max(len(row[c]) for row in cells) for c in range(4)]
        left, bar, cross = ("│", "─", "┼") if i < 2 else ("║", "═", "╬")
        rows = [f"{left} " + f" {left} ".join(c.rjust(w) for c, w in zip(row, wide)) + f" {left}" for row in cells]
        rule = cross.join([""] + [bar * (w + 2) for w in wide] + [""])
        long = feet_words if b.unit == "in" else metres
        each = mark if b.unit == "in" else cm
        lines = [rule, rows[0], rule] + rows[1:] + [rule, "", f"Overall length {long(b.loa)}", f"Height at the bow {each(b.bow)}, height at the stern {each(b.stern)}", f"Carry point {each(b.carry)}"]
        emit("txt-boxed", i, "txt", text(lines), b.unit, b.want())


def side_blocks_txt():
    """Stations run down the left block and on down the right one."""
    for i, b in enumerate(boats("txt-halves", 3, feet=(11, 24))):
        how = [frac, point, glyph][i]
        head = f"{'station':<9}{'hull girth':<13}{'full girth':<12}"
        lines = [f"Boat of {b.name}.  All in inches, stations in feet from the bow.", "", head + "      " + head]
        left, right = halves(b.rows)
        for k, row in enumerate(left):
            cells = [row] + ([right[k]] if k < len(right) else [])
            lines.append("      ".join(f"{station(at):<9}{how(h):<13}{how(f):<12}" for at, h, f in cells).rstrip())
        lines += ["", f"length overall   {feet(b.loa)}       bow height     {mark(b.bow)}", f"carry point      {mark(b.carry)}       stern height   {mark(b.stern)}"]
        emit("txt-halves", i, "txt", text(lines), "in", b.want())


def cards_txt():
    """A paragraph for every station, as on index cards."""
    for i, b in enumerate(boats("txt-cards", 3, spacing="mixed", feet=(8, 13))):
        if i == 1:
            b = boats("txt-cards-cm", 1, "cm", feet=(8, 14))[0]
        name, how = (cm, cm) if b.unit == "cm" else (station, [mark, cm, tenths][i])
        long = metres if b.unit == "cm" else feet_words
        lines = ["THE BOAT", f"  length overall: {long(b.loa)}", f"  bow height: {how(b.bow)}", f"  stern height: {how(b.stern)}", f"  carry point: {how(b.carry)}", ""]
        for k, (at, h, f) in enumerate(b.rows):
            lines += [f"STATION {name(at)}", f"  hull girth: {how(h)}", f"  full girth: {how(f)}"] + (["  remark: measured by Dorrie, windy"] if k == 2 else []) + [""]
        lines += ["GREATEST GIRTH", f"  distance from bow: {how(b.great[0])}", f"  hull girth: {how(b.great[1])}", f"  full girth: {how(b.great[2])}", f"  opening: {how(b.opening)}"]
        emit("txt-cards", i, "txt", text(lines, newline=["\n", "\r\n", "\n"][i]), b.unit, b.want(great=True))


def wrapped_txt():
    """Stations run across, and wrap into a second block below."""
    for i, b in enumerate(boats("txt-wrapped", 3, feet=(12, 22))):
        how = [dec, point, glyph][i]
        lines = [f"{b.boat}", "inches throughout", "", f"LOA {feet(b.loa)}   bow height {mark(b.bow)}   stern height {mark(b.stern)}   carry point {mark(b.carry)}", ""]
        for part in halves(b.rows):
            lines += ["feet from bow".ljust(15) + "".join(f"{at // 12:>7}" for at, _, _ in part), "hull girth".ljust(15) + "".join(f"{how(h):>7}" for _, h, _ in part),
                      "full girth".ljust(15) + "".join(f"{how(f):>7}" for _, _, f in part), ""]
        emit("txt-wrapped", i, "txt", text(lines), "in", b.want())


def inches_tsv():
    """Stations named by inches, tabs between, saved as Unicode text."""
    for i, b in enumerate(boats("tsv-inches", 3, spacing="half", feet=(8, 11))):
        how = [dec, point, dash][i]
        lines = ["Hull survey\t\t\t", "Overall length, inches\t" + how(b.loa), "Height of bow, inches\t" + how(b.bow), "Height of stern, inches\t" + how(b.stern),
                 "Carrying thwart to bow, inches\t" + how(b.carry), "\t\t\t", "No.\tInches aft of bow\tAround the bottom, gunwale to gunwale (in)\tClosed loop (in)"]
        lines += [f"{k + 1}\t{at:g}\t{how(h)}\t{how(f)}" for k, (at, h, f) in enumerate(b.rows)]
        emit("tsv-inches", i, "tsv", text(lines, ["utf-16", "utf-8-sig", "utf-16"][i], "\r\n"), "in", b.want())


def table(rows, **how):
    out = io.StringIO()
    csv.writer(out, **how).writerows(rows)
    return out.getvalue()


def web_form_csv():
    """Export of a web form: a row of questions and one row of answers."""
    for i, b in enumerate(boats("csv-answers", 4)):
        if i == 2:
            b = boats("csv-answers-cm", 1, "cm")[0]
        name = cm if b.unit == "cm" else station
        shape = ["Station {} - hull girth ({})", "hull_girth [{}] ({})", "Hull girth at {} ({})", "{}: hull girth ({})"][i]
        cells = [("Submission ID", "5517093"), ("Submitted at", "2026-06-11 20:14:09"), ("Your name", b.name), ("E-mail", "owner@quillon.example"), ("Boat", b.boat),
                 (f"Length overall ({b.unit})", dec(b.loa)), (f"Bow height ({b.unit})", dec(b.bow)), (f"Stern height ({b.unit})", dec(b.stern)), (f"Carry point ({b.unit})", dec(b.carry))]
        for at, h, f in b.rows:
            q = shape.format(name(at), b.unit)
            cells += [(q, dec(h)), (q.replace("hull", "full").replace("Hull", "Full"), dec(f))]
        for k in range(1, 4):  # the form has room for a longer boat
            q = shape.format(name(b.rows[-1][0] + k * (12 if b.unit == "in" else 30)), b.unit)
            cells += [(q, ""), (q.replace("hull", "full").replace("Hull", "Full"), "")]
        cells += [("I agree to be contacted", "yes")]
        rows = [[c[0] for c in cells], [c[1] for c in cells]]
        emit("csv-answers", i, "csv", table(rows, quoting=csv.QUOTE_ALL if i % 2 else csv.QUOTE_MINIMAL).encode(), b.unit, b.want())


def questions_csv():
    """The same kind of form, one question a line."""
    for i, b in enumerate(boats("csv-questions", 3, square=True)):
        how = [dec, frac, mark][i]
        rows = [["Question", "Answer"], ["Who are you?", b.name], ["Length overall", feet_words(b.loa)], ["Bow height, inches", how(b.bow)], ["Stern height, inches", how(b.stern)],
                ["Carry point, inches from the bow", how(b.carry)]]
        for at, h, f in b.rows:
            rows += [[f"Hull girth at {station(at)}, inches", how(h)], [f"Full girth at {station(at)}, inches", how(f)]]
        rows += [["Hull girth at the transom, inches", how(b.transom[0])], ["Full girth at the transom, inches", how(b.transom[1])], ["How did you hear of us?", "from a friend"]]
        emit("csv-questions", i, "csv", table(rows).encode(), "in", b.want())


def online_sheet_csv():
    """Export of an online spreadsheet: padded rows, quoted inch marks, a note with a line break."""
    for i, b in enumerate(boats("csv-online", 4)):
        how = [mark, tenths, curly, mark][i]
        rows = [["Pulling boat cover", "", "", "", "", ""], ["", "", "", "", "", ""], ["", "Length overall", feet(b.loa), "", "Bow height", how(b.bow)],
                ["", "Carry point", how(b.carry), "", "Stern height", how(b.stern)], [""] * 6, ["", "Station", "Hull girth", "Full girth", "Opening", "Notes"]]
        for k, (at, h, f) in enumerate(b.rows):
            note = "thwart here,\ntape went over it the first time" if k == 4 else ""
            rows.append(["", ticked(at), how(h), how(f), how(f - h), note])
        rows += [[""] * 6, ["", "Widest", "", "", "", ""], ["", "Greatest girth at", feet(b.great[0]), "", "", ""], ["", "Hull girth there", how(b.great[1]), "", "", ""],
                 ["", "Full girth there", how(b.great[2]), "", "", ""], ["", "Opening there", how(b.opening), "", "", ""]]
        emit("csv-online", i, "csv", table(rows).encode(), "in", b.want(great=True))


def tidy_csv():
    """Somebody who works with data: one measurement a row."""
    for i, b in enumerate(boats("csv-tidy", 3)):
        if i == 1:
            b = boats("csv-tidy-cm", 1, "cm", spacing="mixed", feet=(9, 16))[0]
        u = b.unit
        rows = [["measure", f"distance_from_bow_{u}", f"value_{u}", "measured_by", "date"]]
        rows += [["length overall", "", dec(b.loa), "WT", "2026-05-30"], ["bow height", "", dec(b.bow), "WT", "2026-05-30"], ["stern height", "", dec(b.stern), "WT", "2026-05-30"],
                 ["carry point", "", dec(b.carry), "WT", "2026-05-30"]]
        pairs = [[m, f"{at:g}", dec(v), "HQ", "2026-05-31"] for at, h, f in b.rows for m, v in (("hull girth", h), ("full girth", f))]
        rows += sorted(pairs, key=lambda row: row[0]) if i == 2 else pairs
        emit("csv-tidy", i, "csv", table(rows).encode(), u, b.want())


def old_mac_csv():
    """An old Macintosh: lines end in CR alone, letters in its own code."""
    for i, b in enumerate(boats("csv-mac", 3, "cm", square=True)):
        lines = [f"Relevé de {b.boat}", f"Longueur hors tout;{metres_comma(b.loa)}", f"Hauteur à l'étrave;{cm(b.bow)}", f"Hauteur à la poupe;{cm(b.stern)}",
                 f"Barre de portage, à partir de l'étrave;{cm(b.carry)}", "", "n°;distance de l'étrave (cm);coque, d'un plat-bord à l'autre (cm);tour complet, fermé (cm)"]
        lines += [f"{k + 1};{at};{dec(h)};{dec(f)}" for k, (at, h, f) in enumerate(b.rows)]
        lines += ["", f"Tableau arrière, tour de coque;{cm(b.transom[0])}", f"Tableau arrière, tour complet;{cm(b.transom[1])}"]
        emit("csv-mac", i, "csv", text(lines, "mac_roman", "\r"), "cm", b.want())


def millimetres_csv():
    """A boat builder writes millimetres."""
    for i, b in enumerate(boats("csv-mm", 3, "cm")):
        sep = [";", ",", "\t"][i]
        unit = ["mm", " mm", " mm"][i]
        head = [f"Station ({unit.strip()})", "Girth of hull, open (mm)", "Girth, closed (mm)", "Depth (mm)"]
        lines = [f"Builder's sheet, hull no. 7{sep}{sep}{sep}", sep.join(["Length overall", mm(b.loa) + unit]), sep.join(["Height of bow", mm(b.bow) + unit]),
                 sep.join(["Height of stern", mm(b.stern) + unit]), sep.join(["Carry point", mm(b.carry) + unit]), sep.join(head)]
        lines += [sep.join([mm(at), mm(h), mm(f), f"{300 + (7 * k * (len(b.rows) - k)) % 60}"]) for k, (at, h, f) in enumerate(b.rows)]
        emit("csv-mm", i, "tsv" if sep == "\t" else "csv", text(lines), "cm", b.want())


def finer_csv():
    """Stations closer at the ends, named by feet and inches."""
    for i, b in enumerate(boats("csv-finer", 3, spacing="mixed", feet=(10, 20))):
        how = [frac, dec, glyph][i]
        lines = ["Finer near the ends because the ends are very hollow;;;", f"Tip to tip (length overall);{feet(b.loa)};;", f"Bow, height;{how(b.bow)} in;;", f"Stern, height;{how(b.stern)} in;;",
                 f"Grip for carrying, from bow;{how(b.carry)} in;;", "From the bow;Hull girth in inches;Full girth in inches;Weather"]
        lines += [f"{[ticked, station, feet_dash][i](at)};{how(h)};{how(f)};{'sun' if k < 5 else ''}" for k, (at, h, f) in enumerate(b.rows)]
        emit("csv-finer", i, "csv", text(lines, newline="\r\n"), "in", b.want())


def one_girth_csv():
    """A single column called girth: nobody can say which of the two it is."""
    for i, b in enumerate(boats("csv-girth", 3)):
        pick = [1, 2, 1][i]
        lines = [f"length overall,{feet_words(b.loa)}", f"bow height,{frac(b.bow)} in", f"stern height,{frac(b.stern)} in", f"carry point,{frac(b.carry)} in", f"station,{['girth', 'girth', 'measurement'][i]} (in)"]
        lines += [f"{row[0] // 12} ft,{dec(row[pick])}" for row in b.rows]
        girths = [f"{m}@{at}" for at, _, _ in b.rows for m in ("hull_girth", "full_girth")]
        emit("csv-girth", i, "csv", text(lines), "in", b.want(skip=girths), girths)


def unsure_txt():
    """A list with one thing nobody can be sure of."""
    for i, b in enumerate(boats("txt-unsure", 6)):
        at, h, f = b.rows[4]
        key, bad = [("hull_girth", f"{int(h)} or {int(h) + 1}"), ("full_girth", f"~{int(f)}"), ("hull_girth", "same"), ("full_girth", "?"), ("hull_girth", f"{int(h) // 10}1/2"), ("full_girth", f"{int(f) + 4} (or {int(f) - 5}, the tape slipped)")][i]
        lines = [f"Length overall {feet_words(b.loa)}.", f"Bow height {mark(b.bow)}.", f"Stern height {mark(b.stern)}.", f"Carry point {mark(b.carry)}.", "", "Hull girth and full girth, inches:"]
        lines += [f"  {a // 12} ft ... {bad if a == at and key[0] == 'h' else frac(hh)} ... {bad if a == at and key[0] == 'f' else frac(ff)}" for a, hh, ff in b.rows]
        emit("txt-unsure", i, "txt", text(lines), "in", b.want(skip=[f"{key}@{at}"]), [f"{key}@{at}"])


def length_txt():
    """A length overall that may be feet and inches or feet and tenths."""
    for i, b in enumerate(boats("txt-length", 2)):
        wrote = [f"{int(b.loa // 12)}.{int(b.loa % 12) or 9}", f"{int(b.loa // 12)},{int(b.loa % 12) or 6}"][i]
        lines = [f"length overall: {wrote}", f"bow height: {mark(b.bow)}", f"stern height: {mark(b.stern)}", f"carry point: {mark(b.carry)}", "", "station - hull girth (in) - full girth (in)"]
        lines += [f"{at // 12} ft - {dec(h)} - {dec(f)}" for at, h, f in b.rows]
        emit("txt-length", i, "txt", text(lines), "in", b.want(skip=["length_overall"]), ["length_overall"])


LAYOUTS = (leaders_txt, one_by_one_txt, piped_txt, phone_txt, boxed_txt, side_blocks_txt, cards_txt, wrapped_txt, inches_tsv, web_form_csv, questions_csv, online_sheet_csv,
           tidy_csv, old_mac_csv, millimetres_csv, finer_csv, one_girth_csv, unsure_txt, length_txt)
