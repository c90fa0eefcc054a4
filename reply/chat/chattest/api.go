package chattest

import (
	"encoding/json"
	"io"
	"mime"
	"net/http"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// answer is the JSON object that a method answers with.
type answer map[string]any

// refusal is an answer that says no.
func refusal(code string) answer { return answer{"ok": false, "error": code} }

// serveMethod answers one call of the Web API.
func (s *Server) serveMethod(w http.ResponseWriter, r *http.Request) {
	args, token, err := arguments(r)
	if err != nil {
		write(w, refusal("invalid_form_data"))
		return
	}
	method := r.PathValue("method")
	s.mu.Lock()
	s.calls = append(s.calls, Call{method, args, time.Now()})
	fault := s.fault(method)
	down := s.down
	s.mu.Unlock()
	if down {
		http.Error(w, "down", http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("X-OAuth-Scopes", strings.Join(s.granted(), ","))
	if fault == nil {
		write(w, s.call(method, token, args))
		return
	}
	if fault.Done {
		s.call(method, token, args)
	}
	switch {
	case fault.Hang > 0:
		select {
		case <-time.After(fault.Hang):
		case <-r.Context().Done():
		}
		panic(http.ErrAbortHandler) // net/http's way to cut the connection
	case fault.Status != 0:
		if fault.RetryAfter != "" {
			w.Header().Set("Retry-After", fault.RetryAfter)
		}
		http.Error(w, "<html>trouble</html>", fault.Status)
	default:
		write(w, refusal(fault.Code))
	}
}

// methodScope is the permission that a method takes. Source: docs.slack.dev,
// "Required scopes" of each method, for a public channel.
var methodScope = map[string]string{
	"chat.postMessage": "chat:write", "chat.update": "chat:write", "chat.postEphemeral": "chat:write",
	"conversations.history": "channels:history", "conversations.replies": "channels:history",
	"conversations.members": "channels:read", "conversations.info": "channels:read",
	"users.info":                   "users:read",
	"files.getUploadURLExternal":   "files:write",
	"files.completeUploadExternal": "files:write",
}

func (s *Server) granted() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.scopes)
}

func write(w http.ResponseWriter, a answer) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_ = json.NewEncoder(w).Encode(a) // the other side may be gone, as in life
}

// arguments reads a call's arguments: a form, or a JSON object whose nested
// values stay JSON.
func arguments(r *http.Request) (args map[string]string, token string, err error) {
	args = make(map[string]string)
	kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch kind {
	case "application/json":
		var body map[string]json.RawMessage
		if err := json.NewDecoder(r.Body).Decode(&body); err != nil && err != io.EOF {
			return nil, "", err
		}
		for key, raw := range body {
			var text string
			if json.Unmarshal(raw, &text) != nil {
				text = string(raw)
			}
			args[key] = text
		}
	case "multipart/form-data":
		err = r.ParseMultipartForm(1 << 20)
	default:
		err = r.ParseForm()
	}
	if err != nil {
		return nil, "", err
	}
	for key, values := range r.Form {
		args[key] = values[0]
	}
	token = args["token"]
	delete(args, "token")
	if bearer, ok := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer "); ok {
		token = bearer
	}
	return args, token, nil
}

// call does what a method does.
func (s *Server) call(method, token string, args map[string]string) answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	wanted := BotToken
	if method == "apps.connections.open" {
		wanted = AppToken
	}
	switch {
	case method == "api.test":
		return answer{"ok": true, "args": args}
	case token == "":
		return refusal("not_authed")
	case s.revoked:
		return refusal("token_revoked")
	case token == BotToken && wanted == AppToken, token == AppToken && wanted == BotToken:
		return refusal("not_allowed_token_type")
	case token != wanted:
		return refusal("invalid_auth")
	}
	if need := methodScope[method]; need != "" && !slices.Contains(s.scopes, need) {
		return answer{"ok": false, "error": "missing_scope", "needed": need, "provided": strings.Join(s.scopes, ",")}
	}
	switch method {
	case "auth.test":
		return answer{"ok": true, "url": s.base(), "team": "Pinfold Cover Loft", "team_id": TeamID,
			"user": "fairtape", "user_id": BotUser, "bot_id": BotID, "is_enterprise_install": false}
	case "apps.connections.open":
		return s.connectionsOpen()
	case "chat.postMessage":
		return s.postMessage(args)
	case "chat.update":
		return s.updateMessage(args)
	case "chat.postEphemeral":
		return s.postEphemeral(args)
	case "conversations.history":
		return s.history(args)
	case "conversations.replies":
		return s.replies(args)
	case "conversations.members":
		return s.inChannel(args, func() answer { return answer{"ok": true, "members": s.members} })
	case "conversations.info":
		return s.inChannel(args, func() answer {
			return answer{"ok": true, "channel": answer{"id": s.Channel, "name": "surveys", "is_channel": true,
				"is_member": slices.Contains(s.members, BotUser), "is_archived": s.archived}}
		})
	case "users.info":
		return s.userInfo(args)
	case "views.open":
		return s.viewsOpen(args)
	case "files.getUploadURLExternal":
		return s.uploadURL(args)
	case "files.completeUploadExternal":
		return s.completeUpload(args)
	}
	return refusal("unknown_method")
}

func (s *Server) inChannel(args map[string]string, do func() answer) answer {
	if args["channel"] != s.Channel {
		return refusal("channel_not_found")
	}
	return do()
}

