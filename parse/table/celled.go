package table

import "fairtape/parse"

// readCelled reads rows whose cells each hold a label and its number: "Station
// 1 ft | hull 35.5 | full 42".
func (s *sheet) readCelled() {
	for _, row := range s.items {
		station, line := s.celled(row)
		if station == nil {
			continue
		}
		station.used = true
		for _, it := range line.cells() {
			s.items[it.row][it.col].used = true
		}
		s.found.singles = append(s.found.singles, line)
	}
}

// celled reads one such row; its station is nil when it is none. Every cell
// that holds anything has to be understood.
func (s *sheet) celled(items []*item) (station *item, line row) {
	for _, it := range items {
		switch {
		case it.empty():
			continue
		case it.used:
			return nil, row{}
		case station == nil:
			name, f := parse.ParseStation(it.Text)
			if f.Some() || name.Special != "" || it.Code != "" || !name.Ordinal && name.Amount.Scale == parse.Bare {
				return nil, row{}
			}
			station, line.name, line.label = it, name, it
			continue
		}
		if it.numeric {
			return nil, row{}
		}
		t := newTag(it)
		if t == nil || t.inline == nil || !t.label.none() {
			return nil, row{}
		}
		e := entry{item: t.inline, heading: t.scale}
		switch t.role {
		case roleHull:
			line.hull = append(line.hull, e)
		case roleFull:
			line.full = append(line.full, e)
		case roleOpening:
			line.opening = append(line.opening, e)
		default:
			return nil, row{}
		}
	}
	if len(line.hull)+len(line.full) == 0 {
		return nil, row{}
	}
	return station, line
}
