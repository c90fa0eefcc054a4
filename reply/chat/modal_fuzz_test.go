package chat

import (
	"encoding/json"
	"testing"

	"github.com/slack-go/slack"
)

// Whatever comes back as a modal, it is read or refused; what is read is
// complete.
func FuzzSubmission(f *testing.F) {
	f.Add([]byte(`{"id":"V1","callback_id":"edit","private_metadata":"{\"after\":[\"\\n\",\"\"]}","state":{"values":{"letter.1":{"input":{"value":"x"}}}}}`))
	f.Add([]byte(`{"callback_id":"correct","private_metadata":"{}","state":{"values":{"doubt.a":{"input":{"value":"4"}},"other.measure":{"input":{"selected_option":{"value":"hull_girth"}}}}}}`))
	f.Add([]byte(`{"callback_id":"hold","private_metadata":"{}","state":{"values":{"until":{"input":{"selected_date":"2026-12-01"}}}}}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var view slack.View
		if json.Unmarshal(raw, &view) != nil {
			return
		}
		event, wrong := submission(view, nil)
		if len(wrong) > 0 {
			return
		}
		switch {
		case event.Kind == Edited && event.Text == "",
			event.Kind == Corrected && len(event.Corrections) == 0,
			event.Kind == Held && event.Until == "" && event.Reason == "":
			t.Errorf("an empty decision from %s: %+v", raw, event)
		}
		for _, c := range event.Corrections {
			if c.Value == "" || c.Key == "" && c.Measure == "" {
				t.Errorf("half a correction from %s: %+v", raw, c)
			}
		}
	})
}
