//go:build unix

package main

import (
	"bufio"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// program gives the kernbook that scripts can start: the one that was built, or
// this test as one.
func program(t testing.TB) string {
	t.Helper()
	if folder := os.Getenv("KERNBOOK_BUILD"); folder != "" {
		return filepath.Join(folder, "kernbook")
	}
	p, err := exec.LookPath("kernbook") // put on the path by testscript.Main
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestRun starts what "make run" starts, reads the first page at the address it
// prints, and ends it as Ctrl-C does: twice, the second time with the yard that
// is there. The book holds afterwards.
func TestRun(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "some", "yard")
	kernbook := program(t)
	script, err := filepath.Abs("../../scripts/run")
	if err != nil {
		t.Fatal(err)
	}
	for _, made := range []bool{true, false} {
		c := exec.Command(script, kernbook, dir, "127.0.0.1:0")
		c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // Ctrl-C reaches the whole group
		c.Stderr = os.Stderr
		out, err := c.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		end := time.AfterFunc(2*time.Minute, func() { syscall.Kill(-c.Process.Pid, syscall.SIGKILL) }) // so that this ends by itself
		address, said := "", ""
		lines := bufio.NewScanner(out)
		for address == "" && lines.Scan() {
			said += lines.Text() + "\n"
			if strings.HasPrefix(lines.Text(), "http://") {
				address = lines.Text()
			}
		}
		if address == "" {
			t.Fatalf("no address was printed: %s", said)
		}
		if strings.Contains(said, "Making") != made || !strings.Contains(said, dir) {
			t.Errorf("it says:\n%s", said)
		}
		r, err := http.Get(address)
		if err != nil {
			t.Fatal(err)
		}
		page, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || r.StatusCode != http.StatusOK || !strings.Contains(string(page), "Quillbrook Tree Care") {
			t.Errorf("%s: %s, %v\n%.500s", address, r.Status, err, page)
		}
		if err := syscall.Kill(-c.Process.Pid, syscall.SIGINT); err != nil {
			t.Fatal(err)
		}
		io.Copy(io.Discard, out)
		if err := c.Wait(); err != nil {
			t.Errorf("after an interrupt: %v", err)
		}
		end.Stop()
		if _, err := os.Stat(filepath.Join(dir, "book.sqlite-wal")); err == nil {
			t.Error("the book was not closed")
		}
	}
	var told, errs writer
	if code := run([]string{"verify", "--yard", dir}, os.Stdin, &told, &errs); code != exitKeep {
		t.Errorf("verify ends with %d\n%s%s", code, told, errs)
	}
}

// TestAsJSON: demo and serve tell in JSON what they made and where it is shown, and
// it is so.
func TestAsJSON(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "invented")
	var out, errs writer
	if code := run([]string{"demo", dir, "--json"}, os.Stdin, &out, &errs); code != exitKeep {
		t.Fatalf("demo ends with %d: %s", code, errs)
	}
	var made invented
	if err := json.Unmarshal(out, &made); err != nil || made.Folder != dir || made.Entries < 500 {
		t.Fatalf("%+v, %v", made, err)
	}
	c := exec.Command(program(t), "serve", "--yard", dir, "--listen", "127.0.0.1:0", "--json")
	c.Stderr = os.Stderr
	pipe, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	end := time.AfterFunc(2*time.Minute, func() { c.Process.Kill() })
	defer end.Stop()
	var s serving
	if err := json.NewDecoder(pipe).Decode(&s); err != nil || s.Yard != dir {
		t.Fatalf("%+v, %v", s, err)
	}
	r, err := http.Get(s.Address)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != http.StatusOK {
		t.Errorf("%s: %s", s.Address, r.Status)
	}
	if err := c.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := c.Wait(); err != nil {
		t.Errorf("after an interrupt: %v", err)
	}
}
