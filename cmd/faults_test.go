package cmd_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// fault is one thing that goes wrong outside, or that is done to the program on
// purpose, and the tests that show that it does no harm: PACKAGE.TestName, the
// package by its path below the module.
type fault struct{ what, shown string }

// faults is the catalogue, by where they come from. Where something cannot be
// had as one would wish, a line above says what is done instead, and why.
var faults = map[string][]fault{
	"the mailbox": {
		// MOVE is never asked for: a letter is appended to Sent and removed from
		// Drafts, each so that it can be repeated.
		{"the connection is lost, in any command", "ingest/mailbox.TestWatchFaults ingest/mailbox.TestLostAndMadeAnew ingest/mailbox.TestLostAtLogout ingest/mailbox.TestWatchBacksOff ingest/mailbox.TestFilingIsCutOff cmd/internal/faultproxy.TestMailboxCutAnywhere"},
		{"the server falls silent", "ingest/mailbox.TestLostAndMadeAnew ingest/mailbox.TestCommandDeadline"},
		{"a wrong password", "ingest/mailbox.TestWatchSignIn ingest/mailbox.TestFoldersDoNotHammer cmd/fairtape.TestWatchWrongPassword"},
		{"the messages are numbered anew", "ingest/mailbox.TestWatchRescans cmd/internal/desk.TestSameMailTwice cmd/internal/ledger.TestTwins"},
		{"numbers go back, or have gaps", "ingest/mailbox.TestWatchRescans ingest/mailbox.TestSeenAndGaps"},
		{"a message goes while it is fetched", "ingest/mailbox.TestWatchVanished"},
		{"a message comes between two looks", "ingest/mailbox.TestMailBetweenSearchAndIdle"},
		{"another program marks it as read", "ingest/mailbox.TestSeenAndGaps"},
		{"lengths that lie, answers without end", "ingest/mailbox.TestWatchFaults"},
		{"the server says goodbye, is full, or has no time", "ingest/mailbox.TestWatchFaults ingest/mailbox.TestNoRoomForALetter ingest/mailbox.TestSignInIsPutOff ingest/mailbox.TestWatchBacksOff"},
		{"a mailbox full of mail that waits", "cmd/benchmark/load.TestRun ingest/mailbox.TestWatchDeliversOldestFirst cmd/internal/desk.TestCrowd"},
		{"a certificate that is not to be trusted", "ingest/mailbox.TestConnect ingest/mailbox.TestConnectDovecot cmd/fairtape.TestWatchUntrusted"},
		{"two services on one mailbox", "cmd/fairtape.TestTwoCopies cmd/internal/ledger.TestClaim"},
	},
	"the machine": {
		{"killed between any two steps", "cmd/internal/desk.TestKilledAnywhere cmd/fairtape.TestConversation cmd/internal/desk.TestLetterIsFiledLate"},
		{"killed after a letter left, before it is recorded", "cmd/internal/desk.TestKilledAnywhereWithProof cmd/internal/desk.TestKilledAnywhere"},
		{"a disk that is full, broken or read-only", "cmd/internal/desk.TestDiskFails cmd/fairtape.TestWatchWithoutRoom ingest/mailbox.TestWatchCursorWaitsForTheLedger cmd/internal/status.TestHealth"},
		{"the power goes", "cmd/internal/desk.TestPowerLoss"},
		{"a ledger that is damaged", "cmd/internal/ledger.TestOpenRefusesDamage cmd/internal/ledger.TestDamaged cmd/internal/ledger.TestWhole cmd/fairtape.TestBackup cmd/internal/ledger.TestBackupAndRestore cmd/internal/desk.TestRestoredLedgerMeetsAnsweredMail"},
		{"an old backup is put back", "cmd/internal/ledger.TestBackupAndRestore cmd/internal/desk.TestRestoredLedger cmd/internal/desk.TestRestoredLedgerMeetsAnsweredMail ingest/mailbox.TestWatchDeliversOldestFirst"},
		// When something is due stands on the ledger, as it has to outlive the
		// process, and no monotonic clock does; pauses within a process go by one.
		{"a clock that jumps", "cmd/internal/desk.TestClockJumps cmd/internal/desk.TestCrowdClock cmd/internal/desk.TestSummerTime cmd/internal/desk.TestReminders cmd/internal/desk.TestDigest"},
		{"a reader that runs out of memory", "cmd/internal/opener.TestBadChild cmd/internal/opener.TestConfined cmd/internal/opener.TestRefused"},
		{"no room for a child, no names of machines, told to end in work", "cmd/fairtape.TestWatchWithoutRoom cmd/internal/desk.TestNoRoomForAChild cmd/internal/opener.TestNoDescriptorsLeft ingest/mailbox.TestWatchOutOfReach cmd/fairtape.TestWatchEndsInWork"},
		{"settings that are broken when read anew", "cmd/fairtape.TestWatchUpkeep"},
	},
	"sending": {
		{"put off at any step", "cmd/internal/desk.TestMailServerFaults reply/smtp.TestSendOutcomes reply/smtp.TestSendToAScript reply/smtp.TestPutOffBeforeTheLetter"},
		{"refused at any step", "cmd/internal/desk.TestMailServerFaults reply/smtp.TestSendOutcomes reply/smtp.TestSendToAScript"},
		{"lost after the last dot", "cmd/internal/desk.TestMailServerFaults reply/smtp.TestSendLostInData"},
		// After two minutes nobody waits any more: the letter counts as perhaps sent,
		// never goes again by itself, and a copy in Sent, or a person, settles it.
		{"a yes that comes after minutes", "cmd/internal/desk.TestMailServerFaults"},
		{"one of two recipients refused", "cmd/internal/desk.TestMailServerFaults"},
		{"our letter comes back", "cmd/internal/desk.TestBounce"},
		{"a mail that is delivered twice", "cmd/internal/desk.TestMailFaults cmd/internal/desk.TestSameMailTwice"},
		{"two mails with one name", "cmd/internal/desk.TestMailFaults"},
	},
	"the chat": {
		{"told to wait", "reply/chat.TestRetryAfterIsObeyedAndOrderKept"},
		{"a post of which nobody knows whether it arrived", "reply/chat.TestUnknownOutcomes reply/chat.TestKilledAtEveryRequest"},
		{"told the same twice", "reply/chat.TestDeliveredTwice cmd/internal/desk.TestChatFaults"},
		{"two people press one button, or an old one", "reply/chat.TestTwoPeoplePress cmd/internal/desk.TestFirstCounts"},
		{"a press before our own record", "cmd/internal/desk.TestChatFaults"},
		{"a channel that is closed, a token that is withdrawn", "cmd/internal/desk.TestChatIsShut reply/chat.TestErrorsAreToldApart reply/chat.TestListenEndsWhenTheTokenIsRevoked"},
		// The chat reaches us over a connection that we make, with a token; nothing
		// listens, so there is no request whose signature or age could be wrong.
		{"strangers, forgeries and old forms", "reply/chat.TestForeignersAreRefused reply/chat.TestForgedModal reply/chat.TestModalTooLate"},
		{"away for hours", "reply/chat.TestMissed cmd/internal/desk.TestCatchUp cmd/internal/desk.TestChatFaults"},
	},
	"mails": {
		{"200 MB", "ingest/mailbox.TestWatchFaults ingest/eml.TestParseTooLarge cmd/internal/desk.TestMailThatIsNotFetched"},
		{"thousands of parts, one in the other or beside", "ingest/eml.TestLimits"},
		{"alphabets and encodings that lie", "ingest/eml.TestGolden ingest/eml.FuzzDecodeTransfer"},
		{"no sender or two, no date, no name", "ingest/eml.TestAddresses ingest/eml.TestGolden ingest/origin.TestOf ingest/origin.TestCheckByResults ingest/eml.FuzzParse"},
		{"line ends smuggled into a header", "ingest/eml.TestEncodedLineEnds reply/eml.TestMarshalHostileTexts reply/eml.FuzzMarshalInjection reply/smtp.TestSendInjection"},
		{"names of files that lead elsewhere", "ingest/eml.TestFileName ingest/eml.TestFileNameHostileTexts reply/chat.TestEscapeHostileTexts cmd/fairtape.TestEscapeHostileTexts"},
		{"words that a chat would obey", "reply/chat.TestEscapeHostile reply/chat.TestNoFieldIsLeftUnescaped"},
		{"scripts, pictures from elsewhere, text that nobody sees", "cmd/internal/opener.TestHTMLBody cmd/internal/opener.TestConfined reply.TestLetterRepeatsHostileTexts"},
		{"orders to whoever reads the mail", "cmd/internal/opener.TestInstructionsAreWords"},
		{"a forged sender, forged results of checks", "cmd/internal/desk.TestHostileSenders ingest/origin.TestCheckByResults"},
		{"answers wanted elsewhere, or by ourselves", "cmd/internal/desk.TestReplyToElsewhere"},
		{"programs, lists, reports and receipts", "cmd/internal/desk.TestHostileSenders ingest/origin.TestOf"},
		{"a program that does not say so", "cmd/internal/desk.TestRobotIsStopped cmd/internal/desk.TestRobotsOfOneJobAreStopped"},
		{"our own mail, and circles", "cmd/internal/desk.TestHostileSenders ingest/origin.TestOf"},
		{"a container that only one program opens, and encrypted mail", "ingest/eml.TestGolden ingest/eml.TestWinmail cmd/internal/desk.TestSealedMail"},
	},
	"files": {
		{"workbooks that swell, or lie about their size", "cmd/internal/opener.TestHostileSheets parse/sheet.TestSparseXLSX parse/sheet.TestRefused"},
		// Nothing is written as CSV; an export is a workbook, where a text is a text.
		{"formulas, read and written", "parse/sheet.TestXLSXCells parse/sheet.TestCSVText cmd/fairtape.TestExportHostileTexts reply/cover/sheet.TestHostileNames"},
		{"tables that repeat for ever, archives in archives", "parse/sheet.TestODSRepeats parse/sheet.TestOverlappingParts cmd/internal/opener.TestHostileSheets cmd/internal/opener.TestRefused"},
		{"PDFs with circles, bombs and broken locks", "cmd/internal/opener.TestHostilePDF cmd/internal/opener.TestBrokenEncryption cmd/internal/opener.TestRefused"},
		{"PDFs that show something else than they hold", "parse/pdf.TestNoReading parse/pdf.TestDrawnOtherwise parse/pdf.TestReadersDiffer"},
		{"pictures of gigapixels", "parse/photo.TestDecodeRefuses cmd/internal/opener.TestRefused"},
		{"pictures that say wrongly which way is up, in a circle", "parse/photo.TestOrientation cmd/internal/opener.TestHostilePictures cmd/fairtape.TestPrivacy"},
		{"broken containers of pictures", "cmd/internal/opener.TestHostilePictures parse/photo.TestDecodeRefuses"},
		{"names that lie, files that are cut, empty or locked", "cmd/internal/opener.TestKinds cmd/internal/opener.TestRefused cmd/internal/opener.TestDamaged parse/sheet.TestRefused"},
		{"typed tables with other commas, quotes and alphabets", "parse/sheet.TestCSVText parse/sheet.TestSamples parse/sheet.TestRefused parse/sheet.FuzzCSV"},
		{"a mail that breaks the reader each time", "cmd/internal/desk.TestPoisonIsSetAside"},
	},
}

