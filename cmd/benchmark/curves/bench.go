package curves

import (
	"hash/fnv"
	"math/rand/v2"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/validate/known"
)

// bench is one run: which boats, measured how, judged by whom.
type bench struct {
	seed   uint64
	count  int
	family known.Family
	class  known.Class // of the boats that slips befall
	tape   known.Tape
	judges []judge // ours first
}

// trial is one survey with what was done to it.
type trial struct {
	sheet  known.Sheet
	survey parse.Survey
	done   known.Done
}

// redraws is how many boats are drawn for one that a slip can befall.
const redraws = 200

// source returns the randomness of one survey: the same whatever else is drawn.
func (b bench) source(line string, i int) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(line))
	return rand.New(rand.NewPCG(b.seed, h.Sum64()+uint64(i)))
}

// boat draws a boat of the class.
func (b bench) boat(rng *rand.Rand, class known.Class) known.Sheet {
	if class == classMixed {
		all := everyClass()
		class = all[rng.IntN(len(all))]
	}
	return b.family.Draw(rng, class, b.tape)
}

// clean draws the surveys of a class, nothing wrong in them.
func (b bench) clean(class known.Class) []trial {
	trials := make([]trial, b.count)
	for i := range trials {
		sheet := b.boat(b.source("clean "+string(class), i), class)
		trials[i] = trial{sheet: sheet, survey: sheet.Survey}
	}
	return trials
}

// spoiled draws surveys that the slip befell; none where it never can.
func (b bench) spoiled(slip known.Slip) []trial {
	var trials []trial
	for i := range b.count {
		rng := b.source("slip "+string(slip), i)
		for range redraws {
			sheet := b.boat(rng, b.class)
			if survey, done, ok := sheet.Spoil(rng, slip); ok {
				trials = append(trials, trial{sheet, survey, done})
				break
			}
		}
		if len(trials) == 0 {
			return nil
		}
	}
	return trials
}

// count adds up what a judge makes of the trials.
func (j judge) count(trials []trial) tally {
	tallies := make([]tally, len(trials))
	each(len(trials), func(i int) {
		tallies[i] = score(trials[i], j.findings(trials[i].survey))
	})
	var sum tally
	for _, t := range tallies {
		sum.add(t)
	}
	return sum
}

// each calls f for 0 to n-1, on all cores.
func each(n int, f func(i int)) {
	figures.Each(n, 0, func(i int) error { f(i); return nil }) //nolint:errcheck // there is none
}
