//go:build !linux

package opener

func probing() (status int, ok bool) { return 0, false }
