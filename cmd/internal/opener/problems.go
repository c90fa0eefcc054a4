package opener

import (
	"fmt"

	"fairtape/parse"
)

// Problems of whole files. Each message can be passed on as it is.
const (
	CodeEmpty      parse.Code = "file-empty"
	CodeLocked     parse.Code = "file-locked"     // behind a password
	CodeBroken     parse.Code = "file-broken"     // cut short or damaged
	CodeTooLarge   parse.Code = "file-too-large"  // more bytes than are read
	CodeTracing    parse.Code = "tracing-preview" // a photo of a tracing; the paper is still needed
	CodeTooHeavy   parse.Code = "file-too-heavy"  // needs too much memory or time to open
	CodeWrongKind  parse.Code = "file-wrong-kind" // a kind that is not read; the message says what to send
	CodeMailInside parse.Code = "mail-inside"     // a mail attached to a mail
	CodeNotOpened  parse.Code = "file-not-opened" // our own failure; the file may be sound
)

func problem(file string, code parse.Code, message string) parse.Document {
	return parse.Document{
		File:     file,
		Problems: []parse.Problem{{Code: code, Source: parse.Source{File: file}, Message: message}},
	}
}

// instead says what to send in place of a kind that is not read.
var instead = map[kind]string{
	kindOldOffice: "The file is of an old office format or a saved message. Please send it as .xlsx, .docx or PDF.",
	kindRTF:       "The file is in rich text format. Please send it as .docx or PDF, or type the numbers into a mail.",
	kindODT:       "The file is a text document in OpenDocument format. Please send it as .docx or PDF.",
	kindXLSB:      "The spreadsheet is in the binary format. Please save it as .xlsx and send that.",
	kindSlides:    "The file is a presentation or a drawing. Please send the numbers as a spreadsheet or a PDF.",
	kindIWork:     "The file is from Numbers, Pages or Keynote. Please export it as Excel or PDF and send that.",
	kindArchive:   "The file is an archive (zip or alike). Please attach what is inside, one by one.",
	kindMovie:     "The file is a film. Please send the numbers as a form, a spreadsheet or in a mail.",
	kindSound:     "The file is a voice message or other sound. Please type the numbers into a mail.",
	kindCard:      "The file is a contact card or a calendar entry. Please send the numbers as a form or in a mail.",
	kindProgram:   "The file is a program and was not opened. Please send the numbers as a form or in a mail.",
	kindUnknown:   "It cannot be told what kind of file this is. Please send the numbers as a spreadsheet, a PDF or in a mail.",
}

// refused returns the problem of a kind that no reader opens; ok is false for
// those that one does.
func refused(file string, k kind) (doc parse.Document, ok bool) {
	switch {
	case k == kindEmpty:
		return problem(file, CodeEmpty, "The file is empty. Please send it again."), true
	case k == kindLocked:
		return problem(file, CodeLocked, "The file is password-protected. Please send it without."), true
	case k == kindMail:
		return problem(file, CodeMailInside, "This is a mail inside a mail. A person must open it, or please send its attachments themselves."), true
	}
	message, ok := instead[k]
	if !ok {
		return parse.Document{}, false
	}
	return problem(file, CodeWrongKind, message), true
}

func tooLarge(file string, size int) parse.Document {
	return problem(file, CodeTooLarge, fmt.Sprintf("The file has %d MB; files up to %d MB are read. Please send it smaller.", size>>20, inputMost>>20))
}
