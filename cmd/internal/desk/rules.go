package desk

import (
	"fairtape/reply"
	"fairtape/validate"
)

// rules is what a shop may change while the service runs.
type rules struct {
	texts *reply.Texts
	costs validate.Costs
}

// Reload takes letters and costs of the judge in place of those that the desk
// began with. What is being worked off at that moment may still use the old
// ones; drafts that wait stay as they are.
func (d *Desk) Reload(texts *reply.Texts, costs validate.Costs) {
	d.rules.Store(&rules{texts, costs})
}
