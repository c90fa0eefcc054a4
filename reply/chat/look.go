package chat

import (
	"encoding/json"
	"strings"

	"github.com/slack-go/slack"
)

// Look is a message as a person sees it, in plain text: for drawing it.
type Look struct {
	Lines   []string // the first line of a thread's first post is its headline
	Buttons []string // the first is the primary one
	Note    string   // small print: what became of it
	PNG     []byte
}

// Look returns what a person sees of the message: its blocks, or its text where
// it has none.
func (m Message) Look() Look {
	var look Look
	if m.Picture != nil {
		look.PNG = m.Picture.PNG
	}
	for _, block := range m.Blocks {
		switch b := block.(type) {
		case *slack.SectionBlock:
			look.Lines = append(look.Lines, strings.Split(unescape(strings.ReplaceAll(b.Text.Text, "*", "")), "\n")...)
		case *slack.ContextBlock:
			for _, e := range b.ContextElements.Elements {
				if text, ok := e.(*slack.TextBlockObject); ok {
					look.Note = unescape(text.Text)
				}
			}
		case *slack.ActionBlock:
			for _, e := range b.Elements.ElementSet {
				if button, ok := e.(*slack.ButtonBlockElement); ok {
					look.Buttons = append(look.Buttons, button.Text.Text)
				}
			}
		}
	}
	if len(m.Blocks) == 0 && m.Text != "" {
		look.Lines = strings.Split(unescape(m.Text), "\n")
	}
	return look
}

// unescape undoes the entities. Asterisks of the text itself are look-alikes by
// then, so that those left are formatting.
func unescape(text string) string {
	return strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(text)
}

// JSON is the message as the Web API takes it, indented for reading.
func (m Message) JSON() ([]byte, error) { return json.MarshalIndent(m, "", "  ") }
