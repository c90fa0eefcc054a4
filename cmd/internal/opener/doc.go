// Package opener opens files that strangers sent, in a limited child process of
// the same binary, so that no file can crash, hang or grow the service.
//
// A program that uses it calls [Serve] first thing in main when [IsChild] says
// so; a test binary does the same in TestMain.
package opener
