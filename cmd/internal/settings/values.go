package settings

// The types of values are structs, so that a bare number in the file is not
// taken for nanoseconds or millimetres.

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"fairtape/parse"
)

const (
	day  = 24 * time.Hour
	year = 365 * day
)

// Duration is a length of time written as "60s", "10m", "12h", "3d", "4w" or
// "2y". Days have 24 hours and years 365 days: nothing here hangs on an hour.
type Duration struct{ time.Duration }

// UnmarshalText reads a duration.
func (d *Duration) UnmarshalText(text []byte) error {
	units := map[byte]time.Duration{
		's': time.Second, 'm': time.Minute, 'h': time.Hour,
		'd': day, 'w': 7 * day, 'y': year,
	}
	s := strings.TrimSpace(string(text))
	if s != "" {
		if per, ok := units[s[len(s)-1]]; ok {
			n, err := strconv.ParseFloat(strings.TrimSpace(s[:len(s)-1]), 64)
			if err == nil && n > 0 && n < float64(200*year/per) {
				d.Duration = time.Duration(n * float64(per))
				return nil
			}
		}
	}
	return wrongValue{value: s, fix: `write a number and one of s, m, h, d, w, y, as in "60s" or "3d"`}
}

// Clock is an hour of the day, as the time since midnight, written "08:00".
type Clock struct{ SinceMidnight time.Duration }

// UnmarshalText reads an hour of the day.
func (c *Clock) UnmarshalText(text []byte) error {
	t, err := time.Parse("15:04", strings.TrimSpace(string(text)))
	if err != nil {
		return wrongValue{value: string(text), fix: `write hours and minutes of a 24-hour clock, as in "08:00"`}
	}
	c.SinceMidnight = time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute
	return nil
}

// Timezone is a place of the time zone database, written "America/Halifax".
type Timezone struct {
	*time.Location
}

// UnmarshalText reads the name of a time zone.
func (z *Timezone) UnmarshalText(text []byte) error {
	loc, err := time.LoadLocation(string(text))
	if err != nil || string(text) == "Local" {
		return wrongValue{value: string(text), fix: `write a place of the time zone database, as in "America/Halifax" or "UTC"`}
	}
	z.Location = loc
	return nil
}

// Length is a length with its unit, written "1/2 in" or "15 cm".
type Length struct{ parse.Length }

// wrongValue is a value that cannot be meant, and what to write instead.
type wrongValue struct {
	value string
	fix   string
}

func (e wrongValue) Error() string {
	return fmt.Sprintf("%q cannot be meant; %s", e.value, e.fix)
}

// UnmarshalText reads a length. A bare number is refused: nobody should have
// to guess its unit.
func (l *Length) UnmarshalText(text []byte) error {
	amount, fault := parse.ParseLength(string(text))
	length, ok := amount.Length(parse.Bare)
	if fault.Some() || !ok {
		return wrongValue{value: string(text), fix: `write a number and its unit, as in "1/2 in", "1 ft" or "15 mm"`}
	}
	l.Length = length
	return nil
}
