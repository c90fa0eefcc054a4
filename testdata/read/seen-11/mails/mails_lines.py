"""Mails with the numbers typed as lines, sentences or a table of spaces."""
import base  # noqa: F401, first: it sets the path to the helpers
from boats import dash, dec, feet, feet_long, feet_words, foot, glyph, inches, pair_of, plain, quote, spoken
from files import emit, flow, flowed, sealed, typed


def plain_lines():
    """One line a station, hull and full named in each."""
    for i, b in pair_of("eml-plain-lines", slip=True):
        if i == 0:
            lines = ["Hello,", "",
                     f"I would like a cover for my {b.craft}. It came with the cottage and nobody has the",
                     "drawings. I measured it this afternoon with my wife's sewing tape, all in inches.", "",
                     f"Length overall {plain(b.loa)}", f"Height at bow {plain(b.bow)}", f"Height at stern {plain(b.stern)}",
                     f"Carry thwart {plain(b.carry)} from the bow", "", "Girths, going back from the bow:", ""]
            lines += [f"{foot(at)} ft - hull {plain(h)}, full {plain(f)}" for at, h, f in b.rows]
            lines += ["", "If anything looks odd let me know, I can measure again on the weekend.", "", b.owner, b.phone]
            m = typed(b.mailbox, "Measurements for cover", lines)
        else:
            lines = ["Good morning", "", "Measurements of our canoe as asked. Inches.", "",
                     f"Overall length: {feet(b.loa)}", f"Bow height: {dash(b.bow)}", f"Stern height: {dash(b.stern)}",
                     f"Carry point: {dash(b.carry)}", ""]
            lines += [f"{foot(at)}ft:  hull girth {dash(h)}   full girth {dash(f)}" for at, h, f in b.rows]
            lines += ["", "Kind regards", b.owner, f"tel. {b.phone}"]
            m = typed(b.mailbox, "canoe cover - my measurements", lines)
        emit("eml-plain-lines", i, "eml", sealed(m), b)


def prose():
    """A letter in sentences, softly broken lines; the halves in words in the first."""
    for i, b in pair_of("eml-prose", feet=(11, 14)):
        (_, h1, f1), *rest = b.rows
        if i == 0:
            lines = ["Dear Sir or Madam,", "",
                     f"My late father's {b.craft} is {feet_long(b.loa)} long from end to end. Held against a plank along the bottom, the bow stands {spoken(b.bow)} inches high and the stern {spoken(b.stern)} inches. The thwart one carries it by is {spoken(b.carry)} inches back from the bow.",
                     "",
                     f"Now for the girths. At 1 foot from the bow I get {spoken(h1)} inches under the hull from gunwale to gunwale, and {spoken(f1)} inches when I bring the tape all the way round. "
                     + " ".join(f"At {foot(at)} feet it is {spoken(h)} under the hull and {spoken(f)} all the way round." for at, h, f in rest),
                     "", "I hope I have understood your instructions correctly.", "", "Yours faithfully,", b.owner]
        else:
            lines = ["Hi there,", "",
                     f"Here goes. The boat is a {b.craft}, {feet_words(b.loa)} overall. The bow is {dec(b.bow)} inches high, the stern is {dec(b.stern)}, and from the tip of the bow to the carrying bar is {dec(b.carry)}.",
                     "",
                     f"Girths: 1 foot back from the bow the hull measures {dec(h1)} and the full loop {dec(f1)}. "
                     + " ".join(f"{foot(at)} feet back the hull measures {dec(h)} and the full loop {dec(f)}." for at, h, f in rest),
                     "", f"My number is {b.phone} if you want to talk it over, evenings are best.", "", f"Cheers, {b.first}"]
        emit("eml-prose", i, "eml", sealed(flow(typed(b.mailbox, ["Cover for a canoe", "Girths etc."][i], flowed(lines)))), b)


def from_phone():
    """Thumbed on a telephone: few words, decimals; the second has no carry handle."""
    for i, b in pair_of("eml-from-phone", slip=True):
        if i == 0:
            lines = [f"Hi its {b.first} again heres the sizes, all inches", "", f"Length {dec(b.loa)}", f"Front height {dec(b.bow)}",
                     f"Back height {dec(b.stern)}", f"Carry handle is {dec(b.carry)} from front", "", "Ft   under   all round"]
            lines += [f"{foot(at)}   {dec(h)}   {dec(f)}" for at, h, f in b.rows]
            lines += ["", "Thx", "", "Sent from my iPhone"]
            without = ()
        else:
            lines = ["Hi, sizes of the canoe in inches.", "", f"Length: {dec(b.loa)}", f"Bow ht: {dec(b.bow)}", f"Stern ht: {dec(b.stern)}",
                     "No carry handle yet, will send that when its fitted", "", "Distance from bow / hull girth / full girth"]
            lines += [f"{foot(at)}' / {dec(h)} / {dec(f)}" for at, h, f in b.rows]
            lines += ["", b.owner, "Get Outlook for Android"]
            without = ("carry_point",)
        emit("eml-from-phone", i, "eml", sealed(typed(b.mailbox, ["Canoe", "Re: Canoe cover"][i], lines)), b, b.want(without))


