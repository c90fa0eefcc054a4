"""Mails that carry another mail: answers between questions, forwarded ones, earlier halves, corrections."""
import html

import base  # noqa: F401, first: it sets the path to the helpers
from boats import cm, comma, curly, dec, feet, feet_french, feet_tight, feet_words, foot, glyph, halves, inch, pair_of, plain
from files import emit, flow, flowed, page, sealed, typed


def answers_between():
    """The shop's questions quoted, an answer typed below each; feet and inches."""
    for i, b in pair_of("eml-answers-between"):
        lines = [["See my answers below, I did it all twice.", "Answers in between. Sorry it took so long, we had rain."][i], "",
                 "On Mon, Jun 1, 2026 at 9:12 AM Pinfold Cover Loft <orders@pinfold.example> wrote:", "",
                 f"> Hello {b.first},", ">", "> thank you for asking us. To cut a cover we need a few numbers from you. Nearest half inch is good enough.", ">"]
        if i == 0:
            lines += ["> 1. What is the length overall?", "", feet(b.loa), "", "> 2. How high are the bow and the stern?", "", f"Bow {feet(b.bow)}, stern {feet(b.stern)}", "",
                      "> 3. How far from the bow is the carry point?", "", feet(b.carry), "", "> 4. At every foot from the bow, what are the hull girth and the full girth?", ""]
            lines += [f"{foot(at)} ft:  {feet(h)} / {feet(f)}" for at, h, f in b.rows]
        else:
            lines += ["> 1. Length overall", feet_tight(b.loa), "> 2. Bow height", feet_tight(b.bow), "> 3. Stern height", feet_tight(b.stern), "> 4. Carry point, distance from the bow", feet_tight(b.carry),
                      "> 5. Hull girth and full girth, at every foot from the bow"]
            lines += [f"{foot(at)}' - {feet_tight(h)} hull, {feet_tight(f)} full" for at, h, f in b.rows]
        lines += ["", ">", "> Many thanks", "> Pinfold Cover Loft", "", "-- ", b.owner, b.phone]
        emit("eml-answers-between", i, "eml", sealed(flow(typed(b.mailbox, "Re: Your cover", flowed(lines)))), b)


def daughter_forwards():
    """A daughter, then a neighbour, forwards what the owner typed; her own signature on top."""
    for i, b in pair_of("eml-daughter-forwards"):
        at, h, f = b.great
        last = b.owner.split()[1]
        if i == 0:
            sender, top = f"Marjorie {last} <marjorie.{last.lower()}@bank.example>", ["Hello, Mum doesn't have your address so here is what she sent me. Please answer to me.", "", f"Marjorie {last}", "Branch 1140, 22 Mill Street", "Tel. 613 555-0188 ext. 204"]
            body = ["Dear Marjorie", "", "The canoe numbers for the cover people:", "", f"Length over all   {inch(b.loa)}", f"Bow height   {inch(b.bow)}", f"Stern height   {inch(b.stern)}", f"Carry point   {inch(b.carry)}", ""]
            body += [f"{foot(a)} ft   girth of hull {inch(x)}   full girth {inch(y)}" for a, x, y in b.rows]
            body += ["", f"Largest girth is at {feet_words(at)}   girth of hull {inch(h)}   full girth {inch(f)}   opening {inch(b.opening)}", "", "Love Mum"]
            banner = ["---------- Forwarded message ---------", f"From: {base.shown(b)}", "Date: Tue, Jun 2, 2026 at 7:41 PM", "Subject: canoe", f"To: <marjorie.{last.lower()}@bank.example>", ""]
        else:
            sender, top = "Len Applegarth <len@applegarth.example>", [f"My neighbour {b.owner} asked me to pass this on, she has trouble with her e-mail.", "", "Len"]
            body = ["Hi Len,", "please send this to the cover shop for me. I used inches.", "", f"Boat is {glyph(b.loa)} long", f"Front end is {glyph(b.bow)} high", f"Back end is {glyph(b.stern)} high", f"Carrying thwart {glyph(b.carry)} from the front", "", "feet from front, under the hull, full circle"]
            body += [f"{foot(a)}, {glyph(x)}, {glyph(y)}" for a, x, y in b.rows]
            body += ["", f"Fattest spot {glyph(at)} from the front: under the hull {glyph(h)}, full circle {glyph(f)}, straight across {glyph(b.opening)}", "", b.first]
            banner = ["Begin forwarded message:", "", f"> From: {base.shown(b)}", "> Subject: canoe cover", "> Date: June 2, 2026 at 8:03:11 PM ADT", "> To: len@applegarth.example", ">"]
            body = [f"> {line}".rstrip() for line in body]
        emit("eml-daughter-forwards", i, "eml", sealed(typed(sender, ["Fwd: canoe", "Fwd: canoe cover"][i], top + [""] + banner + body)), b, b.want(great=True))


