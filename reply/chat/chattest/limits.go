package chattest

import (
	"encoding/json"
	"mime"
	"path"
	"slices"
	"strconv"
	"unicode/utf8"
)

// Published limits, in characters where nothing else is said.
// Source: docs.slack.dev, Block Kit reference, one page a block and an element;
// maxSum from github.com/slackapi/bolt-js issue 2509.
const (
	// maxText is where a message can still be changed; chat.postMessage alone
	// would take 40,000 and cut them.
	maxText          = 4000
	maxSum           = 13200
	maxMessageBlocks = 50
	maxModalBlocks   = 100
	maxSection       = 3000
	maxField         = 2000
	maxHeader        = 150
	maxBlockID       = 255
	maxActionID      = 255
	maxButtonText    = 75
	maxButtonValue   = 2000
	maxConfirmTitle  = 100
	maxConfirmText   = 300
	maxConfirmButton = 30
	maxLabel         = 2000
	maxHint          = 2000
	maxInput         = 3000
	maxPlaceholder   = 150
	maxOptions       = 100
	maxOptionText    = 75
	maxOptionValue   = 150
	maxAlt           = 2000
	maxActions       = 25
	maxContext       = 10
	maxModalTitle    = 24
	maxPrivate       = 3000
	maxView          = 250_000 // bytes
)

// text is a text object.
type text struct {
	Type string `json:"type"`
	Text string `json:"text"`
}

func (t *text) within(low, high int) bool {
	n := utf8.RuneCountInString(t.Text)
	return (t.Type == "plain_text" || t.Type == "mrkdwn") && n >= low && n <= high
}

func (t *text) plain(high int) bool { return t != nil && t.Type == "plain_text" && t.within(1, high) }

// block is as much of any block as is checked.
type block struct {
	Type     string          `json:"type"`
	BlockID  string          `json:"block_id"`
	Text     *text           `json:"text"`
	Fields   []*text         `json:"fields"`
	Elements json.RawMessage `json:"elements"`
	Element  *element        `json:"element"`
	Label    *text           `json:"label"`
	Hint     *text           `json:"hint"`
	Optional bool            `json:"optional"`
	AltText  string          `json:"alt_text"`
}

// element is as much of any element as is checked.
type element struct {
	Type         string `json:"type"`
	ActionID     string `json:"action_id"`
	Text         *text  `json:"text"`
	Value        string `json:"value"`
	Style        string `json:"style"`
	Confirm      *struct{ Title, Text, Confirm, Deny *text }
	Placeholder  *text  `json:"placeholder"`
	InitialValue string `json:"initial_value"`
	InitialDate  string `json:"initial_date"`
	MaxLength    int    `json:"max_length"`
	Options      []option
}

type option struct {
	Text  *text
	Value string
}

// checkMessageBlocks says why a message's blocks are refused, "" when they are
// not.
func checkMessageBlocks(raw string) string {
	blocks, ok := parseBlocks(raw)
	switch {
	case !ok:
		return "invalid_blocks_format"
	case len(blocks) > maxMessageBlocks, !validBlocks(blocks):
		return "invalid_blocks"
	case slices.ContainsFunc(blocks, func(b block) bool { return b.Type == "input" }):
		return "invalid_blocks"
	case textSum(blocks) > maxSum:
		return "msg_blocks_too_long"
	}
	return ""
}

func parseBlocks(raw string) ([]block, bool) {
	if raw == "" || raw == "null" {
		return nil, true
	}
	var blocks []block
	return blocks, json.Unmarshal([]byte(raw), &blocks) == nil
}

func textSum(blocks []block) int {
	sum := 0
	for _, b := range blocks {
		if b.Text != nil {
			sum += utf8.RuneCountInString(b.Text.Text)
		}
		for _, f := range b.Fields {
			sum += utf8.RuneCountInString(f.Text)
		}
		sum += utf8.RuneCount(b.Elements) // more than its texts; errs on the strict side
	}
	return sum
}

func validBlocks(blocks []block) bool {
	ids := make(map[string]bool)
	for _, b := range blocks {
		if len(b.BlockID) > maxBlockID || b.BlockID != "" && ids[b.BlockID] || !b.valid() {
			return false
		}
		ids[b.BlockID] = true
	}
	return true
}

