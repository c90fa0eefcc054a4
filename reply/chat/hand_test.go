package chat_test

import (
	"context"
	"testing"

	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

// A file is handed over once, whatever becomes of the answers.
func TestHand(t *testing.T) {
	file := reply.File{Name: "sheet-14-1.pdf", MediaType: "application/pdf", Data: []byte("%PDF-1.4")}
	for _, fault := range []chattest.Fault{
		{}, {Method: "files.completeUploadExternal", Status: 502, Done: true}, {Method: "files.completeUploadExternal", Status: 503},
		{Method: "files.getUploadURLExternal", Code: "internal_error"},
	} {
		server, p, _ := begin(t)
		thread, err := p.Say(context.Background(), chat.Thread{}, "a", "a job", false)
		if err != nil {
			t.Fatal(err)
		}
		if fault.Method != "" {
			server.Fail(fault)
		}
		for _, unsure := range []bool{false, true} {
			if err := p.Hand(context.Background(), thread, file, unsure); err != nil {
				t.Errorf("%+v, unsure %v: %v", fault, unsure, err)
			}
		}
		posts := server.Thread(thread.TS)
		if len(posts) != 2 || len(posts[1].Files) != 1 || string(posts[1].Files[0].Data) != string(file.Data) || posts[1].Files[0].Title != file.Name {
			t.Errorf("%+v: %d posts in the thread, want 2, the second with the file", fault, len(posts))
		}
	}
}
