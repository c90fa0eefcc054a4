package mailboxtest

import (
	"bufio"
	"fmt"
	"net"
	"strings"
	"testing"
	"time"
)

// "If the append is unsuccessful for any reason, the mailbox MUST be restored
// to its state before the APPEND attempt; no partial appending is permitted"
// (RFC 9051 section 6.3.12).
func TestAppendIsCutOff(t *testing.T) {
	const letter = "Subject: a letter\r\n\r\nwhole\r\n"
	for _, sent := range []string{"", letter[:9], letter[:len(letter)-1], letter} {
		s, err := Start(Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { s.Close() })
		conn, err := net.Dial("tcp", s.Addr)
		if err != nil {
			t.Fatal(err)
		}
		answers := bufio.NewReader(conn)
		until := func(begins string) {
			t.Helper()
			for {
				line, err := answers.ReadString('\n')
				if err != nil {
					t.Fatalf("no %q: %v", begins, err)
				}
				if strings.HasPrefix(line, begins) {
					return
				}
			}
		}
		fmt.Fprintf(conn, "a LOGIN %s %s\r\n", User, Password)
		until("a OK")
		fmt.Fprintf(conn, "b APPEND Drafts {%d}\r\n", len(letter))
		until("+")
		fmt.Fprint(conn, sent)
		conn.Close()
		time.Sleep(100 * time.Millisecond)
		list, err := s.Messages("Drafts")
		if whole := sent == letter; err != nil || len(list) > 0 != whole {
			t.Errorf("cut off after %d of %d bytes: %d letters in Drafts, %v", len(sent), len(letter), len(list), err)
		}
	}
}
