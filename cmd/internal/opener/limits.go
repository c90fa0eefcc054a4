package opener

// Limit is one of the walls around a child.
type Limit struct {
	Name string // what it keeps the child from
	Here bool   // this system has it
	Need string // what the system would need for it; "" where it is here
}

// Limits tells which walls stand around the children on this system, by trying.
// Time, memory and output are limited everywhere.
func (o *Opener) Limits() []Limit {
	return append([]Limit{{Name: "endless time, memory and output", Here: true}}, o.systemLimits()...)
}
