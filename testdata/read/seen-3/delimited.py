"""Comma, semicolon and tab separated files."""
import csv
import io

from craft import comma, dec, feet, fleet, ft, glyph, halves, mark, metrescomma, plain, quote
from files import emit


def table(rows, delimiter=",", newline="\r\n"):
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator=newline).writerows(rows)
    return out.getvalue()


def shed():
    """A head of labels and values, then the table; everything in inches."""
    for i, b in enumerate(fleet("shed", 4)):
        write = [dec, plain, quote, dec][i]
        hull, full = [("Hull girth", "Full girth"), ("Round the hull, gunwale to gunwale", "All the way round"), ("girth of hull", "girth full"), ("Hull girth (in)", "Full girth (in)")][i]
        rows = [["Boat", b.craft], ["Owner", b.person], ["Overall length", feet(b.loa)], ["Height at bow", write(b.bow)], ["Height at stern", write(b.stern)],
                ["Carry point", write(b.carry)], [], [["Feet from bow", "Station", "Distance from bow", "Station (ft)"][i], hull, full]]
        rows += [[mark(at) if i != 3 else ft(at), write(h), write(f)] for at, h, f in b.rows]
        emit("csv-shed", i, "csv", table(rows).encode(), "in", b.want())


def long():
    """One number a line: what, where, how much."""
    for i, b in enumerate(fleet("long", 3)):
        rows = [["measurement", "station", "inches"], ["length overall", "", dec(b.loa)], ["bow height", "", dec(b.bow)], ["stern height", "", dec(b.stern)], ["carry point", "", dec(b.carry)]]
        if i == 2:
            rows += [["full girth", mark(at), dec(f)] for at, h, f in b.rows] + [["hull girth", mark(at), dec(h)] for at, h, f in b.rows]
        else:
            for at, h, f in b.rows:
                rows += [["hull girth", mark(at), dec(h)], ["full girth", mark(at), dec(f)]]
        emit("csv-long", i, "csv", table(rows).encode(), "in", b.want())


def french():
    """Semicolons and decimal commas, centimetres."""
    for i, b in enumerate(fleet("french", 3, unit="cm", french=True)):
        write = [comma, lambda x: f"{comma(x)} cm", comma][i]
        rows = [["Nom", b.person], ["Longueur hors tout", [metrescomma, lambda x: f"{x} cm", metrescomma][i](b.loa)], ["Hauteur de l'étrave", f"{comma(b.bow)} cm"],
                ["Hauteur de la poupe", f"{comma(b.stern)} cm"], ["Point de portage", f"{comma(b.carry)} cm"], [],
                ["Distance depuis l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)"]]
        rows += [[at, write(h), write(f)] for at, h, f in b.rows]
        emit("csv-semicolon", i, "csv", table(rows, ";").encode(["utf-8-sig", "utf-8", "cp1252"][i]), "cm", b.want())


def foot():
    """The table first, the other numbers under it; tabs."""
    for i, b in enumerate(fleet("foot", 3)):
        write = [glyph, dec, plain][i]
        rows = [["Ft from bow", "Hull", "Full"]] + [[ft(at), write(h), write(f)] for at, h, f in b.rows]
        rows += [[], ["LOA", feet(b.loa)], ["Bow ht", write(b.bow)], ["Stern ht", write(b.stern)], ["Carry thwart, from bow", write(b.carry)], [], ["all inches unless marked"]]
        emit("tsv-foot", i, "tsv", table(rows, "\t", "\n").encode("utf-8" if i else "utf-16"), "in", b.want())


def remarks():
    """A column of remarks that has numbers of its own."""
    said = {2: "2 in patch here, on the left", 4: "front seat", 5: "tape went over 1 rivet", 8: "middle thwart", 10: "checked 3 times"}
    for i, b in enumerate(fleet("remarks", 3)):
        rows = [["Survey of", b.craft], ["measured 2026-04-26, 14 degrees, light wind"], ["Length overall", quote(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], [],
                ["Station", "Hull girth", "Full girth", "Remarks"]]
        rows += [[mark(at), dec(h), dec(f), said.get(k + 1, "")] for k, (at, h, f) in enumerate(b.rows)]
        emit("csv-remarks", i, "csv", table(rows).encode(), "in", b.want())


def across():
    """The stations along the top, one line for each girth."""
    for i, b in enumerate(fleet("across", 2)):
        names = [["From bow, ft"] + [ft(at) for at, _, _ in b.rows], ["station"] + [mark(at) for at, _, _ in b.rows]][i]
        rows = [["length overall", feet(b.loa)], ["bow height", dec(b.bow)], ["stern height", dec(b.stern)], ["carry point", dec(b.carry)], [], names,
                ["hull girth"] + [dec(h) for _, h, _ in b.rows], ["full girth"] + [dec(f) for _, _, f in b.rows]]
        emit("csv-across", i, "csv", table(rows).encode(), "in", b.want())


def beside():
    """Fore half on the left, after half on the right, full girth first."""
    for i, b in enumerate(fleet("beside", 2)):
        fore, aft = halves(b.rows)
        rows = [["LENGTH OVERALL", feet(b.loa), "", "", "BOW HEIGHT", quote(b.bow)], ["STERN HEIGHT", quote(b.stern), "", "", "CARRY POINT", quote(b.carry)], [],
                ["Station", "Full girth", "Hull girth", "", "Station", "Full girth", "Hull girth"]]
        for k, (at, h, f) in enumerate(fore):
            rows.append([mark(at), dec(f), dec(h), ""] + ([mark(aft[k][0]), dec(aft[k][2]), dec(aft[k][1])] if k < len(aft) else []))
        emit("csv-beside", i, "csv", table(rows).encode(), "in", b.want())


def gaps():
    """Stations that were not measured: a dash, n/a or nothing."""
    for i, b in enumerate(fleet("gaps", 3)):
        rows = [["Length overall", feet(b.loa)], ["Bow height", dec(b.bow)], ["Stern height", ["", "n/a", "-"][i]], ["Carry point", dec(b.carry)], [], ["Station", "Hull girth", "Full girth"]]
        drop = ["stern_height"]
        for k, (at, h, f) in enumerate(b.rows):
            row = [mark(at), dec(h), dec(f)]
            if k == 3:
                row[1], drop = ["", "n/a", "-"][i], drop + [f"hull_girth@{at}"]
            if k == 7:
                row[1:], drop = [["", ""], ["n/a", "n/a"], ["-", "-"]][i], drop + [f"hull_girth@{at}", f"full_girth@{at}"]
            rows.append(row)
        emit("csv-gaps", i, "csv", table(rows).encode(), "in", b.want(drop))


def halffeet():
    """Half-foot stations near the ends, feet and inches of a station apart."""
    for i, b in enumerate(fleet("halffeet", 2, spacing="ends")):
        rows = [["Length overall (in)", dec(b.loa)], ["Bow height (in)", dec(b.bow)], ["Stern height (in)", dec(b.stern)], ["Carry point (in)", dec(b.carry)], [],
                ["Station ft", "Station in", "Hull girth in", "Full girth in"]]
        rows += [[at // 12, at % 12, dec(h), dec(f)] for at, h, f in b.rows]
        emit("csv-halffeet", i, "csv", table(rows).encode(), "in", b.want())


LAYOUTS = (shed, long, french, foot, remarks, across, beside, gaps, halffeet)
