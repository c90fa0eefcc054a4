package chat

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/slack-go/slack"
	"github.com/slack-go/slack/slackevents"
	"github.com/slack-go/slack/socketmode"
)

const (
	// queueRoom is how many events may wait for the handler. One that finds no
	// room is not acknowledged, so that the service sends it again.
	queueRoom = 500
	// remembered is how many events are known again when they are sent twice;
	// the service repeats within an hour.
	remembered = 2000
	// startDelay is the wait before the service is tried again that could not be
	// reached at the start; later the socket's own back-off holds.
	startDelay = 15 * time.Second
	// maxFrame bounds one message of the service; a view is at most 250 kB.
	maxFrame = 4 << 20
)

// Listen connects and hands events to handle until the context ends (nil), or
// with ErrShut when the token is no longer good. It connects again by itself.
// Each event is handed on once, already acknowledged: presses that open a modal
// at once and side by side, everything else one after the other in order.
// Length says what is wrong with a typed length, "" when nothing; nil for no
// check. What comes from another team, channel or app is refused.
func (p *Poster) Listen(ctx context.Context, handle func(context.Context, Event), length func(string) string) error {
	self, err := p.patientIdentity(ctx)
	if ctx.Err() != nil {
		return nil
	}
	if err != nil {
		return fmt.Errorf("listening to the chat: %w", err)
	}
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)

	l := &listener{
		poster: p, self: self, length: length, handle: handle,
		socket: socketmode.New(p.api, socketmode.OptionReadLimit(maxFrame)),
		queue:  make(chan Event, queueRoom),
		known:  recent{room: remembered, seen: make(map[string]bool)},
	}
	var working sync.WaitGroup
	working.Go(func() { l.sort(ctx, stop) })
	working.Go(func() { l.work(ctx) })
	err = l.socket.RunContext(ctx)
	if ctx.Err() == nil {
		stop(judge(err).wrap(err))
	}
	working.Wait()
	l.modals.Wait()
	if cause := context.Cause(ctx); !errors.Is(cause, context.Canceled) && !errors.Is(cause, context.DeadlineExceeded) {
		return fmt.Errorf("listening to the chat: %w", cause)
	}
	return nil
}

// patientIdentity asks who we are until the service can be reached.
func (p *Poster) patientIdentity(ctx context.Context) (Identity, error) {
	for {
		self, err := p.identity(ctx)
		if !errors.Is(err, ErrTemporary) && !errors.Is(err, ErrUnsure) {
			return self, err
		}
		p.config.Log.Warn("chat not reached; trying again", "in", startDelay, "err", err)
		if err := p.config.Sleep(ctx, startDelay); err != nil {
			return self, err
		}
	}
}

type listener struct {
	poster *Poster
	self   Identity
	length func(string) string
	handle func(context.Context, Event)

	socket *socketmode.Client
	queue  chan Event
	modals sync.WaitGroup

	app   string // our app's id, from the service's greeting; used by sort alone
	known recent // used by sort alone
}

// work hands events to the handler, one after the other.
func (l *listener) work(ctx context.Context) {
	for {
		select {
		case event := <-l.queue:
			l.handle(ctx, l.named(ctx, event))
		case <-ctx.Done():
			return
		}
	}
}

// named adds the name that people know the user by.
func (l *listener) named(ctx context.Context, event Event) Event {
	if event.User.ID != "" {
		event.User.Name = l.poster.name(ctx, event.User.ID)
	}
	return event
}

// sort takes what the socket brings, acknowledges it and puts it where it
// belongs.
func (l *listener) sort(ctx context.Context, stop context.CancelCauseFunc) {
	for {
		select {
		case raw := <-l.socket.Events:
			if err := l.take(ctx, raw); err != nil {
				stop(err)
				return
			}
		case <-ctx.Done():
			return
		}
	}
}

// take handles one message of the socket. An error ends the listening.
func (l *listener) take(ctx context.Context, raw socketmode.Event) error {
	log := l.poster.config.Log
	switch data := raw.Data.(type) {
	case *slack.ConnectionErrorEvent:
		log.Warn("chat connection", "attempt", data.Attempt, "next_in", data.Backoff, "err", data.ErrorObj)
		if failure := judge(data.ErrorObj); failure.kind == shut {
			return failure.wrap(data.ErrorObj)
		}
	case slack.InteractionCallback:
		event, wrong, ok := l.interaction(data)
		l.accept(ctx, raw.Request, event, wrong, ok)
	case slackevents.EventsAPIEvent:
		event, ok := l.message(data)
		l.accept(ctx, raw.Request, event, nil, ok)
	default:
		switch {
		case raw.Type == socketmode.EventTypeHello:
			l.app = raw.Request.ConnectionInfo.AppID
			l.hand(ctx, Event{Kind: Connected, At: l.poster.config.Now()})
		case raw.Request != nil && raw.Request.EnvelopeID != "":
			l.acknowledge(ctx, raw.Request, nil) // nothing we asked for
		}
	}
	return nil
}