def son_forwards_french():
    """A web page forwarded by a son, centimetres, a table in the forwarded part."""
    for i, b in pair_of("eml-transfert-fils", unit="cm", french=True, kind="square"):
        last = b.owner.split()[1]
        plainest = last.lower().encode("ascii", "ignore").decode()
        at, h, f = b.great
        words = [("Distance depuis l'avant", "Tour ouvert (sous la coque)", "Tour fermé"), ("À partir de l'étrave (cm)", "Coque (cm)", "Tour complet (cm)")][i]
        rows = "".join(f"<tr><td>{a}</td><td>{dec(x)}</td><td>{dec(y)}</td></tr>\n" for a, x, y in b.rows)
        rows += f"<tr><td>{['Tableau arrière', 'Au tableau (bout)'][i]}</td><td>{dec(b.transom[0])}</td><td>{dec(b.transom[1])}</td></tr>\n"
        table = "<table border=1 cellpadding=3>\n<tr>" + "".join(f"<th>{html.escape(w)}</th>" for w in words) + f"</tr>\n{rows}</table>"
        hello = [f"<p>Bonjour,</p><p>Je vous transmets le message de ma mère. Merci de me répondre à moi, elle lit peu son courrier.</p><p>Mathieu {last}<br>06 55 50 12 87</p>",
                 f"<p>Ci-dessous les mesures de maman. C'est pour la housse dont on a parlé au téléphone.</p><p>Julien {last}</p>"][i]
        banner = f"<hr><p><b>De :</b> {html.escape(base.shown(b))}<br><b>Envoyé :</b> mardi 2 juin 2026 19:22<br><b>À :</b> {['Mathieu', 'Julien'][i]} {last}<br><b>Objet :</b> la barque</p>"
        if i == 0:
            told = (f"<p>Longueur hors tout {dec(b.loa)} cm. Hauteur à l'avant {dec(b.bow)} cm, hauteur à l'arrière {dec(b.stern)} cm. Poignée de portage à {dec(b.carry)} cm de l'avant.</p>{table}"
                    f"<p>Le plus grand tour se trouve à {dec(at)} cm : {dec(h)} cm ouvert, {dec(f)} cm fermé (ouverture {dec(b.opening)} cm).</p><p>{b.first}</p>")
        else:
            told = (f"<p>Voilà, j'ai tout mesuré en cm :</p>{table}<p>longueur totale : {cm(b.loa)}<br>hauteur d'étrave : {cm(b.bow)}<br>hauteur du tableau arrière : {cm(b.stern)}<br>"
                    f"point de portage : {cm(b.carry)}</p><p>Gros bisous</p>")
        m = page(f"{['Mathieu', 'Julien'][i]} {last} <{['mathieu', 'julien'][i]}@{plainest}.example>", "TR : la barque", hello + banner + told)
        emit("eml-transfert-fils", i, "eml", sealed(m), b, b.want(great=i == 0))


