"""Surveys as web pages."""
import html

from boats import boats, dash, dec, emit, feet, frac, glyph, halves, mark, station, tenths, ticked


def whole(b):
    return [("Length overall", feet(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]


def nested(b, how, split=False):
    """Tables within a table, with colours and font tags, as pasted out of a spreadsheet."""
    head = "".join(f'<td bgcolor="#1F4E79" align=center><font color="#FFFFFF"><b>{h}</b></font></td>' for h in ("Station", "Hull&nbsp;girth<br>(inches)", "Full&nbsp;girth<br>(inches)"))

    def girths(part):
        rows = "".join(f'<tr style="background:{["#FFFFFF", "#DDEBF7"][k % 2]}"><td><font face=Calibri>{html.escape(ticked(at))}</font></td><td align=right><span style="mso-number-format:General">{html.escape(how(h))}</span></td>'
                       f'<td align=right><b>{html.escape(how(f))}</b>&nbsp;</td></tr>' for k, (at, h, f) in enumerate(part))
        return f'<table border=0 cellpadding=2 cellspacing=0 style="border-collapse:collapse"><tr>{head}</tr>{rows}</table>'
    boat = "".join(f"<tr><td>{label}</td><td>&nbsp;</td><td><b>{html.escape(v)}</b></td></tr>" for label, v in whole(b))
    cells = "".join(f"<td valign=top>{girths(part)}</td>" for part in (halves(b.rows) if split else [b.rows]))
    return f'<table width="100%"><tr><td valign=top><table>{boat}</table></td>{cells}</tr></table>'


def nested_html():
    for i, b in enumerate(boats("html-nested", 4, feet=(8, 20))):
        body = nested(b, [frac, glyph, dash, tenths][i], i >= 2)
        emit("html-nested", i, "html", f"<html><head><meta charset=utf-8><title>Boat</title></head><body><p>Here you go.</p>{body}</body></html>".encode(), "in", b.want())


def defined_html():
    """No table at all: a list of terms, and a line in bold for every station."""
    for i, b in enumerate(boats("html-terms", 3, spacing="mixed", feet=(8, 14))):
        how = [frac, dec, glyph][i]
        terms = "".join(f"<dt>{label}<dd>{html.escape(v)}" for label, v in whole(b))
        if i == 1:
            rows = "<pre>station      hull girth (in)   full girth (in)\n" + "\n".join(f"{station(at):<13}{how(h):<18}{how(f)}" for at, h, f in b.rows) + "</pre>"
        else:
            rows = "<ul>" + "".join(f"<li><b>{station(at)}</b> &ndash; hull girth {how(h)} in, full girth {how(f)} in</li>" for at, h, f in b.rows) + "</ul>"
        emit("html-terms", i, "html", f"<!doctype html><meta charset=utf-8><title>Canoe</title><h1>Canoe</h1><dl>{terms}</dl>{rows}".encode(), "in", b.want())


def grid_html():
    """A page of an online form: divisions instead of table cells, values in input fields."""
    for i, b in enumerate(boats("html-inputs", 3, feet=(8, 14))):
        how = [dec, frac, dec][i]
        boat = "".join(f'<p><label>{label} <input type="text" name="f{k}" value="{html.escape(v)}"></label></p>' for k, (label, v) in enumerate(whole(b)))
        rows = "".join(f'<tr><td>{at // 12} ft</td><td><input name="h{at}" value="{how(h)}"></td><td><input name="g{at}" value="{how(f)}"></td></tr>' for at, h, f in b.rows)
        page = f"<!doctype html><html><head><meta charset=utf-8><title>Form</title></head><body><form>{boat}<table><tr><th>Station</th><th>Hull girth (in)</th><th>Full girth (in)</th></tr>{rows}</table></form></body></html>"
        emit("html-inputs", i, "html", page.encode(), "in", b.want())


LAYOUTS = (nested_html, defined_html, grid_html)
