// Package phototest writes on the shop's papers as people do and photographs
// them as telephones do, from a seed, so that readers of photos can be tested
// against a known truth.
//
// A [Sheet] is a page of paper, printed and written on at [Scale] pixels a
// millimetre. A [Hand] writes on it. A [Camera] photographs it: the page lies
// on a table, bent and tilted, in uneven light, and the picture is blurred,
// noisy and compressed.
package phototest