// accept acknowledges what came and hands it on, once.
func (l *listener) accept(ctx context.Context, request *socketmode.Request, event Event, wrong map[string]string, ok bool) {
	switch {
	case len(wrong) > 0:
		l.acknowledge(ctx, request, slack.NewErrorsViewSubmissionResponse(wrong))
	case !ok, l.known.has(event.ID):
		l.acknowledge(ctx, request, nil)
	case l.hand(ctx, event):
		l.known.add(event.ID)
		l.acknowledge(ctx, request, nil)
	default:
		l.poster.config.Log.Warn("chat events wait; one was left with the service", "kind", event.Kind)
	}
}

// hand puts an event where it is worked off; false when there is no room.
func (l *listener) hand(ctx context.Context, event Event) bool {
	switch event.Kind {
	case PressEdit, PressCorrect, PressHold:
		l.modals.Go(func() { l.handle(ctx, event) })
		return true
	}
	select {
	case l.queue <- event:
		return true
	default:
		return false
	}
}

func (l *listener) acknowledge(ctx context.Context, request *socketmode.Request, payload any) {
	if err := l.socket.AckCtx(ctx, request.EnvelopeID, payload); err != nil {
		l.poster.config.Log.Warn("chat acknowledgement", "err", err)
	}
}

// interaction reads a pressed button or a modal handed in.
func (l *listener) interaction(callback slack.InteractionCallback) (event Event, wrong map[string]string, ok bool) {
	if !l.ours(callback.Team.ID, callback.APIAppID, callback.User.TeamID) {
		return Event{}, nil, false
	}
	switch callback.Type {
	case slack.InteractionTypeBlockActions:
		event, ok = l.press(callback)
	case slack.InteractionTypeViewSubmission:
		event, wrong = submission(callback.View, l.length)
		event.At = l.poster.config.Now()
		ok = event.Kind != "" && l.poster.hears(event.Thread.Channel)
	}
	event.User = Person{callback.User.ID, callback.User.Name}
	return event, wrong, ok
}

func (l *listener) press(callback slack.InteractionCallback) (Event, bool) {
	if len(callback.ActionCallback.BlockActions) != 1 || !l.poster.hears(callback.Channel.ID) {
		return Event{}, false
	}
	action := callback.ActionCallback.BlockActions[0]
	kind := Kind(action.ActionID)
	switch kind {
	case PressSend, PressEdit, PressCorrect, PressHold:
	default:
		return Event{}, false
	}
	thread := callback.Message.ThreadTimestamp
	if thread == "" {
		thread = callback.Message.Timestamp
	}
	return Event{
		ID:      fmt.Sprintf("press/%s/%s/%s/%s", action.ActionID, action.Value, callback.User.ID, action.ActionTs),
		Kind:    kind,
		At:      moment(action.ActionTs),
		Thread:  Thread{callback.Channel.ID, thread},
		Draft:   action.Value,
		Trigger: callback.TriggerID,
	}, true
}

// message reads something said in a thread, or to the bot.
func (l *listener) message(outer slackevents.EventsAPIEvent) (Event, bool) {
	var said slack.Msg
	var userTeam string
	switch inner := outer.InnerEvent.Data.(type) {
	case *slackevents.MessageEvent:
		if inner.Message == nil || inner.PreviousMessage != nil {
			return Event{}, false
		}
		said, userTeam = *inner.Message, inner.UserTeam
		said.Channel, said.SubType = inner.Channel, inner.SubType
	case *slackevents.AppMentionEvent:
		userTeam = inner.UserTeam
		said = slack.Msg{
			User: inner.User, Text: inner.Text, Timestamp: inner.TimeStamp, BotID: inner.BotID,
			ThreadTimestamp: inner.ThreadTimeStamp, Channel: inner.Channel, Files: inner.Files,
		}
	default:
		return Event{}, false
	}
	if !l.ours(outer.TeamID, outer.APIAppID, userTeam) || !l.poster.hears(said.Channel) {
		return Event{}, false
	}
	return saidEvent(said, l.self)
}

// hears tells whether what happens in a channel is handed on.
func (p *Poster) hears(channel string) bool {
	return channel == p.config.Channel || slices.Contains(p.config.Others, channel)
}

// ours tells whether something comes from our own team and is meant for our own
// app. A person of another team may sit in a shared channel; they decide
// nothing.
func (l *listener) ours(team, app, userTeam string) bool {
	if team == l.self.TeamID && (app == l.app || l.app == "") && (userTeam == "" || userTeam == team) {
		return true
	}
	l.poster.config.Log.Warn("chat event from elsewhere refused", "team", team, "app", app, "user_team", userTeam)
	return false
}

// recent remembers the last events.
type recent struct {
	room  int
	seen  map[string]bool
	order []string
}

func (r *recent) has(id string) bool { return r.seen[id] }

func (r *recent) add(id string) {
	r.seen[id] = true
	if r.order = append(r.order, id); len(r.order) > r.room {
		delete(r.seen, r.order[0])
		r.order = r.order[1:]
	}
}
