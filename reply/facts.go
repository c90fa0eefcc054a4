package reply

// Facts is everything that a sentence of a letter may speak of, ready to be
// read: numbers stand in the customer's unit and language. A sentence about
// one item of a list has the item's own facts filled in, others do not. It
// holds no number that the shop expects, so no text can tell one.
type Facts struct {
	Name      string // the customer's, "" when not known
	Boat      string // make and model, "" when not known
	Shop      string
	Telephone string
	Post      string // where tracings are sent
	Job       int
	Round     int
	By        string // the day an answer is asked for, "Wednesday 2 December"
	Sent      string // the day of the customer's mail

	Tasks     string // what is asked, as a list in a sentence
	Asks      bool   // anything is asked
	Measuring bool   // a tape is needed
	AllAgain  bool
	Places    int // to be measured again now, at most five
	Rest      int // more of them, while the tape is out
	Questions int
	Missing   int // numbers that are not here yet
	Files     int // that could not be read
	Minutes   int // 0 when there is nothing to tell
	Done      int // stations with both girths
	Stations  int // that the boat should have; 0 when not known

	Tracings     string // the ends whose paper tracing is still to come, "bow and stern"
	TracingCount int
	FormFile     string // name of the attached form
	SlipFile     string // name of the attached page for measuring again
	Ringed       string // the places ringed in the picture
	Near         string // how far two tries may differ, "half an inch"
	Grain        string // how finely to measure, "half inch"

	// Facts of one item.
	Where   string // "7 ft, hull girth"
	Measure string // "hull girth"
	Wrote   string // as the customer wrote it
	Other   string // the second number of a pair
	From    string // first station of a run
	To      string // last station of a run
	Count   int    // stations in a run
	File    string // a file's name
	Sort    string // "archive", "sound" or ""
	Reason  string // why a tracing was sent back
}

// sampleFacts has every fact filled in.
func sampleFacts() Facts {
	return Facts{
		Name: "Ann Hollis", Boat: "Heron 15", Shop: "Pinfold Cover Loft", Telephone: "555 0137",
		Post: "4 Mill Lane", Job: 14, Round: 1, By: "Wednesday 2 December", Sent: "24 November",
		Tasks: "measure 2 places again", Asks: true, Measuring: true, Places: 2, Questions: 1, Missing: 3, Files: 1,
		Minutes: 8, Done: 9, Stations: 17, Tracings: "bow and stern", TracingCount: 2,
		FormFile: "form.pdf", SlipFile: "again.pdf", Ringed: "7 ft and 9 ft", Near: "half an inch", Grain: "half inch",
		Where: "7 ft, hull girth", Measure: "hull girth", Wrote: "41", Other: "50", From: "10 ft", To: "17 ft", Count: 8,
		File: "survey.numbers", Sort: "archive", Reason: "the foremost point is not marked",
	}
}