func (s *Server) userInfo(args map[string]string) answer {
	name, ok := s.names[args["user"]]
	if !ok {
		return refusal("user_not_found")
	}
	return answer{"ok": true, "user": answer{"id": args["user"], "team_id": TeamID, "name": strings.ToLower(name),
		"real_name": name, "profile": answer{"real_name": name, "display_name": name}}}
}

func (s *Server) postMessage(args map[string]string) answer {
	if code := s.postable(args); code != "" {
		return refusal(code)
	}
	m := &Message{TS: s.stamp(), ThreadTS: args["thread_ts"], User: BotUser, BotID: BotID}
	m.fill(args)
	s.messages = append(s.messages, m)
	return answer{"ok": true, "channel": s.Channel, "ts": m.TS, "message": s.tell(m, true)}
}

func (s *Server) updateMessage(args map[string]string) answer {
	m := s.message(args["ts"])
	switch {
	case args["channel"] != s.Channel:
		return refusal("channel_not_found")
	case m == nil:
		return refusal("message_not_found")
	case m.BotID != BotID:
		return refusal("cant_update_message")
	}
	delete(args, "thread_ts")
	if code := s.postable(args); code != "" {
		return refusal(code)
	}
	m.fill(args)
	m.Updates++
	return answer{"ok": true, "channel": s.Channel, "ts": m.TS, "text": m.Text, "message": s.tell(m, true)}
}

func (m *Message) fill(args map[string]string) {
	m.Text, m.Blocks = args["text"], nil
	if blocks := args["blocks"]; blocks != "" && blocks != "null" {
		m.Blocks = json.RawMessage(blocks)
	}
	if metadata := args["metadata"]; metadata != "" {
		m.Metadata = json.RawMessage(metadata)
	}
}

// postable says why a post is refused, "" when it is not.
func (s *Server) postable(args map[string]string) string {
	switch {
	case args["channel"] != s.Channel:
		return "channel_not_found"
	case !slices.Contains(s.members, BotUser):
		return "not_in_channel"
	case s.archived:
		return "is_archived"
	case args["text"] == "" && args["blocks"] == "":
		return "no_text"
	case utf8.RuneCountInString(args["text"]) > maxText:
		return "msg_too_long"
	case args["thread_ts"] != "" && s.message(args["thread_ts"]) == nil:
		return "thread_not_found"
	case args["metadata"] != "" && !validMetadata(args["metadata"]):
		return "invalid_metadata_format"
	}
	return checkMessageBlocks(args["blocks"])
}

func validMetadata(raw string) bool {
	var m struct {
		Type    string         `json:"event_type"`
		Payload map[string]any `json:"event_payload"`
	}
	return json.Unmarshal([]byte(raw), &m) == nil && m.Type != "" && m.Payload != nil
}

func (s *Server) postEphemeral(args map[string]string) answer {
	if code := s.postable(args); code != "" {
		return refusal(code)
	}
	if !slices.Contains(s.members, args["user"]) {
		return refusal("user_not_in_channel")
	}
	s.whispers = append(s.whispers, Whisper{args["user"], args["thread_ts"], args["text"]})
	return answer{"ok": true, "message_ts": s.stamp()}
}

// message finds a message; nil when there is none.
func (s *Server) message(ts string) *Message {
	for _, m := range s.messages {
		if m.TS == ts {
			return m
		}
	}
	return nil
}

// tell is a message as the service tells it.
func (s *Server) tell(m *Message, withMetadata bool) answer {
	a := answer{"type": "message", "ts": m.TS, "text": m.Text, "user": m.User, "team": TeamID}
	if m.ThreadTS != "" {
		a["thread_ts"] = m.ThreadTS
	}
	if m.BotID != "" {
		a["bot_id"], a["app_id"] = m.BotID, AppID
	}
	if m.Blocks != nil {
		a["blocks"] = m.Blocks
	}
	if m.Metadata != nil && withMetadata {
		a["metadata"] = m.Metadata
	}
	if len(m.Files) > 0 {
		files := make([]answer, len(m.Files))
		for i, f := range m.Files {
			files[i] = f.json(s.base())
		}
		a["files"] = files
	}
	return a
}

func (s *Server) history(args map[string]string) answer {
	return s.inChannel(args, func() answer {
		if !slices.Contains(s.members, BotUser) {
			return refusal("not_in_channel")
		}
		var found []*Message
		for _, m := range slices.Backward(s.messages) {
			if m.ThreadTS == "" {
				found = append(found, m)
			}
		}
		return s.page(found, args)
	})
}

func (s *Server) replies(args map[string]string) answer {
	return s.inChannel(args, func() answer {
		if s.message(args["ts"]) == nil {
			return refusal("thread_not_found")
		}
		var found []*Message
		for _, m := range s.messages {
			if m.TS == args["ts"] || m.ThreadTS == args["ts"] {
				found = append(found, m)
			}
		}
		return s.page(found, args)
	})
}

// page answers with one page of messages.
func (s *Server) page(found []*Message, args map[string]string) answer {
	limit := number(args["limit"], 100)
	start := number(args["cursor"], 0)
	all := slices.DeleteFunc(slices.Clone(found), func(m *Message) bool {
		return args["oldest"] != "" && m.TS <= args["oldest"] && m.TS != args["ts"]
	})
	end := min(start+limit, len(all))
	withMetadata := args["include_all_metadata"] == "1" || args["include_all_metadata"] == "true"
	list := []answer{}
	for _, m := range all[min(start, end):end] {
		list = append(list, s.tell(m, withMetadata))
	}
	a := answer{"ok": true, "messages": list, "has_more": end < len(all)}
	if end < len(all) {
		a["response_metadata"] = answer{"next_cursor": decimal(end)}
	}
	return a
}