// knownFaults is how many kinds of faults the catalogue has to cover.
const knownFaults = 65

// TestFaultsAreShown holds that every fault has its test.
func TestFaultsAreShown(t *testing.T) {
	count := 0
	tests := map[string]map[string]bool{} // by package
	for from, list := range faults {
		for _, f := range list {
			count++
			if f.shown == "" {
				t.Errorf("%s: %q is shown by no test", from, f.what)
			}
			for _, test := range strings.Fields(f.shown) {
				room, name, _ := strings.Cut(test, ".")
				if tests[room] == nil {
					tests[room] = testsOf(t, room)
				}
				if !tests[room][name] {
					t.Errorf("%s: %q is to be shown by %s, which is not there", from, f.what, test)
				}
			}
		}
	}
	if count != knownFaults {
		t.Errorf("%d faults, want %d", count, knownFaults)
	}
}

// testsOf returns the names of the tests of a package, of those that are run
// with given input, too.
func testsOf(t *testing.T, room string) map[string]bool {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", room, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && f.Recv == nil && (strings.HasPrefix(f.Name.Name, "Test") || strings.HasPrefix(f.Name.Name, "Fuzz")) && len(f.Type.Params.List) == 1 {
				names[f.Name.Name] = true
			}
		}
	}
	return names
}
