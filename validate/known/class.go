package known

// Class is a kind of boat that the family of simulated boats knows.
type Class string

// The classes. Ordinary boats are open double-enders with a fair sheer; the
// others are honest boats that look odd in a table of girths.
const (
	Ordinary      Class = "ordinary"
	CutDown       Class = "cut down, abrupt" // sides lowered amidships
	CutDownRamped Class = "cut down, ramped"
	StepHull      Class = "step in hull girth" // one step in the sheer, sides plumb: the opening stays
	StepBoth      Class = "step in both"       // one step, sides flared: the opening changes too
	TwoSteps      Class = "two steps"
	Ramp          Class = "ramp" // a step in the sheer that takes 1 to 4 ft
	Recurved      Class = "recurved ends"
	Plumb         Class = "plumb ends"
	Transom       Class = "transom"
	Tumblehome    Class = "tumblehome"
	FullForward   Class = "full forward"
	FullAft       Class = "full aft"
	Decked        Class = "decked"
)

// OddClasses returns the classes beside Ordinary.
func OddClasses() []Class {
	return []Class{
		CutDown, CutDownRamped, StepHull, StepBoth, TwoSteps, Ramp, Recurved,
		Plumb, Transom, Tumblehome, FullForward, FullAft, Decked,
	}
}
