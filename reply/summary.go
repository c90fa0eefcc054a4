package reply

import "fairtape/validate"

// Summarise puts a job at a glance for the shop. The draft is nil when there
// is no letter. Picture and State are left to the caller.
func Summarise(report validate.Report, job Job, plan Plan, draft *Draft) Summary {
	return Summary{Job: job.ID.Job}
}