func (b block) valid() bool {
	switch b.Type {
	case "section":
		for _, f := range b.Fields {
			if !f.within(1, maxField) {
				return false
			}
		}
		return (b.Text != nil || len(b.Fields) > 0) && len(b.Fields) <= 10 && (b.Text == nil || b.Text.within(1, maxSection))
	case "header":
		return b.Text.plain(maxHeader)
	case "divider":
		return true
	case "image":
		return b.AltText != "" && utf8.RuneCountInString(b.AltText) <= maxAlt
	case "context":
		var texts []*text
		return json.Unmarshal(b.Elements, &texts) == nil && len(texts) >= 1 && len(texts) <= maxContext &&
			!slices.ContainsFunc(texts, func(t *text) bool { return t.Type != "image" && !t.within(1, maxSection) })
	case "actions":
		var elements []element
		if json.Unmarshal(b.Elements, &elements) != nil || len(elements) < 1 || len(elements) > maxActions {
			return false
		}
		actions := make(map[string]bool)
		for _, e := range elements {
			if !e.valid() || actions[e.ActionID] {
				return false
			}
			actions[e.ActionID] = true
		}
		return true
	case "input":
		return b.Label.plain(maxLabel) && (b.Hint == nil || b.Hint.plain(maxHint)) && b.Element != nil && b.Element.valid()
	}
	return false
}

func (e element) valid() bool {
	if len(e.ActionID) > maxActionID || e.Placeholder != nil && !e.Placeholder.plain(maxPlaceholder) {
		return false
	}
	switch e.Type {
	case "button":
		if c := e.Confirm; c != nil && (!c.Title.plain(maxConfirmTitle) || c.Text == nil || !c.Text.within(1, maxConfirmText) ||
			!c.Confirm.plain(maxConfirmButton) || !c.Deny.plain(maxConfirmButton)) {
			return false
		}
		return e.Text.plain(maxButtonText) && utf8.RuneCountInString(e.Value) <= maxButtonValue &&
			slices.Contains([]string{"", "primary", "danger"}, e.Style)
	case "plain_text_input":
		return e.limit() <= maxInput && utf8.RuneCountInString(e.InitialValue) <= e.limit()
	case "datepicker":
		return true
	case "static_select":
		if len(e.Options) < 1 || len(e.Options) > maxOptions {
			return false
		}
		for _, o := range e.Options {
			if !o.Text.plain(maxOptionText) || len(o.Value) > maxOptionValue {
				return false
			}
		}
		return true
	}
	return false
}

// limit is how much an input takes.
func (e element) limit() int {
	if e.MaxLength > 0 {
		return e.MaxLength
	}
	return maxInput
}

// view is as much of a modal as is checked and used.
type view struct {
	Type            string  `json:"type"`
	CallbackID      string  `json:"callback_id"`
	PrivateMetadata string  `json:"private_metadata"`
	Title           *text   `json:"title"`
	Submit          *text   `json:"submit"`
	Close           *text   `json:"close"`
	Blocks          []block `json:"blocks"`
}

func (v view) valid(bytes int) bool {
	hasInput := slices.ContainsFunc(v.Blocks, func(b block) bool { return b.Type == "input" })
	return v.Type == "modal" && bytes <= maxView &&
		v.Title.plain(maxModalTitle) &&
		(v.Submit.plain(maxModalTitle) || v.Submit == nil && !hasInput) &&
		(v.Close == nil || v.Close.plain(maxModalTitle)) &&
		len(v.CallbackID) <= maxBlockID && utf8.RuneCountInString(v.PrivateMetadata) <= maxPrivate &&
		len(v.Blocks) >= 1 && len(v.Blocks) <= maxModalBlocks && validBlocks(v.Blocks)
}

func number(text string, otherwise int) int {
	if n, err := strconv.Atoi(text); err == nil {
		return n
	}
	return otherwise
}

func decimal(n int) string { return strconv.Itoa(n) }

func mediaType(name string) string {
	if kind := mime.TypeByExtension(path.Ext(name)); kind != "" {
		return kind
	}
	return "application/octet-stream"
}
