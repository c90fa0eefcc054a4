package chat_test

import (
	"encoding/json"
	"testing"

	"fairtape/reply/chat/chattest"
)

// glanceOf returns the text of a post's first block.
func glanceOf(t *testing.T, m chattest.Message) string {
	t.Helper()
	var blocks []struct{ Text struct{ Text string } }
	if err := json.Unmarshal(m.Blocks, &blocks); err != nil || len(blocks) == 0 {
		t.Fatalf("blocks %s: %v", m.Blocks, err)
	}
	return blocks[0].Text.Text
}
