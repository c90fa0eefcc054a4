package doctor

import (
	"fmt"
	"time"
)

// How far this machine's clock may be off. Certificates, tokens and the age of
// mail are judged by it; a minute or two is common and harmless.
const (
	clockNear = 2 * time.Minute
	clockFar  = 15 * time.Minute
)

// told is what a server said about the time, and ours at that moment.
type told struct {
	who          string
	theirs, ours time.Time
}

func (x *examination) toldTime(who string, theirs time.Time) {
	if !theirs.IsZero() {
		x.clocks = append(x.clocks, told{who, theirs, x.Now()})
	}
}

// clock compares this machine's clock with what the servers said.
func (x *examination) clock() {
	if len(x.clocks) == 0 {
		x.skip("clock", "no server told its time")
		return
	}
	for _, c := range x.clocks {
		off := c.ours.Sub(c.theirs)
		direction := "ahead of"
		if off < 0 {
			direction = "behind"
		}
		message := fmt.Sprintf("This machine's clock is %v %s that of %s.", off.Abs().Round(time.Second), direction, c.who)
		const fix, next = "Let the system set the clock from the network.", "timedatectl set-ntp true"
		switch {
		case off.Abs() > clockFar:
			x.fault("clock", "clock-off", message, fix, next)
		case off.Abs() > clockNear:
			x.warn("clock", "clock-off", message, fix, next)
		default:
			x.ok("clock", "This machine's clock agrees with that of %s.", c.who)
		}
	}
}
