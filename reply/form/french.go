package form

import "fairtape/parse"

func french(unit parse.Unit, every string) phrasebook {
	return phrasebook{
		language: "fr", unit: unit,
		guideTitle: "Mesurer votre bateau", numbersTitle: "Vos mesures", slipTitle: "Mesures à refaire", job: "Dossier\u00a0%d",
		customer: "Votre nom", telephone: "Téléphone", boat: "Marque et modèle", underCover: "Ce qui reste sous la bâche",

		before:       "Avant de commencer",
		tapeReads:    "Mon ruban indique %s le long du grand bord de la feuille. (Sinon, changez-en.)",
		tapeOnLetter: in(unit, "11\u00a0po", "27,9\u00a0cm"), tapeOnA4: in(unit, "11\u00a011/16\u00a0po", "29,7\u00a0cm"),
		tools: "Il faut un ruban souple d’au moins " + in(unit, "10\u00a0pi", "3\u00a0m") + ", une ficelle, une règle droite et un stylo à bille foncé. " +
			"Comptez 20\u00a0minutes, ou la moitié si une personne écrit et une autre tient le ruban.",
		cautions: "*Prudence.* Soulevez le bateau à deux. Posez-le sur des tréteaux bas et stables, attaché contre le vent\u00a0: ni sur une voiture, ni sur une échelle, une pente ou l’eau. " +
			"Si vous êtes seul, laissez-le où il est s’il tient bien, même retourné. Fixez le ruban au plat-bord opposé et ramenez son bout par-dessous avec un bâton. " +
			"Personne ne rampe sous un bateau mal calé. Gants sur les bords coupants. Fatigué\u00a0? Arrêtez\u00a0: la moitié des mesures est bienvenue. " +
			"Ce sont les précautions d’usage\u00a0; les règles locales priment.",
		steps: [4]step{
			{"À l’avant", "Tendez une ficelle droite par le milieu, d’un bout à l’autre. *Longueur hors tout\u00a0:* du point le plus avant au point le plus arrière. " +
				"*Hauteur avant\u00a0:* tenez une règle sous le fond, au milieu, prolongez-la jusqu’à l’avant et mesurez jusqu’au point le plus haut. " +
				"*Point de portage\u00a0:* du point le plus avant à l’endroit où la main saisit le bateau."},
			{"Le long du bateau, " + every, "Marquez la ficelle " + every + ", depuis l’avant. Reportez chaque marque d’équerre sur les deux plats-bords. " +
				"*Tour de coque\u00a0:* du bord extérieur d’un plat-bord à l’autre, par-dessous. " +
				"*Tour complet\u00a0:* la boucle fermée, tendue, d’équerre avec la ficelle, sans suivre les creux ni serrer les plats-bords."},
			{"À l’arrière", "La *hauteur arrière* se prend comme la hauteur avant. Un arrière carré a deux tours de plus, tout au bout."},
			{"La plus grande boucle", "Cherchez la plus grande boucle, près du plus grand tour complet. Notez sa distance depuis l’avant, les deux tours et *l’ouverture\u00a0:* tout droit d’un bord extérieur à l’autre."},
		},
		done: "*Pour finir,* posez la page\u00a02 à plat, à la lumière du jour, et photographiez-la d’en haut, sans flash. Elle remplit presque l’image, avec ses quatre marques de coin. " +
			"Envoyez-nous la photo.",
		post: "Tracés des deux bouts sur papier, par la poste, à\u00a0:",

		string: "ficelle, d’un bout à l’autre", squared: "marques d’équerre",

		open: "Ouvert", decked: "Ponté", pointed: "Pointu", square: "Carré",
		names: map[parse.Measure]string{
			parse.LengthOverall: "Longueur hors tout", parse.BowHeight: "Hauteur avant", parse.SternHeight: "Hauteur arrière", parse.CarryPoint: "Portage",
			parse.HullGirth: "Coque", parse.FullGirth: "Complet", parse.GreatestOpening: "Ouverture",
			parse.GreatestAt: "Place de la plus grande boucle", parse.GreatestHullGirth: "Plus grande boucle", parse.GreatestFullGirth: "Plus grande boucle", parse.GreatestPair: "Plus grande boucle",
			parse.TransomHullGirth: "Tableau arrière", parse.TransomFullGirth: "Tableau arrière", parse.TransomPair: "Tableau arrière",
		},
		onTransom: "Arrière carré, tout au bout\u00a0:", greatestAt: "Distance depuis l’avant",
		feet: "pi", inches: "po", half: "½",
		pen: "Stylo à bille foncé.", oneFigure: "Un chiffre par case, le dernier dans la dernière.", nearest: in(unit, "Cochez ½ pour un demi-pouce.", "Au centimètre près."), likeThis: "Ainsi\u00a0:",
		hullColumn: "Tour de coque", fullColumn: "Tour complet",
		first: "1er", second: "2e",

		tracing: tracing{
			title: "Tracer les deux bouts",
			steps: [3]step{
				{"Préparer", "Dressez un carton rigide sur sa tranche dans le plan du milieu, tout au bout, contre le bateau. Collez des feuilles comme la page 2, bord à bord, jusqu’à ce qu’il soit assez grand."},
				{"Tracer", "Suivez le bateau avec un crayon tenu d’équerre sur le carton\u00a0: du plat du fond, autour du tournant, jusqu’en haut."},
				{"Marquer", "Collez une étiquette sur chaque tracé. Marquez le haut, et le point le plus avant à l’avant, le plus arrière à l’arrière."},
			},
			card: "carton sur la tranche", pencil: "crayon d’équerre", flat: "plat du fond",
			bow: "Avant", stern: "Arrière", up: "vers le haut",
			photo:   "*Une photo* nous permet de regarder d’avance; c’est le papier qui sert à couper. Prenez-la d’en haut, avec tous les bords du papier, et dites-nous ce que votre ruban donne le long du trait de la feuille.",
			measure: "Mesurez ce trait avec votre ruban et notez ce qu’il donne\u00a0:",
			print:   "Imprimez à 100\u00a0%. Joignez les feuilles bord à bord, même sens. Tracez par-dessus.",
		},

		unitName: "Unité", deckedQuestion: "Ponté", yes: "oui", no: "non", sternQuestion: "Arrière", station: "Station",
		sheetNames: map[parse.Measure]string{
			parse.LengthOverall: "Longueur hors tout", parse.BowHeight: "Hauteur avant, à l’étrave", parse.CarryPoint: "Point de portage", parse.SternHeight: "Hauteur arrière",
			parse.GreatestAt: "Plus grand tour à", parse.GreatestHullGirth: "Plus grand tour de coque", parse.GreatestFullGirth: "Plus grand tour complet", parse.GreatestOpening: "Ouverture à cet endroit",
		},

		slipIntro:     "Chaque endroit deux fois, les deux notées.",
		slipApart:     "Plus de " + in(unit, "½\u00a0po", "1\u00a0cm") + " d’écart\u00a0? Notez une troisième à côté. Retrouvez chaque marque depuis l’avant. Mesurez même si rien n’a changé.",
		slipUnder:     "Y avait-il quelque chose sous le ruban\u00a0: coussin, siège, tréteau, ferrure\u00a0?",
		slipNothing:   "Non, rien",
		slipSomething: "Oui\u00a0:",
		slipCautions: "*Prudence.* Soulevez à deux. Tréteaux bas, bateau attaché contre le vent. Personne sous un bateau mal calé. Gants sur les bords. " +
			"Fatigué\u00a0? Arrêtez. Précautions d’usage\u00a0; les règles locales priment.",
	}
}
