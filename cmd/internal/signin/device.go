package signin

import (
	"context"
	"errors"
	"fmt"

	"golang.org/x/oauth2"
)

// ErrNoDevice: the provider has no device flow, or the settings do not name it.
var ErrNoDevice = errors.New("the settings name no device_url")

// ByDevice signs in: show is told an address and a code, which a person enters
// on any device, and the token that comes of it is kept. Errors: ErrNoDevice,
// ErrDenied.
func (s *Source) ByDevice(ctx context.Context, show func(address, code string)) error {
	if s.config.Endpoint.DeviceAuthURL == "" {
		return ErrNoDevice
	}
	ctx = context.WithValue(ctx, oauth2.HTTPClient, s.client)
	device, err := s.config.DeviceAuth(ctx)
	if err != nil {
		return fmt.Errorf("begin to sign in: %w", withoutBody(err))
	}
	show(device.VerificationURI, device.UserCode)
	token, err := s.config.DeviceAccessToken(ctx, device)
	switch code := refusal(err); {
	case code == "access_denied" || code == "authorization_declined" || code == "expired_token" || errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("%w (%s)", ErrDenied, code)
	case err != nil:
		return fmt.Errorf("wait for the sign-in: %w", withoutBody(err))
	}
	if token.RefreshToken == "" {
		return errors.New("the provider gave no refresh token, so the sign-in would end within the hour; the scopes should hold its word for lasting access, as offline_access")
	}
	return s.replace(token)
}

// ByRefreshToken takes a refresh token that was got in another way, and tries
// it at once. The error is ErrRevoked when the provider does not take it.
func (s *Source) ByRefreshToken(ctx context.Context, refresh string) error {
	token, err := s.refresh(ctx, &oauth2.Token{RefreshToken: refresh})
	if err != nil {
		return err
	}
	return s.replace(token)
}

func (s *Source) replace(t *oauth2.Token) error {
	unlock, err := lockFile(s.file + ".lock")
	if err != nil {
		return fmt.Errorf("wait for the token: %w", err)
	}
	defer unlock()
	if err := save(s.file, t); err != nil {
		return fmt.Errorf("keep the token: %w", err)
	}
	return nil
}
