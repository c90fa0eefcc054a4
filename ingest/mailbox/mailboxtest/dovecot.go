package mailboxtest

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"text/template"
	"time"

	"github.com/emersion/go-imap/v2"
)

// ErrNoDovecot says that no Dovecot is installed, so that a test can skip.
var ErrNoDovecot = errors.New("no dovecot on this machine")

// Dovecot is a real IMAP server of this test alone: it listens on loopback, and
// all its files lie in a folder of its own. The account is User with Password.
type Dovecot struct {
	Addr string // host:port

	dir     string
	trusted *x509.CertPool
	options DovecotOptions
	cmd     *exec.Cmd
}

// DovecotOptions is how Dovecot is set up. The zero value is plain text, with
// Drafts and Sent marked.
type DovecotOptions struct {
	Certificate *tls.Certificate // nil: plain text; otherwise STARTTLS on Addr
	Roots       *x509.CertPool   // that trust the certificate
	NoSpecial   bool             // INBOX is the only mailbox
}

// dovecotConfig is for Dovecot 2.3. Login processes stay out of their chroot,
// which a container may not allow.
var dovecotConfig = template.Must(template.New("dovecot.conf").Parse(`
base_dir = {{.Dir}}/run
state_dir = {{.Dir}}/state
log_path = {{.Dir}}/dovecot.log
protocols = imap
listen = 127.0.0.1
disable_plaintext_auth = no
default_internal_user = {{.Internal}}
default_internal_group = {{.InternalGroup}}
default_login_user = {{.Login}}
first_valid_uid = 1
mail_location = maildir:~/Maildir
mail_max_userip_connections = 100
auth_failure_delay = 0
{{if .Certificate}}ssl = yes
ssl_cert = <{{.Dir}}/cert.pem
ssl_key = <{{.Dir}}/key.pem
{{else}}ssl = no
{{end}}
passdb {
  driver = passwd-file
  args = scheme=PLAIN {{.Dir}}/users
}
userdb {
  driver = static
  args = uid={{.UID}} gid={{.GID}} home={{.Dir}}/home/%u
}
namespace inbox {
  inbox = yes
{{if not .NoSpecial}}  mailbox Drafts {
    auto = create
    special_use = \Drafts
  }
  mailbox Sent {
    auto = create
    special_use = \Sent
  }
{{end}}}
service imap-login {
  chroot =
  inet_listener imap {
    port = {{.Port}}
  }
  inet_listener imaps {
    port = 0
  }
}
service anvil {
  chroot =
}
service stats {
  chroot =
}
`))

// StartDovecot starts Dovecot on a free port of 127.0.0.1 and waits until it
// answers. Without a dovecot binary the error is ErrNoDovecot.
func StartDovecot(options DovecotOptions) (*Dovecot, error) {
	binary, err := findDovecot()
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "dovecot")
	if err != nil {
		return nil, fmt.Errorf("making a folder for dovecot: %w", err)
	}
	d := &Dovecot{dir: dir, options: options, trusted: options.Roots}
	if err := d.start(binary); err != nil {
		d.Close()
		return nil, err
	}
	return d, nil
}

