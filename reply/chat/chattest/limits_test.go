package chattest

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

func sectionOf(n int) string {
	return `{"type":"section","text":{"type":"mrkdwn","text":"` + strings.Repeat("x", n) + `"}}`
}

func button(fields string) string {
	return `{"type":"actions","elements":[{"type":"button","action_id":"a",` + fields + `}]}`
}

// Limits on either side.
func TestMessageBlocks(t *testing.T) {
	many := func(n int) string { return strings.TrimSuffix(strings.Repeat(`{"type":"divider"},`, n), ",") }
	text := func(n int) string { return fmt.Sprintf(`{"type":"plain_text","text":%q}`, strings.Repeat("x", n)) }
	confirm := func(title, body, yes int) string {
		return fmt.Sprintf(`"text":%s,"confirm":{"title":%s,"text":%s,"confirm":%s,"deny":%s}`, text(3), text(title), text(body), text(yes), text(2))
	}
	for name, test := range map[string]struct{ blocks, want string }{
		"no JSON":             {`[{`, "invalid_blocks_format"},
		"unknown block":       {`[{"type":"curtain"}]`, "invalid_blocks"},
		"51 blocks":           {`[` + many(51) + `]`, "invalid_blocks"},
		"section 3001":        {`[` + sectionOf(3001) + `]`, "invalid_blocks"},
		"section 0":           {`[` + sectionOf(0) + `]`, "invalid_blocks"},
		"sum over 13,200":     {`[` + strings.Join([]string{sectionOf(3000), sectionOf(3000), sectionOf(3000), sectionOf(3000), sectionOf(1201)}, ",") + `]`, "msg_blocks_too_long"},
		"label 76":            {`[` + button(`"text":`+text(76)) + `]`, "invalid_blocks"},
		"value 2001":          {`[` + button(`"text":`+text(5)+`,"value":"`+strings.Repeat("x", 2001)+`"`) + `]`, "invalid_blocks"},
		"style":               {`[` + button(`"text":`+text(5)+`,"style":"loud"`) + `]`, "invalid_blocks"},
		"confirm title 101":   {`[` + button(confirm(101, 9, 9)) + `]`, "invalid_blocks"},
		"confirm text 301":    {`[` + button(confirm(9, 301, 9)) + `]`, "invalid_blocks"},
		"confirm button 31":   {`[` + button(confirm(9, 9, 31)) + `]`, "invalid_blocks"},
		"the same block id":   {`[{"type":"divider","block_id":"x"},{"type":"divider","block_id":"x"}]`, "invalid_blocks"},
		"the same action id":  {`[{"type":"actions","elements":[{"type":"button","action_id":"a","text":` + text(3) + `},{"type":"button","action_id":"a","text":` + text(3) + `}]}]`, "invalid_blocks"},
		"11 in a context":     {`[{"type":"context","elements":[` + strings.TrimSuffix(strings.Repeat(text(3)+",", 11), ",") + `]}]`, "invalid_blocks"},
		"input in a message":  {`[{"type":"input","label":` + text(3) + `,"element":{"type":"plain_text_input","action_id":"a"}}]`, "invalid_blocks"},
		"50 blocks":           {`[` + many(50) + `]`, ""},
		"section 3000":        {`[` + sectionOf(3000) + `]`, ""},
		"label 75":            {`[` + button(`"text":`+text(75)) + `]`, ""},
		"confirm at its most": {`[` + button(confirm(100, 300, 30)) + `]`, ""},
		"nothing":             {``, ""},
	} {
		if got := checkMessageBlocks(test.blocks); got != test.want {
			t.Errorf("%s: %q, want %q", name, got, test.want)
		}
	}
}

func TestView(t *testing.T) {
	build := func(title, submit, private, label, initial int, inputs int) string {
		text := func(n int) string { return fmt.Sprintf(`{"type":"plain_text","text":%q}`, strings.Repeat("x", n)) }
		var blocks []string
		for i := range inputs {
			blocks = append(blocks, fmt.Sprintf(`{"type":"input","block_id":"b%d","label":%s,"element":{"type":"plain_text_input","action_id":"a","initial_value":%q}}`,
				i, text(label), strings.Repeat("y", initial)))
		}
		return fmt.Sprintf(`{"type":"modal","title":%s,"submit":%s,"private_metadata":%q,"blocks":[%s]}`,
			text(title), text(submit), strings.Repeat("z", private), strings.Join(blocks, ","))
	}
	for name, test := range map[string]struct {
		raw  string
		want bool
	}{
		"title 25":        {build(25, 4, 0, 4, 0, 1), false},
		"submit 25":       {build(4, 25, 0, 4, 0, 1), false},
		"no submit":       {strings.Replace(build(4, 4, 0, 4, 0, 1), `"submit":{"type":"plain_text","text":"xxxx"},`, "", 1), false},
		"metadata 3001":   {build(4, 4, 3001, 4, 0, 1), false},
		"label 2001":      {build(4, 4, 0, 2001, 0, 1), false},
		"input 3001":      {build(4, 4, 0, 4, 3001, 1), false},
		"101 blocks":      {build(4, 4, 0, 4, 0, 101), false},
		"no blocks":       {build(4, 4, 0, 4, 0, 0), false},
		"over 250 kB":     {build(4, 4, 0, 4, 3000, 90), false},
		"all at its most": {build(24, 24, 3000, 2000, 3000, 40), true},
	} {
		var v view
		if err := json.Unmarshal([]byte(test.raw), &v); err != nil {
			t.Fatal(name, err)
		}
		if got := v.valid(len(test.raw)); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}
