package chat

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/slack-go/slack"

	"fairtape/reply"
)

// Limits of the service, in characters after escaping.
// Source: docs.slack.dev, reference of chat.postMessage and of Block Kit.
const (
	maxText    = 3900 // 4,000, beyond which a post can no longer be changed
	maxSection = 3000
	maxConfirm = 300
	// A glance: about what two lines hold on a telephone held upright.
	maxGlance = 110
)

// The action ids of the four buttons, which are the kinds of their events.
const decideBlock = "decide"

// What a person hears who does not see the buttons.
const buttonsHelp = "Buttons: Send mails the letter to the customer. " +
	"Edit opens the letter for changes. Correct lets you give readings. " +
	"Hold keeps the letter back until a date or for a reason."

const buttonsHelpQuestion = " Send first asks whether the customer's question has been answered."

// Message is one message of a thread as the service takes it. A message with a
// picture or another file has no text of its own.
type Message struct {
	Text    string         `json:"text,omitempty"` // escaped; says everything the blocks say
	Blocks  []slack.Block  `json:"blocks,omitempty"`
	Picture *reply.Picture `json:"-"`
	// Title is that of the picture.
	Title string `json:"-"`
	// Attached is a file that is no picture.
	Attached *reply.File `json:"-"`
	File     string      `json:"file,omitempty"`
	Alt      string      `json:"alt_txt,omitempty"`

	tag tag
}

// tag marks a message as ours, so that it can be found again. It travels as the
// message's metadata; a file has it in its name.
type tag struct {
	job        int
	part, mark string
}

func (t tag) String() string { return fmt.Sprintf("%d/%s/%s", t.job, t.part, t.mark) }

// Parts of a job's thread.
const (
	partGlance   = "glance"
	partFindings = "findings"
	partPicture  = "picture"
	partLetter   = "letter"
	partSaying   = "saying"
	partFile     = "file"
)

// Messages returns what Show says for a summary: the first post, then its
// thread.
func Messages(s reply.Summary) []Message {
	messages := []Message{glance(s)}
	if findings, ok := findingsMessage(s); ok {
		messages = append(messages, findings)
	}
	if s.Doubts != nil && len(s.Doubts.PNG) > 0 {
		messages = append(messages, pictureMessage(s.Job, s.Doubts, "Numbers in doubt"))
	}
	if s.Picture != nil && len(s.Picture.PNG) > 0 {
		messages = append(messages, pictureMessage(s.Job, s.Picture, "Girths along the boat"))
	}
	return append(messages, letterMessages(s)...)
}

// glance is the first post, to be taken in at once: two lines, and the buttons
// or, in a third, what became of the job. The rest is in the thread.
func glance(s reply.Summary) Message {
	lines := []string{"*" + glanceLine(s.Headline) + "*"}
	if second := SecondLine(s); second != "" {
		lines = append(lines, glanceLine(second))
	}
	blocks := []slack.Block{section(strings.Join(lines, "\n"))}
	if s.State != "" {
		blocks = append(blocks, slack.NewContextBlock("", mrkdwn(glanceLine(s.State))))
	}
	if s.Draft != "" {
		blocks = append(blocks, buttons(s))
	}
	return Message{
		Text:   glanceText(s),
		Blocks: blocks,
		tag:    tag{job: s.Job, part: partGlance},
	}
}

// SecondLine is what the first post says under the headline, not yet escaped or
// cut: the one thing to know first, or the facts where nothing presses.
func SecondLine(s reply.Summary) string {
	if urgent := mostUrgent(s); urgent != "" {
		return urgent
	}
	return strings.Join(s.Facts, " · ")
}

// glanceLine is one line, escaped, cut to a glance.
func glanceLine(text string) string {
	return shortenEscaped(Escape(oneLine(text)), maxGlance)
}

// mostUrgent is the one thing to know first.
func mostUrgent(s reply.Summary) string {
	line := func(what string, list []string) string {
		text := what + shorten(oneLine(list[0]), maxGlance-40)
		if more := len(list) - 1; more > 0 {
			text += fmt.Sprintf(" (and %d more in the thread)", more)
		}
		return text
	}
	switch {
	case s.Question != "":
		return "Asks first: " + s.Question
	case s.Telephone && len(s.Asks) > 0:
		return line("Telephone: ", s.Asks)
	case len(s.Findings) > 0:
		return line("Odd: ", s.Findings)
	case len(s.Problems) > 0:
		return line("Not read: ", s.Problems)
	case len(s.Missing) > 0:
		return line("Missing: ", s.Missing)
	case len(s.Asks) > 0:
		return line("The letter asks: ", s.Asks)
	}
	return ""
}

// glanceText stands for the whole first post where blocks are not seen.
func glanceText(s reply.Summary) string {
	help := ""
	if s.Draft != "" {
		help = buttonsHelp
		if s.Question != "" {
			help += buttonsHelpQuestion
		}
	}
	text := Escape(outline(s))
	if room := maxText - utf8.RuneCountInString(help) - 60; utf8.RuneCountInString(text) > room {
		text = shortenEscaped(text, room) + "\nThe rest is in the thread."
	}
	return strings.TrimSpace(text + "\n" + help)
}

