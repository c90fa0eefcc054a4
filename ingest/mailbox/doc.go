// Package mailbox speaks IMAP with the shop's mailbox. A Watcher hands over
// what arrives in the inbox, one message after another and oldest first; a
// Folders files drafts and copies of sent letters, and finds them again.
//
// Nothing here sets \Seen on a message of the inbox: it is opened read-only and
// bodies are fetched by BODY.PEEK. Every command has a deadline, every answer a
// limit in bytes, and a connection that breaks is made again with growing
// pauses.
package mailbox