func findDovecot() (string, error) {
	for _, name := range []string{"dovecot", "/usr/sbin/dovecot", "/usr/local/sbin/dovecot"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", ErrNoDovecot
}

func (d *Dovecot) start(binary string) error {
	port, err := freePort()
	if err != nil {
		return err
	}
	d.Addr = net.JoinHostPort("127.0.0.1", strconv.Itoa(port))
	if err := d.writeFiles(port); err != nil {
		return fmt.Errorf("setting up dovecot: %w", err)
	}
	var out bytes.Buffer
	d.cmd = exec.Command(binary, "-F", "-c", filepath.Join(d.dir, "dovecot.conf"))
	d.cmd.Stdout, d.cmd.Stderr = &out, &out
	if err := d.cmd.Start(); err != nil {
		return fmt.Errorf("starting dovecot: %w", err)
	}
	deadline := time.Now().Add(10 * time.Second)
	for time.Now().Before(deadline) {
		if _, err = Messages(d.Addr, d.tls(), false, User, Password, "INBOX"); err == nil {
			return nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	log, _ := os.ReadFile(filepath.Join(d.dir, "dovecot.log")) // there may be none
	return fmt.Errorf("dovecot does not answer: %w\n%s%s", err, out.Bytes(), log)
}

func freePort() (int, error) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, fmt.Errorf("looking for a free port: %w", err)
	}
	defer ln.Close()
	return ln.Addr().(*net.TCPAddr).Port, nil
}

// writeFiles writes configuration, password file and certificate. Mail belongs
// to nobody when we are root, since Dovecot never works for root, and to us
// otherwise.
func (d *Dovecot) writeFiles(port int) error {
	me, err := user.Current()
	if err != nil {
		return err
	}
	group, err := user.LookupGroupId(me.Gid)
	if err != nil {
		return err
	}
	data := map[string]any{
		"Dir": d.dir, "Port": port, "NoSpecial": d.options.NoSpecial, "Certificate": d.options.Certificate != nil,
		"Internal": me.Username, "InternalGroup": group.Name, "Login": me.Username, "UID": me.Uid, "GID": me.Gid,
	}
	if me.Uid == "0" {
		nobody, err := user.Lookup("nobody")
		if err != nil {
			return err
		}
		data["Internal"], data["InternalGroup"], data["Login"] = "dovecot", "dovecot", "dovenull"
		data["UID"], data["GID"] = nobody.Uid, nobody.Gid
	}
	var conf bytes.Buffer
	if err := dovecotConfig.Execute(&conf, data); err != nil {
		return err
	}
	files := map[string][]byte{
		"dovecot.conf": conf.Bytes(),
		"users":        []byte(User + ":" + Password + "\n"),
	}
	if c := d.options.Certificate; c != nil {
		key, err := x509.MarshalPKCS8PrivateKey(c.PrivateKey)
		if err != nil {
			return err
		}
		files["key.pem"] = pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: key})
		files["cert.pem"] = pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c.Certificate[0]})
	}
	for name, b := range files {
		// Dovecot's own users read these; the folder goes with the test.
		if err := os.WriteFile(filepath.Join(d.dir, name), b, 0o644); err != nil {
			return err
		}
	}
	return d.makeHome(data["UID"].(string), data["GID"].(string))
}

func (d *Dovecot) makeHome(uid, gid string) error {
	home := filepath.Join(d.dir, "home")
	if err := os.Mkdir(home, 0o755); err != nil {
		return err
	}
	if err := os.Chmod(d.dir, 0o755); err != nil {
		return err
	}
	u, err := strconv.Atoi(uid)
	if err != nil {
		return err
	}
	g, err := strconv.Atoi(gid)
	if err != nil {
		return err
	}
	return os.Chown(home, u, g)
}

func (d *Dovecot) tls() *tls.Config {
	if d.options.Certificate == nil {
		return nil
	}
	return &tls.Config{RootCAs: d.trusted}
}

// Close ends Dovecot and removes its folder.
func (d *Dovecot) Close() error {
	if d.cmd != nil && d.cmd.Process != nil {
		// The master ends its children when it is told to end.
		d.cmd.Process.Signal(os.Interrupt)
		done := make(chan struct{})
		go func() {
			d.cmd.Wait() // ended by a signal, which is no news
			close(done)
		}()
		select {
		case <-done:
		case <-time.After(5 * time.Second):
			d.cmd.Process.Kill()
			<-done
		}
	}
	return os.RemoveAll(d.dir)
}

// Append puts a message into a mailbox and returns its UID.
func (d *Dovecot) Append(mailbox string, raw []byte, received time.Time, flags ...imap.Flag) (uint32, error) {
	c, err := connect(d.Addr, d.tls(), false)
	if err != nil {
		return 0, fmt.Errorf("connecting: %w", err)
	}
	defer c.Close()
	if err := c.Login(User, Password).Wait(); err != nil {
		return 0, fmt.Errorf("signing in: %w", err)
	}
	cmd := c.Append(mailbox, int64(len(raw)), &imap.AppendOptions{Time: received, Flags: flags})
	if _, err := cmd.Write(raw); err != nil {
		return 0, fmt.Errorf("appending to %s: %w", mailbox, err)
	}
	if err := cmd.Close(); err != nil {
		return 0, fmt.Errorf("appending to %s: %w", mailbox, err)
	}
	data, err := cmd.Wait()
	if err != nil {
		return 0, fmt.Errorf("appending to %s: %w", mailbox, err)
	}
	return uint32(data.UID), nil
}

// Messages returns all messages of a mailbox.
func (d *Dovecot) Messages(mailbox string) ([]Message, error) {
	return Messages(d.Addr, d.tls(), false, User, Password, mailbox)
}