def the_rest_french():
    """The second half on top, the first half in the owner's earlier mail quoted below."""
    for i, b in pair_of("eml-la-suite", french=True):
        one, two = halves(b.rows)
        if i == 0:
            def row(at, h, f):
                return f"{foot(at)} pi : {plain(h)} po dessous, {plain(f)} po tour complet"
            first = [f"Bonjour, voici le début pour mon {b.craft}.", f"Longueur hors tout : {feet_french(b.loa)}", f"Hauteur de la pince avant : {plain(b.bow)} po", f"Hauteur de la pince arrière : {plain(b.stern)} po", "",
                     "À partir de l'avant :"] + [row(*r) for r in one] + ["", "La suite demain, il fait noir.", b.first]
            lines = ["Rebonjour, la suite comme promis :", ""] + [row(*r) for r in two] + ["", f"La barre de portage est à {plain(b.carry)} po de l'avant.", "", "Merci !", b.owner, b.phone, "",
                     f"Le mar. 2 juin 2026 à 21 h 04, {base.shown(b)} a écrit :"] + [f"> {line}".rstrip() for line in first]
        else:
            def row(at, h, f):
                return f"à {foot(at)} pied{'s' * (at > 12)}, tour de coque {comma(h)} et grand tour {comma(f)}"
            first = ["Bonjour,", "J'ai commencé à mesurer (en pouces) :", f"longueur de bout en bout {comma(b.loa)}", f"hauteur avant {comma(b.bow)}", f"hauteur arrière {comma(b.stern)}", f"point de portage {comma(b.carry)}"] + [row(*r) for r in one]
            shop = ["Bonjour,", "merci, c'est très bien parti. Il nous manque la moitié arrière, quand vous pourrez.", "Pinfold Cover Loft", "", f"Le 31 mai 2026, {b.owner} a écrit :"] + [f"> {line}" for line in first]
            lines = ["Voici la moitié arrière :"] + [row(*r) for r in two] + ["", b.owner, "", "Le 1 juin 2026 à 08:30, Pinfold Cover Loft a écrit :"] + [f"> {line}".rstrip() for line in shop]
        emit("eml-la-suite", i, "eml", sealed(typed(b.mailbox, ["Re: Mesures du canot", "Re: housse"][i], lines)), b)


def correction():
    """The table holds one number that the owner puts right, below it or beside it; the want is the right one."""
    for i, b in pair_of("eml-correction"):
        k = len(b.rows) // 2 + i
        at, h, f = b.rows[k]
        if i == 0:
            lines = ["Hi,", "", "Here is the list for my canoe, in inches.", "", f"Length {dec(b.loa)}", f"Bow height {dec(b.bow)}", f"Stern height {dec(b.stern)}", f"Carry point {dec(b.carry)}", "", "Feet    Hull    Full"]
            lines += [f"{foot(a):<8}{dec(x - 10 if a == at else x):<8}{dec(y)}" for a, x, y in b.rows]
            lines += ["", f"Correction: I have just been out to check, at {foot(at)} ft the hull is {dec(h)}, not {dec(h - 10)}. The rest is fine.", "", b.owner]
            m = typed(b.mailbox, "List for cover", lines)
        else:
            rows = "".join(f"<tr><td>{foot(a)}'</td><td>{curly(x)}</td><td>{curly(y + 6 if a == at else y)}</td><td>{f'should be {curly(y)}, tape was caught on the seat' if a == at else ''}</td></tr>\n" for a, x, y in b.rows)
            m = page(b.mailbox, "Canoe measurements", f"<p>Hello,</p><p>Overall length {curly(b.loa)}, bow {curly(b.bow)} high, stern {curly(b.stern)} high, carry thwart {curly(b.carry)} from the bow.</p>\n"
                     f"<table>\n<tr><td><b>From bow</b></td><td><b>Hull girth</b></td><td><b>Full girth</b></td><td><b>Remarks</b></td></tr>\n{rows}</table>\n<p>Regards,<br>{b.owner}<br>{b.phone}</p>")
        emit("eml-correction", i, "eml", sealed(m), b)


ALL = [answers_between, daughter_forwards, son_forwards_french, the_rest_french, correction]
