package corpus

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"testing"

	"kernbook/internal/answer"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// requests gives every record as the line of JSON that the other machines get,
// and the outcome that this one gives for it.
var requests = sync.OnceValues(func() (in, out [][]byte) {
	tb := tables.Default()
	cases, _ := load()
	for _, c := range cases {
		line := bytes.TrimSpace(record.Encode(c.Record))
		b, _ := answer.Decide(tb, "record", line)
		in, out = append(in, line), append(out, b)
	}
	return in, out
})

// TestThroughJSON holds that a record says the same when it has been written as
// JSON and read again.
func TestThroughJSON(t *testing.T) {
	tb := tables.Default()
	cases := all(t)
	_, out := requests()
	for i, c := range cases {
		o := decide.Decide(tb, c.Record, decide.Ask{Explain: true})
		want, err := report.JSON(&o, tb, c.Record, lang.English())
		if err != nil {
			t.Fatal(err)
		}
		same(t, c.Name, plain(t, out[i]), plain(t, want))
	}
}

// same compares the outcome of another way with the native one, byte by byte,
// and shows where they part.
func same(t *testing.T, name string, got, want []byte) {
	t.Helper()
	if bytes.Equal(got, want) {
		return
	}
	at := 0
	for at < len(got) && at < len(want) && got[at] == want[at] {
		at++
	}
	near := func(b []byte) []byte { return b[max(0, min(at-60, len(b))):min(len(b), at+60)] }
	t.Errorf("%s: differs from byte %d on:\n got …%s…\nwant …%s…", name, at, near(got), near(want))
}

// sameAll compares outcomes with the native ones, one by one.
func sameAll(t *testing.T, cases []Case, got [][]byte) {
	t.Helper()
	_, want := requests()
	if len(got) != len(want) {
		t.Fatalf("%d outcomes for %d records", len(got), len(want))
	}
	for i := range want {
		same(t, cases[i].Name, got[i], want[i])
	}
}

// plain takes the white space between the parts of JSON away; text and numbers
// stay byte by byte. The command prints JSON for a person to read.
func plain(t *testing.T, b []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := json.Compact(&out, b); err != nil {
		t.Fatalf("no JSON: %v in %.200q", err, b)
	}
	return out.Bytes()
}

// built gives a file of the build folder. Where KERNBOOK_BUILD is not set the
// test is skipped; where it is, a file that is not there is a failure.
func built(t *testing.T, name string) string {
	t.Helper()
	folder := os.Getenv("KERNBOOK_BUILD")
	if folder == "" {
		t.Skip("KERNBOOK_BUILD is not set, so the other builds are not tried; `make test` builds them and sets it")
	}
	file := filepath.Join(folder, filepath.FromSlash(name))
	if _, err := os.Stat(file); err != nil {
		t.Fatalf("KERNBOOK_BUILD is set, but %v: run `make test`, which builds it", err)
	}
	return file
}

// tool gives a program of the machine, the first of the names that is there.
func tool(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Fatalf("none of %v is here: run scripts/need, or `make test`, which installs it", names)
	return ""
}

// pipe runs a program with the records as lines on its standard input.
func pipe(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	in, _ := requests()
	c := exec.Command(program, args...)
	c.Stdin = bytes.NewReader(append(bytes.Join(in, []byte("\n")), '\n'))
	var out, complaints bytes.Buffer
	c.Stdout, c.Stderr = &out, &complaints
	if err := c.Run(); err != nil {
		t.Fatalf("%s: %v\n%s", program, err, complaints.Bytes())
	}
	return out.Bytes()
}

// TestInNode runs the corpus through the core as WebAssembly for the browser.
func TestInNode(t *testing.T) {
	wasm, js := built(t, "kernbook.js.wasm"), built(t, "wasm_exec.js")
	cases := all(t)
	var got [][]byte
	for line := range bytes.Lines(pipe(t, tool(t, "node"), "run.mjs", js, wasm)) {
		var text string
		if err := json.Unmarshal(line, &text); err != nil {
			t.Fatalf("run.mjs wrote %.200q: %v", line, err)
		}
		got = append(got, []byte(text))
	}
	sameAll(t, cases, got)
}

// TestInWazero runs the corpus through the artefact that recomputes old outcomes.
func TestInWazero(t *testing.T) {
	wasm, wazero := built(t, "kernbook.wasi.wasm"), built(t, "bin/wazero")
	cases := all(t)
	out := pipe(t, wazero, "run", "-cachedir", filepath.Join(os.Getenv("KERNBOOK_BUILD"), "wazero-cache"), wasm)
	sameAll(t, cases, bytes.Split(bytes.TrimSuffix(out, []byte("\n")), []byte("\n"))) // one outcome per line
}

// TestOnArm64 runs the corpus, as TOML, through the command built for arm64.
func TestOnArm64(t *testing.T) {
	program := built(t, "kernbook-linux-arm64")
	var args []string
	if runtime.GOARCH != "arm64" || runtime.GOOS != "linux" {
		args = append(args, program)
		program = tool(t, "qemu-aarch64-static", "qemu-aarch64")
	}
	cases := all(t)
	args = append(args, "decide", "--json")
	worst := kit.Keep
	for _, c := range cases {
		args = append(args, filepath.Join(dir, c.Name+".toml"))
		worst = kit.Stricter(worst, c.Demand)
	}
	out, code := command(t, program, args...)
	if code != exits[worst] {
		t.Errorf("exit status %d, want %d: that of the strictest", code, exits[worst])
	}
	_, want := requests()
	each := json.NewDecoder(bytes.NewReader(out))
	for i, c := range cases {
		var got json.RawMessage
		if err := each.Decode(&got); err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		same(t, c.Name, plain(t, got), plain(t, want[i]))
	}
	if each.More() {
		t.Errorf("more outcomes than records")
	}
}

// exits are the published exit statuses of decide.
var exits = map[kit.Verdict]int{kit.Keep: 0, kit.KeepSooner: 10, kit.SetAside: 20, kit.Withdraw: 30}

// TestByCommand runs every case by itself through the command line, and holds
// the exit status against the demand.
func TestByCommand(t *testing.T) {
	program := built(t, "kernbook")
	cases := all(t)
	_, want := requests()
	for i, c := range cases {
		out, code := command(t, program, "decide", "--json", filepath.Join(dir, c.Name+".toml"))
		if code != exits[c.Demand] {
			t.Errorf("%s: exit status %d, want %d for %s", c.Name, code, exits[c.Demand], c.Demand)
		}
		same(t, c.Name, plain(t, out), plain(t, want[i]))
	}
}

// command runs a program and gives what it printed and its exit status.
func command(t *testing.T, program string, args ...string) (out []byte, code int) {
	t.Helper()
	c := exec.Command(program, args...)
	var complaints bytes.Buffer
	c.Stderr = &complaints
	out, err := c.Output()
	var exit *exec.ExitError
	switch {
	case err == nil:
		return out, 0
	case errors.As(err, &exit) && exit.ExitCode() > 0:
		if complaints.Len() > 0 {
			t.Errorf("%s %v complains:\n%s", program, args[:min(3, len(args))], complaints.Bytes())
		}
		return out, exit.ExitCode()
	}
	t.Fatalf("%s: %v\n%s", program, err, complaints.Bytes())
	return nil, 0
}