// outline is a summary as plain lines, without the letter.
func outline(s reply.Summary) string {
	var b strings.Builder
	b.WriteString(oneLine(s.Headline) + "\n")
	if s.State != "" {
		b.WriteString("State: " + oneLine(s.State) + "\n")
	}
	for _, fact := range s.Facts {
		b.WriteString(oneLine(fact) + "\n")
	}
	if s.Question != "" {
		b.WriteString("The customer asks, answer it first: " + oneLine(s.Question) + "\n")
	}
	for _, list := range lists(s) {
		b.WriteString(list.Title + ":\n")
		for _, line := range list.Lines {
			b.WriteString("- " + oneLine(line) + "\n")
		}
	}
	return b.String()
}

// List is a part of a summary that is a list.
type List struct {
	Title string
	Lines []string
}

// lists are the parts of a summary that are lists, without the empty ones.
func lists(s reply.Summary) []List {
	var full []List
	asks := "The letter asks"
	if s.Telephone {
		asks = "Telephone, and ask"
	}
	for _, list := range []List{
		{"Odd", s.Findings},
		{"Not surely read", s.Problems},
		{"Missing", s.Missing},
		{asks, s.Asks},
	} {
		if len(list.Lines) > 0 {
			full = append(full, list)
		}
	}
	return full
}

func buttons(s reply.Summary) *slack.ActionBlock {
	button := func(kind Kind, label string) *slack.ButtonBlockElement {
		return slack.NewButtonBlockElement(string(kind), s.Draft, plainText(label))
	}
	send := button(PressSend, "Send").WithStyle(slack.StylePrimary)
	if s.Question != "" {
		const before, after = "The customer asked: ", "\nHas it been answered?"
		room := maxConfirm - len(before) - len(after)
		question := shorten(oneLine(s.Question), room)
		send.WithConfirm(slack.NewConfirmationBlockObject(
			plainText("Question answered?"),
			plainText(before+question+after),
			plainText("Yes, send"),
			plainText("Not yet"),
		))
	}
	return slack.NewActionBlock(decideBlock, send,
		button(PressEdit, "Edit"), button(PressCorrect, "Correct"), button(PressHold, "Hold"))
}

// ThreadLists are the lists that a thread has under the first post.
func ThreadLists(s reply.Summary) []List {
	if s.Question == "" {
		return lists(s)
	}
	return append([]List{{"The customer asks", []string{s.Question}}}, lists(s)...)
}

// findingsMessage is the second post: all that is odd, unread or missing, and
// what the letter asks.
func findingsMessage(s reply.Summary) (Message, bool) {
	full := ThreadLists(s)
	if len(full) == 0 {
		return Message{}, false
	}
	const (
		maxLine = 500 // a finding is a sentence
		maxSum  = 11000
		tail    = "…and more, see the job in the terminal."
	)
	var blocks []slack.Block
	var text strings.Builder
	sum := 0
	for _, list := range full {
		part := "*" + list.Title + "*"
		for _, line := range list.Lines {
			line = "\n• " + shortenEscaped(Escape(oneLine(line)), maxLine)
			if utf8.RuneCountInString(part)+utf8.RuneCountInString(line) > maxSection-len(tail)-1 || sum > maxSum {
				part += "\n" + tail
				break
			}
			part += line
			sum += utf8.RuneCountInString(line)
		}
		blocks = append(blocks, section(part))
		text.WriteString(strings.ReplaceAll(part, "*", "") + "\n")
	}
	return Message{
		Text:   shortenEscaped(strings.TrimSpace(text.String()), maxText),
		Blocks: blocks,
		tag:    tag{s.Job, partFindings, mark(text.String())},
	}, true
}

func pictureMessage(job int, picture *reply.Picture, title string) Message {
	t := tag{job, partPicture, mark(string(picture.PNG))}
	return Message{
		Picture: picture,
		Title:   title,
		File:    fmt.Sprintf("job-%d-%s.png", t.job, t.mark),
		Alt:     shorten(oneLine(picture.Alt), 1000), // the service takes so much alternative text
		tag:     t,
	}
}

// letterMessages is the whole letter as text, in as many posts as it needs.
func letterMessages(s reply.Summary) []Message {
	letter := strings.TrimSpace(clean(s.Letter))
	if letter == "" {
		return nil
	}
	escaped := func(text string) int { return utf8.RuneCountInString(Escape(text)) }
	pieces := split(letter, maxText-100, escaped)
	messages := make([]Message, len(pieces))
	for i, piece := range pieces {
		title := "Letter " + s.Draft
		if len(pieces) > 1 {
			title += fmt.Sprintf(", part %d of %d", i+1, len(pieces))
		}
		messages[i] = Message{
			Text: strings.TrimSpace(title) + ":\n" + Escape(piece.text),
			tag:  tag{s.Job, partLetter, s.Draft + "-" + strconv.Itoa(i+1) + "-" + mark(piece.text)},
		}
	}
	return messages
}

// mark names a content: the same content is never said twice in one thread.
func mark(content string) string {
	sum := sha256.Sum256([]byte(content))
	return hex.EncodeToString(sum[:6])
}

func section(text string) *slack.SectionBlock {
	return slack.NewSectionBlock(mrkdwn(text), nil, nil)
}

// mrkdwn takes escaped text. Verbatim: nothing in it becomes a link or a name.
func mrkdwn(text string) *slack.TextBlockObject {
	return slack.NewTextBlockObject(slack.MarkdownType, text, false, true)
}

// plainText takes any text; the service formats nothing in it. Whether it takes
// entities there is not published, so look-alikes stand for the brackets too.
func plainText(text string) *slack.TextBlockObject {
	return slack.NewTextBlockObject(slack.PlainTextType, brackets.Replace(clean(text)), false, false)
}

var brackets = strings.NewReplacer("<", "‹", ">", "›", "`", "ˋ")
