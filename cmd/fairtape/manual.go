package main

import (
	"fmt"
	"io"

	"github.com/alecthomas/kong"

	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/shell"
)

type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

// Run prints the script of a shell.
func (c *completionCommand) Run(t *terminal, line *kong.Context) error {
	_, err := io.WriteString(t.out, shell.Completion(c.Shell, line.Model))
	return err
}

type manualCommand struct{}

// Run prints the manual page.
func (*manualCommand) Run(t *terminal, line *kong.Context) error {
	_, err := io.WriteString(t.out, shell.Manual(line.Model, examples, manualSections()))
	return err
}

// manualSections is what the definition of the commands does not say.
func manualSections() []shell.Section {
	return []shell.Section{
		{Title: "EXIT STATUS", Items: []shell.Item{
			{Head: "0", Text: "Clean, or done."},
			{Head: "1", Text: "Something is to be measured again, confirmed or supplied; of doctor, something is at fault; of health, the service is not well."},
			{Head: "2", Text: "Wrong use, or settings that cannot be meant."},
			{Head: "3", Text: "A file could not be read as a survey."},
			{Head: "4", Text: "A failure of the program's own."},
			{Text: "With --each the first of 4, 3, 1 and 0 that occurs."},
		}},
		{Title: "SIGNALS", Items: []shell.Item{
			{Head: "SIGTERM, SIGINT", Text: "End watch; what is under way is ended cleanly, and the status is 0."},
			{Head: "SIGHUP", Text: "Makes watch read letters and the judge's costs anew. When the file is broken the old ones stay, and the log and the chat say so."},
		}},
		{Title: "ENVIRONMENT", Items: []shell.Item{
			{Head: "XDG_CONFIG_HOME", Text: "Where the settings file is looked for, as fairtape/fairtape.toml; ~/.config when it is not set."},
			{Head: "CREDENTIALS_DIRECTORY", Text: "Where systemd puts secrets; one of the same name as a secret's file wins over that file."},
			{Head: "NOTIFY_SOCKET, WATCHDOG_USEC, WATCHDOG_PID", Text: "Where systemd hears that watch is ready and lives."},
			{Head: "NO_COLOR, FORCE_COLOR", Text: "Without and with emphasis, whatever the terminal."},
		}},
		{Title: "SETTINGS", Items: settingsItems()},
		{Title: "FILES", Items: []shell.Item{
			{Head: "~/.config/fairtape/fairtape.toml", Text: "The settings. Paths in it are relative to it."},
			{Head: "fairtape.db", Text: "The ledger, beside the settings if they do not say otherwise; fairtape.db.lock is held by the service, fairtape.cache holds compiled readers and may be deleted."},
		}},
	}
}

// settingsItems is the reference of the settings file, a paragraph a key.
func settingsItems() []shell.Item {
	items := []shell.Item{{Text: "In TOML. Unknown keys and values that cannot be meant are refused at the start, with the likely fix. [[inbox]] adds an inbox: its name, and tables [inbox.shop], [inbox.imap], [inbox.smtp], [inbox.slack], [inbox.letters] and [inbox.cloth.NAME] with the keys below; what they leave out is as in the tables without inbox, but for the account and the channel."}}
	for _, k := range settings.Reference() {
		text := k.Help + "."
		if k.Default != "" {
			text = fmt.Sprintf("%s. Default: %s", k.Help, k.Default)
		}
		items = append(items, shell.Item{Head: k.Table + "." + k.Name, Text: text})
	}
	return items
}
