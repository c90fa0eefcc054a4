package opener

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

	"fairtape/parse"
)

// What an answer may hold at most. A child that was taken over can lie about
// the file it was given, and do no more than that.
const (
	surveysMost  = 50
	stationsMost = 5000
	problemsMost = 5000
)

// decode reads a child's answer and checks that it is one.
func decode(output []byte) (opened, error) {
	decoder := json.NewDecoder(bytes.NewReader(output))
	decoder.DisallowUnknownFields()
	var answer opened
	if err := decoder.Decode(&answer); err != nil {
		return opened{}, fmt.Errorf("understand the answer: %w", err)
	}
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		return opened{}, errors.New("there is more than one answer")
	}
	if err := sound(answer.Document); err != nil {
		return opened{}, err
	}
	if answer.Mail != nil {
		return answer, sound(answer.Mail.Document)
	}
	return answer, nil
}

func sound(doc parse.Document) error {
	if len(doc.Surveys) > surveysMost || len(doc.Problems) > problemsMost {
		return errors.New("the answer holds too much")
	}
	for _, p := range doc.Problems {
		if p.Shown != nil && !p.Shown.Sound() {
			return errors.New("the answer shows an impossible picture")
		}
	}
	for _, s := range doc.Surveys {
		if len(s.Stations) > stationsMost {
			return errors.New("the answer holds too many stations")
		}
		readings := []parse.Reading{
			s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint,
			s.Greatest.At, s.Greatest.HullGirth, s.Greatest.FullGirth, s.Greatest.Opening,
			s.Transom.HullGirth, s.Transom.FullGirth,
		}
		for _, st := range s.Stations {
			if !length(st.At) {
				return errors.New("the answer holds an impossible station")
			}
			readings = append(readings, st.HullGirth, st.FullGirth)
		}
		for _, r := range readings {
			if !length(r.Value) || !(r.Confidence >= 0 && r.Confidence <= 1) {
				return errors.New("the answer holds an impossible reading")
			}
		}
	}
	return nil
}

// length reports a number that a tape could show, however wrongly it was typed.
func length(l parse.Length) bool {
	return l >= 0 && !math.IsInf(float64(l), 0)
}
