// Package deploy holds the files that run the service for good: a unit for
// systemd and a recipe for a container.
package deploy

import _ "embed" // for the files

//go:embed fairtape.service
var unit []byte

//go:embed Containerfile
var containerfile []byte

// Unit returns a unit for systemd.
func Unit() []byte { return unit }

// Containerfile returns a recipe for a container.
func Containerfile() []byte { return containerfile }
