// Package digits reads one handwritten digit from a picture of its box.
//
// The reader is a small convolutional network, trained by train/train.py on
// MNIST's training digits, on strokes drawn for this project and on fonts, as they
// are and as parse/photo cuts them out of photographs of filled forms; its weights
// are weights.bin. It answers with a probability for every digit, for an empty box
// and for what nobody can read, so that doubt can be carried on. The temperature
// that makes the probabilities honest was fitted on hands, fonts and strokes that
// the network never saw, photographed.
package digits
