package smtp

import (
	"context"
	"fmt"
)

// Probe connects, signs in, names the sender and leaves, for a live test of the
// settings. No letter goes out. Beside the errors of a connection it returns
// ErrSender.
func (s Sender) Probe(ctx context.Context, from string) error {
	c, err := s.dial(ctx)
	if err != nil {
		return err
	}
	defer c.close()
	err = c.Mail(from, nil)
	if reply := replyOf(err); reply != nil && reply.Code/100 == 5 {
		return fmt.Errorf("%w %s: %s", ErrSender, from, reply.Message)
	}
	if err != nil {
		return fmt.Errorf("naming the sender: %w", err)
	}
	if err := c.Reset(); err != nil {
		return fmt.Errorf("taking the sender back: %w", err)
	}
	c.Quit()
	return nil
}
