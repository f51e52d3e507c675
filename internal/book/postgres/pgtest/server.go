//go:build unix

// Package pgtest starts a throwaway PostgreSQL server for tests, from the
// programs of Debian's package postgresql, on a unix socket in a folder of its
// own and nowhere else.
package pgtest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"syscall"
	"time"
)

// Server is a running server. It ends with Stop, or with the process that
// started it however that ends.
type Server struct {
	Dir  string // data, socket and log; belongs to the user the server runs as
	cmd  *exec.Cmd
	hold io.Closer
}

// What to do where there is no server.
var errMissing = errors.New("PostgreSQL's server is not here (initdb is neither on the path nor in /usr/lib/postgresql/*/bin): " +
	"apt-get install postgresql, or run make test, which installs it where it may; go test -short leaves these tests out")

// guard runs the server and ends it as soon as its own input ends, which the
// system sees to when the test's process dies.
const guard = `"$1/postgres" -D "$2/data" -k "$2" -c listen_addresses= -c shared_buffers=16MB -c max_connections=60 \
	-c wal_level=minimal -c max_wal_senders=0 -c checkpoint_timeout=30min -c autovacuum=off >"$2/log" 2>&1 & server=$!
read -r gone
kill -INT "$server"
wait "$server"
rm -rf "$2"`

// Start makes a fresh cluster and starts its server. fsync stays on, as it is by
// default: the suite kills clients, not the machine, so this costs time and
// shows nothing by itself, but the engine refuses a server without it.
func Start() (*Server, error) {
	bin, err := programs()
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "kbpg") // short: a socket's path has at most 107 bytes
	if err != nil {
		return nil, err
	}
	s := &Server{Dir: dir}
	as, err := s.plainUser()
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Minute)
	defer stop()
	initdb := exec.CommandContext(ctx, bin+"/initdb", "-D", dir+"/data", "-N", "-A", "trust", "-U", "kernbook", "-E", "UTF8", "--locale=C")
	initdb.SysProcAttr, initdb.Dir = as, dir
	if out, err := initdb.CombinedOutput(); err != nil {
		return nil, errors.Join(fmt.Errorf("initdb: %w\n%s", err, out), os.RemoveAll(dir))
	}
	s.cmd = exec.Command("/bin/sh", "-c", guard, "sh", bin, dir)
	s.cmd.SysProcAttr, s.cmd.Dir = as, dir
	if s.hold, err = s.cmd.StdinPipe(); err == nil {
		err = s.cmd.Start()
	}
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	if err := s.ready(ctx); err != nil {
		return nil, errors.Join(err, s.Stop())
	}
	return s, nil
}

// programs gives the folder with initdb and postgres.
func programs() (string, error) {
	places, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if p, err := exec.LookPath("initdb"); err == nil {
		if p, err = filepath.EvalSymlinks(p); err == nil {
			places = append(places, p)
		}
	}
	for i := len(places) - 1; i >= 0; i-- {
		dir := filepath.Dir(places[i])
		if _, err := os.Stat(dir + "/postgres"); err == nil {
			return dir, nil
		}
	}
	return "", errMissing
}

// plainUser gives what a process needs to run as somebody other than root,
// which the server refuses, and gives that user the folder.
func (s *Server) plainUser() (*syscall.SysProcAttr, error) {
	if os.Geteuid() != 0 {
		return nil, nil
	}
	u, err := user.Lookup("postgres")
	if err != nil {
		if u, err = user.Lookup("nobody"); err != nil {
			return nil, fmt.Errorf("the server does not run as root, and there is neither a user postgres nor nobody: %w", err)
		}
	}
	uid, err1 := strconv.ParseUint(u.Uid, 10, 32)
	gid, err2 := strconv.ParseUint(u.Gid, 10, 32)
	if err := errors.Join(err1, err2, os.Chown(s.Dir, int(uid), int(gid))); err != nil {
		return nil, err
	}
	return &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}, nil
}

// ready waits until the server takes connections: until it says so in its log,
// and its socket answers.
func (s *Server) ready(ctx context.Context) error {
	for {
		log, _ := os.ReadFile(s.Dir + "/log")
		if bytes.Contains(log, []byte("ready to accept connections")) {
			c, err := net.Dial("unix", s.Dir+"/.s.PGSQL.5432")
			if err == nil {
				return c.Close()
			}
		}
		if bytes.Contains(log, []byte("FATAL:")) || ctx.Err() != nil {
			return fmt.Errorf("the server did not start:\n%s", log)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// Address gives what to connect to a database with.
func (s *Server) Address(database string) string {
	return fmt.Sprintf("host=%s port=5432 user=kernbook dbname=%s", s.Dir, database)
}

// Stop ends the server and removes its folder.
func (s *Server) Stop() error {
	err := s.hold.Close()
	if e := s.cmd.Wait(); e != nil {
		err = errors.Join(err, fmt.Errorf("the server ended with: %w", e))
	}
	return errors.Join(err, os.RemoveAll(s.Dir))
}
