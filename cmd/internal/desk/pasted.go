package desk

import (
	"context"
	"errors"
	"slices"
	"strings"
	"unicode"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/ingest/eml"
	"fairtape/parse"
)

// pastedShare is how much of a letter of ours has to stand in a mail, in words,
// for it to be that letter pasted back: a few of our words are anybody's.
const pastedShare = 0.5

// markPasted puts quotation marks before the lines of a letter of ours that
// came back without them: they are not the customer's words.
func (d *Desk) markPasted(ctx context.Context, m ingest.Message, from string) (ingest.Message, error) {
	if strings.TrimSpace(m.Text) == "" {
		return m, nil
	}
	letters, err := d.lettersTo(ctx, m, from)
	if err != nil {
		return m, err
	}
	for _, letter := range slices.Backward(letters) {
		if text, ok := markLetter(m.Text, letter); ok {
			m.Text = text
			return m, nil
		}
	}
	return m, nil
}

// lettersTo returns the texts of the letters that a mail may bring back, oldest
// first: those of the job whose mails it answers, else of the sender's jobs.
func (d *Desk) lettersTo(ctx context.Context, m ingest.Message, from string) (letters []string, err error) {
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		jobs := []ledger.Job{{}}
		if jobs[0], err = d.jobOfMails(tx, slices.Concat(m.InReplyTo, m.References)); errors.Is(err, ledger.ErrNone) {
			jobs, err = tx.JobsOf(d.Account, from)
		}
		if err != nil {
			return err
		}
		for _, j := range jobs {
			drafts, err := tx.Drafts(d.Account, j.ID)
			if err != nil {
				return err
			}
			for _, l := range drafts {
				if l.State == ledger.DraftSent || l.State == ledger.DraftUnsure {
					letters = append(letters, sentText(l))
				}
			}
		}
		return nil
	})
	return letters, err
}

// sentText is a letter's text as it went out, where that is known.
func sentText(l ledger.Draft) string {
	if m, err := eml.Parse(l.Outgoing); err == nil && m.Text != "" {
		return m.Text
	}
	return l.Letter
}

// markLetter marks the lines of a letter that stand in a text, and reports
// whether enough of it is there. Mail programs break the lines anew, so that a
// line is the letter's when its words follow each other there; and the lines
// come in the letter's order, so that a number which the customer repeats above
// it stays theirs.
func markLetter(text, letter string) (string, bool) {
	all := bareWords(letter)
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	chain := inOrder(lines, all)
	found := 0
	for _, f := range chain {
		found += f.words
	}
	if total := wordsOf(all); total == 0 || float64(found) < pastedShare*float64(total) {
		return text, false
	}
	for _, f := range chain {
		lines[f.line] = "> " + lines[f.line]
	}
	for i := chain[0].line; i < chain[len(chain)-1].line; i++ {
		if wordsOf(bareWords(lines[i])) == 0 { // rules under headings, and empty lines
			lines[i] = "> " + lines[i]
		}
	}
	return strings.Join(lines, "\n"), true
}

// fit is a line of a text that stands in a letter, and where.
type fit struct{ line, at, words int }

// mostFits bounds the work on a mail that repeats our words without end: a
// letter has some hundred lines.
const mostFits = 2000

// inOrder returns the lines of a text that stand in a letter in the same order,
// as many words of them as can be.
func inOrder(lines []string, letter string) []fit {
	var fits []fit
	for i, line := range lines {
		words := bareWords(line)
		if n := wordsOf(words); n > 0 && !strings.HasPrefix(strings.TrimSpace(line), ">") {
			for at := strings.Index(letter, words); at >= 0 && len(fits) < mostFits; {
				fits = append(fits, fit{i, at, n})
				next := strings.Index(letter[at+1:], words)
				if next < 0 {
					break
				}
				at += 1 + next
			}
		}
	}
	best, before := make([]int, len(fits)), make([]int, len(fits))
	top := -1
	for i, f := range fits {
		best[i], before[i] = f.words, -1
		for j, g := range fits[:i] {
			if g.line < f.line && g.at < f.at && best[j]+f.words > best[i] {
				best[i], before[i] = best[j]+f.words, j
			}
		}
		if top < 0 || best[i] > best[top] {
			top = i
		}
	}
	var chain []fit
	for i := top; i >= 0; i = before[i] {
		chain = append(chain, fits[i])
	}
	slices.Reverse(chain)
	return chain
}

func wordsOf(bare string) int { return len(strings.Fields(bare)) }

// bareWords is a text as words with one space around each, without case, marks
// and breaks. Signs that make a number another one stay.
func bareWords(s string) string {
	fields := strings.FieldsFunc(parse.Fold(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("½¼¾⅛⅜⅝⅞/", r)
	})
	return " " + strings.Join(fields, " ") + " "
}
