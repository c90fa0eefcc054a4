"""Surveys as comma, semicolon and tab separated files."""
import datetime

from boats import comma, dec, feet, feet_words, foot, glyph, inch, pair_of, plain, quote
from files import emit, table


def quoted_lines():
    """Opened and saved the wrong way: every line is one quoted cell."""
    for i, b in pair_of("quoted lines"):
        lines = [f"length overall,{dec(b.loa)} in", f"bow height,{dec(b.bow)} in", f"stern height,{dec(b.stern)} in", f"carry point,{dec(b.carry)} in", "", "station (ft),hull girth (in),full girth (in)"]
        lines += [f"{foot(at)},{dec(hull)},{dec(full)}" for at, hull, full in b.rows]
        emit("csv-quotedlines", i, "csv", "".join(f'"{line}"\r\n' for line in lines).encode(["utf-8", "utf-8-sig"][i]), "in", b.want())


def stern_first():
    """The owner began at the stern, but wrote every station by its distance from the bow."""
    for i, b in pair_of("stern first"):
        rows = [[["Began at the stern. Distances are from the bow.", "order: stern to bow (feet are from the bow)"][i]], ["Station", "Full girth", "Hull girth", "inches"]]
        rows += [[f"{foot(at)} ft", plain(full), plain(hull)] for at, hull, full in reversed(b.rows)]
        rows += [["Stern height", inch(b.stern)], ["Bow height", inch(b.bow)], ["Carry point", inch(b.carry)], ["Length overall", feet_words(b.loa)]]
        emit("csv-sternfirst", i, "csv", table(rows).encode(), "in", b.want())


def fields():
    """A programmer's field names, a line for each number."""
    for i, b in pair_of("fields"):
        name = ["station_{:02}ft_{}_girth", "{1}_girth_at_{0}_ft"][i]
        rows = [["field", "value", "unit", "comment"], ["length_overall", dec(b.loa), "in", "tip to tip"],
                ["bow_height", dec(b.bow), "in", ""], ["stern_height", dec(b.stern), "in", ""], ["carry_point", dec(b.carry), "in", "centre of thwart"]]
        for k, (at, hull, full) in enumerate(b.rows):
            rows += [[name.format(foot(at), "hull"), dec(hull), "in", ""], [name.format(foot(at), "full"), dec(full), "in", "2nd try" if k == 5 else ""]]
        emit("csv-fields", i, "csv", table(rows, newline="\n").encode(), "in", b.want())


def diary():
    """A line for each reading with its time, in the order they were taken."""
    for i, b in pair_of("diary"):
        clock = datetime.datetime(2026, 6, 6, 10, 20)
        rows = [["time", "who", "station", "hull girth (in)", "full girth (in)", "remark"]]
        for k, (at, hull, full) in enumerate(b.rows):
            rows.append([clock.strftime(["%Y-%m-%d %H:%M", "%I:%M %p"][i]), ["Win", "Max"][k % 2], f"{foot(at)} ft", glyph(hull), glyph(full), "kettle on, 10 minutes" if k == 6 else ""])
            clock += datetime.timedelta(minutes=12 if k == 6 else 2)
        for name, value in (("length overall", feet(b.loa)), ("bow height", quote(b.bow)), ("stern height", quote(b.stern)), ("carry point", quote(b.carry))):
            rows.append([clock.strftime(["%Y-%m-%d %H:%M", "%I:%M %p"][i]), "both", name, value, "", ""])
            clock += datetime.timedelta(minutes=1)
        emit("csv-diary", i, "csv", table(rows).encode("utf-8-sig"), "in", b.want())


def tab_commas():
    """French, tabs, decimal commas, a square stern."""
    for i, b in pair_of("tab commas", unit="cm", tick=.5, kind="square", feet=(9, 13), french=True):
        rows = [["Nom", b.owner], ["Longueur hors tout", comma(b.loa), "cm"], ["Hauteur d'étrave", comma(b.bow), "cm"], ["Hauteur de poupe", comma(b.stern), "cm"], ["Point de portage", comma(b.carry), "cm"], [],
                ["cm depuis l'étrave", "tour de coque", "tour complet"]]
        rows += [[at, comma(hull), comma(full)] for at, hull, full in b.rows] + [["au tableau", *map(comma, b.transom)]]
        emit("tsv-virgules", i, "tsv", table(rows, "\t", "\n").encode(["utf-8", "utf-16"][i]), "cm", b.want())


def largest():
    """French, with the greatest girth and the opening there."""
    for i, b in pair_of("largest", unit="cm", french=True):
        at, hull, full = b.great
        rows = [["Distance de l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [list(row) for row in b.rows]
        rows += [["", "", ""], ["Plus grand tour, à", f"{at} cm", ""], ["Tour de coque à cet endroit", f"{hull} cm", ""],
                 ["Tour complet à cet endroit", f"{full} cm", ""], ["Ouverture à cet endroit", f"{b.opening} cm", ""], ["", "", ""],
                 ["Longueur hors tout", f"{b.loa} cm", ""], ["Hauteur de l'étrave", f"{b.bow} cm", ""], ["Hauteur de la poupe", f"{b.stern} cm", ""], ["Point de portage", f"{b.carry} cm", ""]]
        emit("csv-plusgrand", i, "csv", table(rows, ";").encode(["utf-8-sig", "cp1252"][i]), "cm", b.want(great=True))


LAYOUTS = (quoted_lines, stern_first, fields, diary, tab_commas, largest)
