//go:build !linux

package opener

func (o *Opener) systemLimits() []Limit {
	const need = "Linux; on this system the service should run as a user of its own"
	return []Limit{
		{"other programs and new connections", false, need},
		{"files other than its cache", false, need},
		{"the network", false, need},
	}
}
