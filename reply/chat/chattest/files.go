package chattest

import (
	"encoding/json"
	"io"
	"mime"
	"net/http"
	"strconv"
)

// maxUpload bounds one uploaded file.
const maxUpload = 50 << 20

func (s *Server) uploadURL(args map[string]string) answer {
	length := number(args["length"], 0)
	if args["filename"] == "" || length <= 0 {
		return refusal("invalid_arguments")
	}
	f := &File{ID: s.id("F"), Name: args["filename"], Alt: args["alt_txt"], length: length}
	f.MediaType = mediaType(f.Name)
	s.files[f.ID] = f
	return answer{"ok": true, "upload_url": s.base() + "/upload/" + f.ID, "file_id": f.ID}
}

// serveUpload takes a file's bytes: a form with one file, or the bare bytes.
func (s *Server) serveUpload(w http.ResponseWriter, r *http.Request) {
	var body io.Reader = r.Body
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind == "multipart/form-data" {
		parts, err := r.MultipartReader()
		if err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		for body = nil; body == nil; {
			part, err := parts.NextPart()
			if err != nil {
				http.Error(w, "no file", http.StatusBadRequest)
				return
			}
			if part.FileName() != "" {
				body = part
			}
		}
	}
	data, err := io.ReadAll(io.LimitReader(body, maxUpload))
	s.mu.Lock()
	defer s.mu.Unlock()
	f := s.files[r.PathValue("id")]
	switch {
	case err != nil, f == nil, len(data) != f.length:
		http.Error(w, "not the announced file", http.StatusBadRequest)
	default:
		f.Data = data
		_, _ = io.WriteString(w, "OK - "+strconv.Itoa(len(data)))
	}
}

func (s *Server) completeUpload(args map[string]string) answer {
	var named []struct{ ID, Title string }
	if json.Unmarshal([]byte(args["files"]), &named) != nil || len(named) == 0 {
		return refusal("invalid_arguments")
	}
	switch {
	case args["channel_id"] != s.Channel:
		return refusal("channel_not_found")
	case s.archived:
		return refusal("is_archived")
	case args["thread_ts"] != "" && s.message(args["thread_ts"]) == nil:
		return refusal("thread_not_found")
	}
	m := &Message{ThreadTS: args["thread_ts"], User: BotUser, BotID: BotID, Text: args["initial_comment"]}
	list := []answer{}
	for _, n := range named {
		f := s.files[n.ID]
		if f == nil || f.Data == nil || f.done {
			return refusal("file_not_found")
		}
		f.Title, f.done = n.Title, true
		m.Files = append(m.Files, f)
		list = append(list, answer{"id": f.ID, "title": f.Title})
	}
	m.TS = s.stamp()
	s.messages = append(s.messages, m)
	return answer{"ok": true, "files": list}
}

// serveFile gives a file to who has the token.
func (s *Server) serveFile(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	f := s.files[r.PathValue("id")]
	s.mu.Unlock()
	if f == nil || r.Header.Get("Authorization") != "Bearer "+BotToken {
		http.Error(w, "no such file", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", f.MediaType)
	_, _ = w.Write(f.Data)
}

// json is a file as the service tells it.
func (f *File) json(base string) answer {
	return answer{"id": f.ID, "name": f.Name, "title": f.Title, "mimetype": f.MediaType, "size": len(f.Data),
		"alt_txt": f.Alt, "mode": "hosted", "url_private": base + "/files/" + f.ID, "url_private_download": base + "/files/" + f.ID}
}