def spaced_table_french():
    """France, centimetres, a table lined up with spaces; tabs and Latin-1 in the second."""
    for i, b in pair_of("eml-tableau-espaces", slip=True, unit="cm", french=True):
        at, h, f = b.great
        if i == 0:
            lines = ["Bonjour,", "", f"Voici les mesures de mon {b.craft}, en centimètres.", "",
                     f"Longueur hors tout : {dec(b.loa)} cm", f"Hauteur de l'étrave : {dec(b.bow)} cm", f"Hauteur de la poupe : {dec(b.stern)} cm",
                     f"Point de portage : {dec(b.carry)} cm de l'étrave", "",
                     f"{'Distance':<12}{'Demi-tour':<14}Tour complet", f"{'(étrave)':<12}{'(sous coque)':<14}(fermé)"]
            lines += [f"{a:<12}{dec(x):<14}{dec(y)}" for a, x, y in b.rows]
            lines += ["", f"Plus grand tour : à {dec(at)} cm de l'étrave, demi-tour {dec(h)}, tour complet {dec(f)}, ouverture {dec(b.opening)}.",
                      "", "Bien cordialement,", b.owner]
            m = typed(b.mailbox, "Mesures pour housse", lines)
        else:
            lines = ["Madame, Monsieur,", "", "Suite à votre message, mes relevés (tout en cm) :", "",
                     f"longueur totale\t{dec(b.loa)}", f"hauteur avant\t{dec(b.bow)}", f"hauteur arrière\t{dec(b.stern)}", f"barre de portage à\t{dec(b.carry)}", "",
                     "depuis l'avant\ttour de coque\ttour complet"]
            lines += [f"{a}\t{dec(x)}\t{dec(y)}" for a, x, y in b.rows]
            lines += ["", "Le plus gros :", f"à {dec(at)}\t{dec(h)}\t{dec(f)}", f"ouverture à cet endroit\t{dec(b.opening)}", "", "Cordialement", b.owner]
            m = typed(b.mailbox, "housse sur mesure", lines, charset="iso-8859-1")
        emit("eml-tableau-espaces", i, "eml", sealed(m), b, b.want(great=True))


def runs():
    """First every hull girth in a run, then every full girth, the foot before each."""
    for i, b in pair_of("eml-runs", slip=True):
        if i == 0:
            lines = ["Hello Pinfold,", "", "Canoe measurements (inches):", "",
                     "HULL GIRTH", ", ".join(f"{foot(at)}ft {dec(h)}" for at, h, f in b.rows), "",
                     "FULL GIRTH", ", ".join(f"{foot(at)}ft {dec(f)}" for at, h, f in b.rows), "",
                     "OTHER", f"Overall length {dec(b.loa)}, bow height {dec(b.bow)}, stern height {dec(b.stern)}, carry thwart {dec(b.carry)} back from bow.", "",
                     b.owner]
        else:
            lines = [f"Bow height: {quote(b.bow)}", f"Stern height: {quote(b.stern)}", f"Total length: {quote(b.loa)}", f"Carrying thwart: {quote(b.carry)}", "",
                     "Half girth (gunwale, under the boat, other gunwale):",
                     "; ".join(f"{foot(at)}' = {quote(h)}" for at, h, f in b.rows), "",
                     "Full girth (right round):",
                     "; ".join(f"{foot(at)}' = {quote(f)}" for at, h, f in b.rows), "",
                     "That is the lot. Please confirm you got this.", b.owner, b.phone]
        emit("eml-runs", i, "eml", sealed(flow(typed(b.mailbox, ["Sizes", "measurements, cedar canoe"][i], flowed(lines)))), b)


def with_questions():
    """A kayak, with questions about colour, price and date; in the second one girth is unsure."""
    for i, b in pair_of("eml-with-questions", kind="decked"):
        at, h, f = b.great
        doubt, k = (), 2
        if i == 0:
            lines = ["Hello,", "",
                     "Before I give you my numbers, two questions. Can the cover be had in dark green, and roughly what would it cost with postage? We leave on the 27th of June and I'd need it by the 20th. My brother paid about 240 dollars for his somewhere else, 3 years ago.",
                     "", f"The boat is a {b.craft} I built over the winter.", "",
                     f"LOA: {feet(b.loa, glyph)}", f"Height of bow: {glyph(b.bow)} in", f"Height of stern: {glyph(b.stern)} in", f"Bow to grab loop / carry point: {glyph(b.carry)} in", "",
                     "Station: hull, whole way around (inches)"]
            lines += [f"{foot(a)} ft: {glyph(x)}, {glyph(y)}" for a, x, y in b.rows]
            lines += ["", f"Greatest girth, at {feet(at, glyph)} from the bow: hull {glyph(h)}, whole way around {glyph(f)}. Opening there {glyph(b.opening)}.",
                      "", "Thank you,", f"{b.owner}, {b.phone}"]
        else:
            doubt = (f"full_girth@{b.rows[k][0]}",)
            lines = ["Hi,", "", "Filled in as best I could. All numbers are inches.", "",
                     f"- overall length {plain(b.loa)}", f"- bow height {plain(b.bow)}", f"- stern height {plain(b.stern)}", f"- carry point {plain(b.carry)}", "",
                     "Girth of hull and full girth:"]
            lines += [f"- {foot(a)} ft: {plain(x)} and " + (f"about {plain(y)} (tape kept slipping, not sure of that one)" if n == k else plain(y)) for n, (a, x, y) in enumerate(b.rows)]
            lines += [f"- biggest place, {inches(at)} from the bow: {plain(h)} and {plain(f)}, opening {plain(b.opening)}", "",
                      "Does the cover go over the cockpit coaming or do I take the seat back out first? And do you ship by the post or by courier, we are out on rural route 4.",
                      "", b.owner]
        m = flow(typed(b.mailbox, ["Kayak cover, and two questions", "measurements + a question"][i], flowed(lines)))
        emit("eml-with-questions", i, "eml", sealed(m), b, b.want(doubt, great=True), doubt)


ALL = [plain_lines, prose, from_phone, spaced_table_french, runs, with_questions]
