package form

import "fairtape/parse"

func english(unit parse.Unit, every string) phrasebook {
	return phrasebook{
		language: "en", unit: unit,
		guideTitle: "Measuring your boat", numbersTitle: "Your numbers", slipTitle: "Please measure again", job: "Job %d",
		customer: "Your name", telephone: "Telephone", boat: "Make and model", underCover: "What stays under the cover",

		before:       "Before you start",
		tapeReads:    "My tape reads %s along the long edge of this paper. (If not, use another tape.)",
		tapeOnLetter: in(unit, "11 in", "27.9 cm"), tapeOnA4: in(unit, "11 11/16 in", "29.7 cm"),
		tools: "You need a fabric tape at least " + in(unit, "10 ft", "3 m") + " long, a string, a straight edge and a dark ball-point pen. " +
			"It takes about 20 minutes; with one helper to write and one to hold the tape, half of that.",
		cautions: "*Take care.* Two people lift the boat. It stands on low, steady trestles, tied against wind: not on a car, a ladder, a slope or water. " +
			"If you are alone, leave it where it lies if it is steady; upside down is fine. Clip the tape to the far gunwale and fish its end under with a stick. " +
			"Nobody crawls under a boat that is not secured. Wear gloves on sharp rims. If you are tired, stop: half a survey is welcome. " +
			"These are the usual cautions; local rules come first.",
		steps: [4]step{
			{"At the bow", "Draw a string straight over the middle from end to end. *Length overall* is from the foremost to the aftmost point. " +
				"*Bow height:* hold a straight edge along the bottom amidships, carry it to the bow, and measure up to the highest point. " +
				"*Carry point:* from the foremost point to where a hand grips, the carry thwart or the end of the bow deck."},
			{"Along the boat, " + every, "Mark the string " + every + ", from the bow. Square each mark to both gunwales. " +
				"*Hull girth:* from the outer top edge of one gunwale, under the hull, to the other. " +
				"*Full girth:* the closed loop, taut, square to the string. It goes over the outer edges and bridges hollows. Do not draw the gunwales in."},
			{"At the stern", "*Stern height* is taken like the bow height. A square stern has two girths more, at its very end."},
			{"Where the loop is largest", "Look for the largest loop, near your largest full girth. Write how far it is from the bow, both girths, and the *opening:* straight across, outer edge to outer edge."},
		},
		done: "*When you are done,* lay page 2 flat in daylight and photograph it from above, without flash. It fills most of the picture, with all four corner marks in it. " +
			"Send us the picture.",
		post: "Post the paper tracings of both ends to:",

		string: "string, end to end", squared: "marks squared to both gunwales",

		open: "Open", decked: "Decked", pointed: "Pointed", square: "Square",
		names: map[parse.Measure]string{
			parse.LengthOverall: "Length overall", parse.BowHeight: "Bow height", parse.SternHeight: "Stern height", parse.CarryPoint: "Carry point",
			parse.HullGirth: "Hull girth", parse.FullGirth: "Full girth", parse.GreatestOpening: "Opening",
			parse.GreatestAt: "Largest loop, from the bow", parse.GreatestHullGirth: "Largest loop", parse.GreatestFullGirth: "Largest loop", parse.GreatestPair: "Largest loop",
			parse.TransomHullGirth: "Transom", parse.TransomFullGirth: "Transom", parse.TransomPair: "Transom",
		},
		onTransom: "A square stern, at its end:", greatestAt: "Distance from the bow",
		feet: "ft", inches: "in", half: "½",
		pen: "Dark ball-point pen.", oneFigure: "One figure to a box, the last one in the last box.", nearest: in(unit, "Tick ½ for half an inch.", "To the nearest whole cm."), likeThis: "Like this:",
		hullColumn: "Hull girth", fullColumn: "Full girth",
		first: "first", second: "second",

		tracing: tracing{
			title: "Tracing the two ends",
			steps: [3]step{
				{"Set up", "Stand a stiff card on its edge in the middle plane of the boat, at the very end, so that the boat lies against it. Tape sheets like page 2 together, edge to edge, until it is large enough."},
				{"Trace", "Run a pencil along the boat and hold it square to the card: from the flat of the bottom, around the turn, up to the top."},
				{"Mark", "Glue a label to each tracing. Mark the top, and the foremost point at the bow, the aftmost at the stern."},
			},
			card: "card on edge", pencil: "pencil, square to it", flat: "flat of the bottom",
			bow: "Bow", stern: "Stern", up: "this way up",
			photo:   "*A photo of it* lets us look ahead; the paper is what we cut from. Take it from above, with all edges of the paper in view, and tell us what your tape reads along the line on the sheet.",
			measure: "Measure this line with your own tape and write what it reads:",
			print:   "Print at 100 %. Join sheets edge to edge, this way up. Trace right over the marks.",
		},

		unitName: "Unit", deckedQuestion: "Decked", yes: "yes", no: "no", sternQuestion: "Stern", station: "Station",
		sheetNames: map[parse.Measure]string{
			parse.LengthOverall: "Length overall", parse.BowHeight: "Bow height", parse.CarryPoint: "Carry point", parse.SternHeight: "Stern height",
			parse.GreatestAt: "Greatest girth at", parse.GreatestHullGirth: "Greatest hull girth", parse.GreatestFullGirth: "Greatest full girth", parse.GreatestOpening: "Opening there",
		},

		slipIntro:     "Each place twice, both written down.",
		slipApart:     "If the two differ by more than " + in(unit, "½ in", "1 cm") + ", write a third beside them. Find each mark again from the bow. Measure even if nothing has changed.",
		slipUnder:     "Did anything lie under the tape: cushion, seat, trestle, fitting?",
		slipNothing:   "No, nothing",
		slipSomething: "Yes:",
		slipCautions: "*Take care.* Two people lift. Low, steady trestles, tied against wind. Nobody under a boat that is not secured. Gloves on sharp rims. " +
			"Tired? Stop. These are the usual cautions; local rules come first.",
	}
}
