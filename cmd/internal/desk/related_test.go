package desk

import (
	"mime"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
)

// chatter is a mail of few words.
type chatter struct{ subject, body string }

// lifeGoesOn has nothing to do with a survey: nobody's boat is in them.
var lifeGoesOn = []chatter{
	{"Lunch", "Lunch on Friday at 12?"},
	{"Friday", "Hi Ros,\n\nare we still on for Friday? I can be there at 6.\n\nJo"},
	{"Parking", "The car park behind the loft will be closed on 14 March while they mark the bays."},
	{"Meeting moved", "The traders' meeting is moved to Tuesday 19:30, room 4."},
	{"Your invoice 20418", "Please find enclosed our invoice for the electricity of May.\nAmount due: 84.20"},
	{"Window cleaning", "We are in your street on Thursday and could do your windows. Shall I ring the bell?"},
	{"Thank you", "Thank you for the lovely tea yesterday. The children loved the cake!"},
	{"Job?", "Hello,\n\nmy daughter is 16 and looks for work in the summer. She sews well. Could she come by?\n\nBea Holm"},
	{"Raffle", "Would you give something for the raffle of the primary school? Anything is welcome."},
	{"Re: keys", "I left the keys with the neighbour at number 9."},
	{"Wifi", "The new password for the wifi hangs beside the kettle."},
	{"Happy birthday!", "Happy birthday, Ros! 40 today, who would have thought."},
	{"Photos from Sunday", "Here are the photos from Sunday's walk. Lovely day."},
	{"Opening hours", "What time do you close on Saturdays?"},
	{"Bread order", "Two loaves of the rye and one of the white for Saturday, please."},
	{"Lost cat", "Our grey cat Minna has been gone since Monday. Would you look in your shed?"},
	{"Choir", "Choir practice is at 7 pm this week, bring the blue folder."},
	{"Dentist", "This is to remind you of your appointment on 3 June at 10:15."},
	{"Car", "The garage says the van is ready. They close at 5."},
	{"Dîner", "Bonsoir,\n\non mange ensemble vendredi à 19 h ?\n\nLuc"},
}

// fewWords is about a survey all the same. None may be left unsaid.
var fewWords = []chatter{
	{"", "84: 51"},
	{"Fwd", "12 35 1/2 42"},
	{"hull", "37\" at 4 ft"},
	{"as asked", "It is 50.8, not 41"},
	{"my boat", "See attached."},
	{"cover", "How long does it take?"},
	{"canoe", "hi can you make one for mine"},
	{"15'9\"", "Thanks, Al"},
	{"re-measured", "same again"},
	{"sizes", "35 42\n38 52\n41 60"},
	{"girth", "46"},
	{"length", "15 ft 9"},
	{"", "4,80 m"},
	{"Housse", "Bonjour, faites-vous une housse pour mon canoë ?"},
	{"Dinghy", "Can I send you the measurements on Monday?"},
	{"", "480 cm"},
	{"tape", "I only have a metal tape, is that all right?"},
	{"stern", "It's square."},
	{"bow height", "eighteen and a half"},
	{"", "station 5 hull 47 full 61"},
}

// arrives lets one mail arrive at a shop that knows nobody yet.
func (c chatter) arrives(t *testing.T) *world {
	w := newWorld(t)
	w.reader = bodies{}
	w.arrive(mail{uid: 1, from: "Jo Fenn <jo@fenn.example>", subject: mime.QEncoding.Encode("utf-8", c.subject), id: "1@fenn.example",
		header: "MIME-Version: 1.0\r\nContent-Type: text/plain; charset=utf-8\r\n", body: strings.ReplaceAll(c.body, "\n", "\r\n")})
	return w
}

func TestUnrelatedMailIsLeftAlone(t *testing.T) {
	for _, c := range lifeGoesOn {
		t.Run(c.subject, func(t *testing.T) {
			w := c.arrives(t)
			if m := w.message(1); m.End != ledger.Ignored || m.Job != 0 || len(w.threads)+len(w.said)+len(w.drafts) != 0 {
				t.Errorf("%q ended as %s, %d threads, said %v, %d in Drafts", c.body, m.End, len(w.threads), w.said, len(w.drafts))
			}
		})
	}
}

func TestTerseMailIsNotLost(t *testing.T) {
	for _, c := range fewWords {
		t.Run(c.subject+" "+c.body, func(t *testing.T) {
			w := c.arrives(t)
			m := w.message(1)
			if m.End == ledger.Ignored || m.Job != 1 || len(w.threads) != 1 {
				t.Fatalf("it ended as %s: %s; %d threads", m.End, m.Reason, len(w.threads))
			}
			t.Logf("%s: %s, %d in Drafts", m.End, m.Reason, len(w.drafts))
			if m.End == ledger.Held && len(w.drafts) != 0 {
				t.Error("nobody knows what it is about, and a letter waits")
			}
		})
	}
}
