package reply

import (
	"time"

	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// Sample is a made-up job with its survey.
type Sample struct {
	Name   string // "ask", "thanks", ...; the language is the job's
	Report validate.Report
	Job    Job
}

// Samples returns a made-up job for every kind of letter, in each language:
// texts of a shop's own are tried on them, and previews show them. The English
// ones are in inches and the French ones in centimetres.
func Samples() []Sample {
	var list []Sample
	for _, b := range []boat{heron(), loutre()} {
		list = append(list, b.samples()...)
	}
	return list
}

// boat is an invented boat with a customer, of which the samples are made.
type boat struct {
	survey   parse.Survey
	customer ingest.Address
	language string
	subject  string
	mail     string
	refused  string // why a tracing was sent back
	question string
	answer   string
}

func heron() boat {
	return boat{
		survey: surveyOf(parse.Inch, "Heron 15", 189, 12,
			[]float64{16, 24, 31, 36.5, 41, 44.5, 47, 48.5, 48, 46, 43, 38.5, 33, 26, 17}),
		customer: ingest.Address{Name: "Ann Hollis", Address: "ann@hollis.example"},
		language: English,
		subject:  "Survey of our canoe",
		mail: "Hello,\n\nhere are the numbers of our canoe, taken on Sunday with my son.\n" +
			"The form is attached.\n\nAnn Hollis\n-- \nSent from the shed",
		refused:  "the foremost point is not marked",
		question: "Can the cover be dark green?",
		answer:   "Yes, the cloth comes in dark green at the same price.",
	}
}

func loutre() boat {
	return boat{
		survey: surveyOf(parse.Centimetre, "Loutre 480", 480, 30,
			[]float64{40, 60, 78, 92, 103, 112, 118, 122, 121, 116, 108, 97, 83, 66, 43}),
		customer: ingest.Address{Name: "Luc Tremblay", Address: "luc@tremblay.example"},
		language: French,
		subject:  "Mesures du canot",
		mail: "Bonjour,\n\nvoici les mesures de notre canot, prises dimanche.\n\nMerci,\nLuc Tremblay\n\n" +
			"Le 2 novembre 2026, Atelier a écrit :\n> Bonjour Luc",
		refused:  "Le point le plus avant n'est pas marqué.",
		question: "La housse peut-elle être verte ?",
		answer:   "Oui, la toile existe en vert foncé au même prix.",
	}
}

// surveyOf makes a survey from hull girths along a boat, in its unit; the
// opening is a fixed share of the girth, which is all that a letter needs.
func surveyOf(unit parse.Unit, name string, length, spacing float64, hull []float64) parse.Survey {
	const opening = 0.45
	read := func(x float64) parse.Reading {
		return parse.Reading{Value: parse.Measured(x, unit), Known: true, Confidence: parse.Typed}
	}
	s := parse.Survey{
		Unit: unit, Boat: name, Stern: parse.Pointed,
		LengthOverall: read(length), BowHeight: read(hull[0] + 1.5), SternHeight: read(hull[0]), CarryPoint: read(spacing * 1.5),
	}
	for i, girth := range hull {
		s.Stations = append(s.Stations, parse.Station{
			At:   parse.Measured(spacing*float64(i+1), unit),
			Pair: parse.Pair{HullGirth: read(girth), FullGirth: read(girth + float64(int(girth*opening)))},
		})
	}
	miswrite(s.Stations)
	return s
}

// miswrite puts slips where the sample letters ask, so that what "your survey
// says now" looks as it does in life.
func miswrite(stations []parse.Station) {
	const at4, at7, at10, at11 = 3, 6, 9, 10
	scale := func(r *parse.Reading, by parse.Length) { r.Value *= by }
	swap := func(p *parse.Pair) { p.HullGirth, p.FullGirth = p.FullGirth, p.HullGirth }
	swap(&stations[at4].Pair)
	scale(&stations[at7].HullGirth, 0.5)
	scale(&stations[at10].HullGirth, 10)
	swap(&stations[at11].Pair)
}

// samples makes one job for each kind of letter.
func (b boat) samples() []Sample {
	at := func(station int) parse.Length { return b.survey.Stations[station-1].At }
	recheck := func(station int, m parse.Measure) validate.Finding {
		return validate.Finding{Kind: validate.Recheck, Cell: parse.Cell{At: at(station), Measure: m}}
	}
	var many []validate.Finding
	for station := 2; station <= 13; station++ {
		many = append(many, recheck(station, parse.FullGirth))
	}
	two := []validate.Finding{recheck(7, parse.HullGirth), recheck(4, parse.MeasurePair)}
	several := append(append([]validate.Finding{}, many[:7]...),
		validate.Finding{Kind: validate.Confirm, Slip: slip.DecimalLost, Cell: parse.Cell{At: at(10), Measure: parse.HullGirth}},
		validate.Finding{Kind: validate.Confirm, Slip: slip.SwappedPair, Cell: parse.Cell{At: at(11), Measure: parse.MeasurePair}},
		validate.Finding{Kind: validate.Missing, Cell: parse.Cell{Measure: parse.GreatestPair}},
	)
	questions := []validate.Finding{
		{Kind: validate.Confirm, Slip: slip.RowSkipped, Rows: []parse.Length{at(6), at(7), at(8)}},
		{Kind: validate.Confirm, Cell: parse.Cell{At: at(6), Measure: parse.FullGirth}},
		{Kind: validate.Confirm, Cell: parse.Cell{Measure: parse.BowHeight}},
	}
	trouble := []parse.Problem{
		{Code: "file-locked", Source: parse.Source{File: "mail.eml/survey.xlsx"}},
		{Code: "file-wrong-kind", Source: parse.Source{File: "mail.eml/survey.zip"}},
	}
	return []Sample{
		b.sample("thanks", validate.Clean, nil, nil),
		b.sample("thanks-complete", validate.Clean, nil, func(s *Sample) { s.Job.Bow.In, s.Job.Stern.In = true, true }),
		b.sample("ask", validate.NeedRecheck, two, func(s *Sample) { s.Job.Slip = &File{Name: "again.pdf"} }),
		b.sample("ask-several", validate.NeedRecheck, several, func(s *Sample) {
			s.Report.Problems = trouble[:1]
			s.Job.Bow.In = true
			s.Job.Stern.Refused = b.refused
			s.Job.Request = Request{Question: b.question, Answer: b.answer}
		}),
		b.sample("ask-all", validate.NeedRecheck, many, func(s *Sample) { s.Job.Form = &File{Name: "form.pdf"} }),
		b.sample("ask-again", validate.NeedRecheck, two[:1], func(s *Sample) { s.Job.Round = 2 }),
		b.sample("questions", validate.NeedRecheck, questions, nil),
		b.half(),
		b.sample("unreadable", validate.Unreadable, nil, func(s *Sample) {
			s.Report.Survey = parse.Survey{}
			s.Report.Problems = trouble
		}),
		b.sample("form", validate.Unreadable, nil, func(s *Sample) {
			s.Report.Survey = parse.Survey{}
			s.Job.Request.Form = true
			s.Job.Form = &File{Name: "form.pdf"}
		}),
		b.sample("reminder", validate.NeedRecheck, two, func(s *Sample) { s.Job.Reminder = 1 }),
		b.sample("reminder-tracings", validate.Clean, nil, func(s *Sample) { s.Job.Reminder, s.Job.Stern.In = 1, true }),
		b.sample("thanks-again", validate.Clean, nil, func(s *Sample) { s.Job.Round = 2 }),
		b.sample("telephone", validate.NeedRecheck, two, func(s *Sample) { s.Job.Round = Rounds }),
	}
}

// half is a survey of which the after part is still to be done.
func (b boat) half() Sample {
	const done = 9
	lacking := []validate.Finding{{Kind: validate.Missing, Cell: parse.Cell{Measure: parse.SternHeight}}}
	for _, station := range b.survey.Stations[done:] {
		lacking = append(lacking, validate.Finding{Kind: validate.Missing, Cell: parse.Cell{At: station.At, Measure: parse.MeasurePair}})
	}
	return b.sample("half", validate.Incomplete, lacking, func(s *Sample) {
		s.Report.Survey.SternHeight = parse.Reading{}
		s.Report.Survey.Stations = s.Report.Survey.Stations[:done]
	})
}

func (b boat) sample(name string, verdict validate.Verdict, findings []validate.Finding, change func(*Sample)) Sample {
	sent := time.Date(2026, time.November, 24, 19, 5, 0, 0, time.UTC)
	s := Sample{
		Name:   name,
		Report: validate.Report{Survey: b.survey, Findings: findings, Verdict: verdict},
		Job: Job{
			ID:         DraftID{Job: 14, Version: 2},
			MessageID:  "14-2@pinfold.example",
			Now:        sent.Add(14 * time.Hour),
			AnswerDays: 7,
			Shop: Shop{
				Name: "Pinfold Cover Loft", From: ingest.Address{Name: "Pinfold Cover Loft", Address: "orders@pinfold.example"},
				Telephone: "+1 902 555 0137", Post: "Pinfold Cover Loft, 4 Mill Lane, Larch Cove",
			},
			Customer: b.customer,
			Answers: ingest.Message{
				ID: "survey@customer.example", From: b.customer, Subject: b.subject, Date: sent, Text: b.mail,
			},
			Language: b.language,
			Round:    1,
		},
	}
	if change != nil {
		change(&s)
	}
	return s
}
