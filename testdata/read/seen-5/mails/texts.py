"""Plain text and web pages."""
import html

from boats import cm, dec, feet_words, foot, glyph, inch, metres, pair_of, plain, quote
from files import emit, text


def backwards():
    """Centimetres from the stern, and said so: the places lie off the usual marks."""
    for i, b in pair_of("txt-backwards", unit="cm"):
        b.rows = [(b.loa - at, hull, full) for at, hull, full in b.rows]
        lines = [["I walked from the stern to the bow, so every distance here is from the STERN.", "NB: distances are measured from the stern."][i], "", f"Length overall: {dec(b.loa)} cm", f"Bow height: {dec(b.bow)} cm", f"Stern height: {dec(b.stern)} cm", f"Carry point: {dec(b.carry)} cm from the bow", "",
                 f"{'From stern (cm)':<18}{'Hull girth (cm)':<18}Full girth (cm)"]
        lines += [f"{b.loa - at:<18}{hull:<18}{full}" for at, hull, full in reversed(b.rows)]
        emit("txt-backwards", i, "txt", text(lines), "cm", b.want())


def tall_heading():
    """A heading of three lines over its columns; half feet near the ends."""
    for i, b in pair_of("txt-tallheading", ends=True):
        write = [plain, dec][i]
        lines = [f"Length overall    {feet_words(b.loa)}", f"Bow height        {inch(b.bow)}", f"Stern height      {inch(b.stern)}", f"Carry point       {inch(b.carry)}", "", "Distance     Hull        Full", "from bow     girth       girth", "(feet)       (inches)    (inches)", "--------     --------    --------"]
        lines += [f"{[plain, dec][i](foot(at)):<13}{write(hull):<12}{write(full)}" for at, hull, full in b.rows]
        emit("txt-tallheading", i, "txt", text(lines, newline=["\r\n", "\n"][i]), "in", b.want())


def french_stations():
    """French: the number of each station and its distance in brackets."""
    for i, b in pair_of("txt-stationsfr", unit="cm", french=True):
        said = [lambda n, at, hull, full: f"Station {n} ({at} cm) : tour de coque = {cm(hull)} ; tour complet = {cm(full)}", lambda n, at, hull, full: f"Station n° {n} (à {at} cm de l'étrave) - coque {cm(hull)} - complet {cm(full)}"][i]
        lines = ["MESURES DU CANOT", f"Propriétaire : {b.owner}", f"Longueur hors tout = {metres(b.loa)}", f"Hauteur de l'étrave = {cm(b.bow)}", f"Hauteur de la poupe = {cm(b.stern)}", f"Point de portage = {cm(b.carry)}", ""]
        lines += [said(n + 1, *row) for n, row in enumerate(b.rows)]
        emit("txt-stationsfr", i, "txt", text(lines, ["utf-8-sig", "cp1252"][i], "\r\n"), "cm", b.want())


def chapters():
    """A web page with a heading for each station; a decked boat."""
    for i, b in pair_of("html-chapters", kind="decked", feet=(13, 16)):
        write = [quote, lambda x: glyph(x) + " in"][i]
        stations = "".join(f"<h3>{foot(at)} ft</h3>\n<p>Hull girth {html.escape(write(hull))}<br>\nFull girth {html.escape(write(full))}</p>\n" for at, hull, full in b.rows)
        told = "".join(f"<li>{name}: {html.escape(x)}</li>\n" for name, x in [("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))])
        page = f"<!doctype html>\n<html><head><meta charset=\"utf-8\"><title>Survey of a decked boat</title></head><body>\n<h1>{b.craft}</h1>\n<p>Decked; the full girth runs over the deck.</p>\n<ul>\n{told}</ul>\n{stations}</body></html>\n"
        emit("html-chapters", i, "html", page.encode(), "in", b.want())


LAYOUTS = (backwards, tall_heading, french_stations, chapters)
