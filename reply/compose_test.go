package reply

import "testing"

func TestEverySampleComposes(t *testing.T) {
	texts, err := LoadTexts(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range Samples() {
		if plan := Decide(s.Report, s.Job); plan.Action == Write {
			if _, err := texts.Compose(plan, s.Job); err != nil {
				t.Errorf("%s: %v", s.Name, err)
			}
		}
	}
}
