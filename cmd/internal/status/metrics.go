package status

import (
	"fmt"
	"io"
	"maps"
	"runtime"
	"slices"
	"strings"

	"fairtape/cmd/internal/ledger"
)

// write writes the metrics in the text format of Prometheus (prometheus.io,
// "Exposition formats"): one unit each, base units, no address or name of a
// person in any label.
func (b *Board) write(w io.Writer, c ledger.Counts) error {
	b.mu.Lock()
	started := float64(b.started.UnixMilli()) / 1000
	all, oldest := 1, 0.0
	for _, in := range b.inboxes {
		if in.trouble != nil || in.looked.IsZero() {
			all = 0
		}
		if at := float64(in.looked.UnixMilli()) / 1000; !in.looked.IsZero() && (oldest == 0 || at < oldest) {
			oldest = at
		}
	}
	b.mu.Unlock()
	var memory runtime.MemStats
	runtime.ReadMemStats(&memory)

	var out strings.Builder
	single := func(name, kind, help string, value any) {
		fmt.Fprintf(&out, "# HELP %s %s\n# TYPE %s %s\n%s %v\n", name, help, name, kind, name, value)
	}
	byState := func(name, kind, label, help string, counts map[string]int) {
		fmt.Fprintf(&out, "# HELP %s %s\n# TYPE %s %s\n", name, help, name, kind)
		for _, state := range slices.Sorted(maps.Keys(counts)) {
			fmt.Fprintf(&out, "%s{%s=%q} %d\n", name, label, state, counts[state])
		}
	}
	single("fairtape_start_time_seconds", "gauge", "When the service started, since 1970.", started)
	single("fairtape_mailbox_watched", "gauge", "1 while every inbox can be looked at.", all)
	single("fairtape_mailbox_last_look_seconds", "gauge", "When the inbox was last looked at, of several the one longest ago, since 1970; 0 for never.", oldest)
	single("fairtape_memory_bytes", "gauge", "Memory that the service holds from the system, without its children.", memory.Sys)
	single("fairtape_goroutines", "gauge", "Goroutines that run; they do not grow with the mails.", runtime.NumGoroutine())
	byState("fairtape_messages_total", "counter", "end", "Mails that were seen, by where they ended.", c.Messages)
	byState("fairtape_jobs", "gauge", "state", "Jobs by state.", c.Jobs)
	byState("fairtape_letters", "gauge", "state", "Letters by state.", c.Drafts)
	byState("fairtape_acts", "gauge", "state", "Acts outside by state; planned, trying and unsure wait.", c.Acts)
	_, err := io.WriteString(w, out.String())
	return err
}
