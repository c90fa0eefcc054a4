"""French mails, a text, a letter and a form."""
import html

import docx
from docx.shared import Cm

from boats import cm, comma, feet_french, foot, french_half, millimetres, pair_of, plain
from files import both, convert, emit, grid, saved, sealed, text, typed


def pi(at):
    return f"{foot(at)} {'pied' if at == 12 else 'pieds'}"


def sentences():
    """A sentence for each station, in inches."""
    for i, b in pair_of("mail-phrasesfr", french=True, feet=(11, 14), slip=True):
        write = [lambda x: f"{plain(x)} pouces", french_half][i]
        said = [["À {at}, le tour de coque est de {hull} et le tour complet de {full}.", "À {at}, j'ai trouvé {hull} pour le tour de coque et {full} pour le tour complet."],
                ["À {at} de l'étrave, la coque fait {hull} de tour et le tour complet est de {full}.", "Ensuite, à {at}, la coque fait {hull} de tour ; tour complet : {full}."]][i]
        lines = ["Bonjour Madame, Monsieur,", "", [f"Mon {b.craft} mesure {feet_french(b.loa)} hors tout. La hauteur de l'étrave est de {write(b.bow)}, celle de la poupe de {write(b.stern)}. Le point de portage est à {write(b.carry)} de l'étrave.",
                 f"J'ai pris les mesures de mon {b.craft} avec mon beau-frère. Longueur hors tout : {feet_french(b.loa)}. Hauteur de l'étrave : {write(b.bow)}. Hauteur de la poupe : {write(b.stern)}. On le porte par la traverse, donc point de portage à {write(b.carry)} de l'étrave."][i], ""]
        lines += [said[k % 2].format(at=pi(at), hull=write(hull), full=write(full)) for k, (at, hull, full) in enumerate(b.rows)]
        lines += ["", ["Rien ne reste dans le bateau, sauf le siège avant.", "Les gabarits des deux bouts partent par la poste."][i], "", "Cordialement,", b.owner, b.phone]
        emit("mail-phrasesfr", i, "eml", sealed(typed(b.mailbox, "Les mesures", lines, charset="iso-8859-1", cte=["8bit", "quoted-printable"][i])), b)


def answers():
    """Answers in blue under the shop's questions. The second is not sure of the stern's height."""
    for i, b in pair_of("mail-repliquefr", unit="cm", french=True, feet=(12, 16)):
        doubt = [[], ["stern_height"]][i]
        stern = [cm(b.stern), f"{b.stern} cm, mais je n'en suis pas certaine, la règle a glissé"][i]
        asked = [("Longueur hors tout du bateau ?", [cm(b.loa)]), ("Hauteur de l'étrave ?", [cm(b.bow)]), ("Hauteur de la poupe ?", [stern]), ("Point de portage, à partir de l'étrave ?", [cm(b.carry)]),
                 ("Tous les 30 cm à partir de l'étrave : tour de coque, puis tour complet (en cm) ?", [[f"{at} : {hull} et {full}", f"à {at} cm : {hull} / {full}"][i] for at, hull, full in b.rows]),
                 ("Plus grand tour : à quelle distance de l'étrave, tour de coque, tour complet ?", [f"à {cm(b.great[0])}, tour de coque {cm(b.great[1])}, tour complet {cm(b.great[2])}"]), ("Qu'est-ce qui reste sous la housse ?", [["les deux bancs", "un coussin de 5 cm d'épaisseur"][i]])]
        blue = "<span style='color:#0000cc'>{}</span>"
        body = f"<p>Bonjour, mes réponses sont en bleu sous vos questions.<br>{b.first}</p><hr><p>De : Pinfold Cover Loft<br>Envoyé : lundi 1 juin 2026 09:10<br>Objet : Vos mesures</p><ol>" + "".join(f"<li>{html.escape(q)}<br>{'<br>'.join(blue.format(html.escape(a, False)) for a in given)}</li>\n" for q, given in asked) + "</ol><p>Merci !</p>"
        lines = ["Bonjour, mes réponses sont en bleu sous vos questions.", b.first, "", "De : Pinfold Cover Loft", "Envoyé : lundi 1 juin 2026 09:10", "Objet : Vos mesures", ""]
        for n, (q, given) in enumerate(asked, 1):
            lines += [f"{n}. {q}", *given]
        values = b.want(doubt, great=True)
        del values["greatest.opening"]
        emit("mail-repliquefr", i, "eml", sealed(both(b.mailbox, "RE : Vos mesures", lines + ["", "Merci !"], body, cte="quoted-printable")), b, values, doubt)


def telephone():
    """Thumbed lines without capitals, in windows-1252 and base64."""
    for i, b in pair_of("mail-pouceufr", unit="cm", kind="decked", french=True, slip=True, feet=(12, 16)):
        lines = [["allo, voila pour le kayak, tout en cm", "bonjour c'est pour la housse, je vous mets tout en cm"][i],
                 [f"longueur hors tout {b.loa}", f"long hors tout {b.loa} cm"][i], [f"hauteur étrave {b.bow} hauteur poupe {b.stern}", f"étrave hauteur {b.bow} cm, poupe hauteur {b.stern} cm"][i], [f"point de portage {b.carry}", f"point de portage à {b.carry} cm de l'étrave"][i], ""]
        lines += [[f"{at} coque {hull} complet {full}", f"à {at} cm tour coque {hull} tour complet {full}"][i] for at, hull, full in b.rows]
        lines += ["", ["voila, les tours c'est tour de coque et tour complet par dessus le pont. bonne journée", "le pont est bombé au milieu, j'ai passé par dessus"][i], b.first, "", "Envoyé depuis mon cellulaire"]
        emit("mail-pouceufr", i, "eml", sealed(typed(b.mailbox, ["kayak", "housse kayak"][i], lines, charset="windows-1252", cte="base64")), b)


