package settings

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"time"

	"fairtape/parse"
)

// Key is one setting as people read of it.
type Key struct {
	Table   string // "imap", "imap.oauth2", "cloth.NAME"
	Name    string // "poll"
	Default string // as it would be written, "" where a shop has to write its own or nothing stands
	Help    string
}

// Reference lists every setting of one inbox, in the order of the tables,
// with the help that stands beside its field and the default that Default
// gives. Tables of [[inbox]] hold the same keys.
func Reference() []Key {
	var all []Key
	s := Default()
	s.IMAP.OAuth2 = &OAuth2{}
	var walk func(table string, v reflect.Value)
	walk = func(table string, v reflect.Value) {
		var deeper []func()
		for i := range v.NumField() {
			f, value := v.Type().Field(i), v.Field(i)
			name := f.Tag.Get("toml")
			full := strings.TrimPrefix(table+"."+name, ".")
			switch help := f.Tag.Get("help"); {
			case help != "":
				all = append(all, Key{table, name, written(value), help})
			case f.Anonymous:
				walk(table, value)
			case value.Kind() == reflect.Pointer && !value.IsNil():
				deeper = append(deeper, func() { walk(full, value.Elem()) })
			case value.Kind() == reflect.Struct:
				deeper = append(deeper, func() { walk(full, value) })
			case value.Kind() == reflect.Map:
				deeper = append(deeper, func() { walk(full+".NAME", value.MapIndex(reflect.ValueOf(defaultCloth))) })
			}
		}
		for _, d := range deeper {
			d()
		}
	}
	walk("", reflect.ValueOf(s))
	return all
}

// written puts a value as it stands in a settings file, "" for nothing.
func written(v reflect.Value) string {
	switch value := v.Interface().(type) {
	case Duration:
		return strconv.Quote(shortest(value.Duration))
	case Clock:
		return strconv.Quote(time.Time{}.Add(value.SinceMidnight).Format("15:04"))
	case Timezone:
		return strconv.Quote(value.String())
	case Length:
		return strconv.Quote(strconv.FormatFloat(value.In(parse.Inch), 'f', -1, 64) + " in")
	case []string:
		return "[]"
	}
	if v.Kind() == reflect.String {
		if v.String() == "" {
			return ""
		}
		return strconv.Quote(v.String())
	}
	return fmt.Sprint(v.Interface())
}

// shortest writes a duration in the largest unit that leaves a whole number.
func shortest(d time.Duration) string {
	for _, unit := range []struct {
		letter string
		length time.Duration
	}{{"y", year}, {"d", day}, {"h", time.Hour}, {"m", time.Minute}} {
		if d >= unit.length && d%unit.length == 0 {
			return strconv.FormatInt(int64(d/unit.length), 10) + unit.letter
		}
	}
	return strconv.FormatFloat(d.Seconds(), 'f', -1, 64) + "s"
}