def bars():
    """A text with bars between columns; the second in millimetres, as a joiner writes."""
    for i, b in pair_of("txt-barresfr", unit="cm", french=True):
        write = [comma, millimetres][i]
        lines = [f"# {b.craft.capitalize()}, propriétaire : {b.owner} ({b.phone})", "", ["Toutes les mesures en cm", "Toutes les cotes en millimètres (mm), métier oblige !"][i], "", "| Mesure | Valeur |", "|---|---|", f"| Longueur hors tout | {write(b.loa)} |", f"| Hauteur de l'étrave | {write(b.bow)} |", f"| Hauteur de la poupe | {write(b.stern)} |", f"| Point de portage | {write(b.carry)} |", "",
                 ["| Station | Tour de coque | Tour complet |", "| Distance de l'étrave | Tour de coque | Tour complet |"][i], "|---:|---:|---:|"]
        lines += [f"| {write(at):>4} | {write(hull):>4} | {write(full):>4} |" for at, hull, full in b.rows]
        lines += ["", f"Plus grand tour : à {write(b.great[0])}, tour de coque {write(b.great[1])}, tour complet {write(b.great[2])}, ouverture {write(b.opening)}."]
        emit("txt-barresfr", i, "txt", text(lines, encoding=["utf-8", "utf-8-sig"][i], newline=["\n", "\r\n"][i]), b, b.want(great=True))


def letter():
    """A Word letter with tab stops, a boat with a transom. The second forgot the stern's height and says so."""
    for i, b in pair_of("docx-tabulefr", unit="cm", kind="square", french=True, feet=(10, 14)):
        paper = docx.Document()
        stern = [f"hauteur de la poupe (au tableau) {cm(b.stern)}", "hauteur de la poupe : oubliée, je vous l'enverrai dimanche"][i]
        for line in (b.owner, f"Tél. {b.phone}", "", "Pinfold Cover Loft", "", f"Objet : housse pour ma {b.craft}", "", "Madame, Monsieur,",
                     f"Comme convenu, voici mes mesures : longueur hors tout {cm(b.loa)}, hauteur de l'étrave {cm(b.bow)}, {stern}. Le point de portage est à {cm(b.carry)} de l'étrave." + ["", " La barque dort dans la grange depuis 2019."][i]):
            paper.add_paragraph(line)
        def tabbed(*cells):
            p = paper.add_paragraph()
            for k in (1, 2):
                p.paragraph_format.tab_stops.add_tab_stop(Cm(4.5 * k))
            p.paragraph_format.space_after = 0
            p.add_run("\t".join(map(str, cells))).bold = isinstance(cells[1], str)
        tabbed(*[("Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"), ("De l'étrave (cm)", "Tour de coque", "Tour complet")][i])
        for row in b.rows:
            tabbed(*row)
        paper.add_paragraph("")
        paper.add_paragraph(f"Au tableau arrière : tour de coque {cm(b.transom[0])}, tour complet {cm(b.transom[1])}." + [f" Le plus grand tour se trouve à {cm(b.great[0])} de l'étrave : tour de coque {cm(b.great[1])}, tour complet {cm(b.great[2])}, ouverture {cm(b.opening)}.", ""][i])
        paper.add_paragraph("Veuillez agréer mes salutations les meilleures.")
        paper.add_paragraph(b.owner)
        emit("docx-tabulefr", i, "docx", saved(paper), b, b.want(without=["stern_height"] if i else [], great=i == 0))


def own_form():
    """A form of the owner's own making, with dotted lines and spare rows, typed in and printed to PDF."""
    for i, b in pair_of("pdf-formulefr", french=True, slip=True, feet=(12, 15)):
        paper = docx.Document()
        for section in paper.sections:
            section.top_margin = section.bottom_margin = Cm(1.5)
        paper.add_heading("FICHE DU BATEAU", 1)
        for label, x in (("Propriétaire", b.owner), ("Téléphone", b.phone), ("Sorte de bateau", b.craft), ("Longueur hors tout", feet_french(b.loa)), ("Hauteur de l'étrave", f"{plain(b.bow)} po"), ("Hauteur de la poupe", f"{plain(b.stern)} po"), ("Point de portage (de l'étrave)", f"{plain(b.carry)} po")):
            p = paper.add_paragraph(f"{label} {['...', '____'][i]} {x} {['.......', '______'][i]}")
            p.paragraph_format.space_after = 0
        paper.add_paragraph("")
        paper.add_paragraph(["Stations à tous les pieds. A : tour de coque (po). B : tour complet (po).", "Tours en pouces. A = tour de coque, B = tour complet."][i])
        rows = [[["Pied", "A  tour de coque", "B  tour complet"], ["Station (pi)", "A  coque (po)", "B  complet (po)"]][i]] + [[foot(at), plain(hull), comma(full) if i else plain(full)] for at, hull, full in b.rows]
        grid(paper, rows + [[n, None, None] for n in range(len(b.rows) + 1, 19)])
        paper.add_paragraph("")
        paper.add_paragraph(f"Plus grand tour : à {['...', '__'][i]} {feet_french(b.great[0])} {['...', '__'][i]} A {['...', '__'][i]} {plain(b.great[1])} po {['...', '__'][i]} B {['...', '__'][i]} {plain(b.great[2])} po")
        values = b.want(great=True)
        del values["greatest.opening"]
        emit("pdf-formulefr", i, "pdf", convert(saved(paper), "docx", "pdf"), b, values)


LAYOUTS = (sentences, answers, telephone, bars, letter, own_form)
