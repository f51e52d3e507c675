package check

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"

	"kernbook/internal/artefact"
)

// memory bounds what a core may take, in pages of 64 KiB: 1 GiB.
const memory = 1 << 14

// Cores runs the cores that are kept in a folder, each once: records go in line
// by line, outcomes come out. A core sees no file, no clock of the machine and
// no network.
type Cores struct {
	dir     string
	runtime wazero.Runtime
	running map[string]*core
	stop    context.CancelFunc
	ctx     context.Context
}

// core is one that runs.
type core struct {
	in   *io.PipeWriter
	out  *bufio.Reader
	said *bytes.Buffer // on standard error; to be read once out has ended
}

// NewCores gives the cores of a folder. The folder need not be there.
func NewCores(dir string) (*Cores, error) {
	c := &Cores{dir: dir, running: map[string]*core{}}
	c.ctx, c.stop = context.WithCancel(context.Background())
	c.runtime = wazero.NewRuntimeWithConfig(c.ctx, wazero.NewRuntimeConfig().WithMemoryLimitPages(memory))
	if _, err := wasi_snapshot_preview1.Instantiate(c.ctx, c.runtime); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	return c, nil
}

// Close ends every core that runs.
func (c *Cores) Close() error {
	for _, r := range c.running {
		r.in.Close()
		io.Copy(io.Discard, r.out) // until it has ended
	}
	err := c.runtime.Close(c.ctx)
	c.stop()
	return err
}

// Outcome gives the outcome for a record by the core of a hash, as that core
// writes it. A missing says that the core is not there; artefact.ErrOther that
// what is there is another.
func (c *Cores) Outcome(hash string, record []byte) ([]byte, error) {
	r, err := c.core(hash)
	if err != nil {
		return nil, err
	}
	line := append(bytes.TrimRight(record, "\n"), '\n')
	if _, err = r.in.Write(line); err == nil {
		var out []byte
		if out, err = r.out.ReadBytes('\n'); err == nil {
			return bytes.TrimSuffix(out, []byte("\n")), nil
		}
	}
	return nil, fmt.Errorf("the core %s gave no outcome: %w %s", hash, err, r.said)
}

// core gives the core of a hash, running.
func (c *Cores) core(hash string) (*core, error) {
	if r := c.running[hash]; r != nil {
		return r, nil
	}
	packed, err := os.ReadFile(artefact.File(c.dir, hash))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, missing("the core that decided, " + hash + ", is not in the yard's folder")
	}
	if err != nil {
		return nil, err
	}
	wasm, err := artefact.Unpack(packed, hash)
	if err != nil {
		return nil, fmt.Errorf("%s: what the file holds %w", artefact.File(c.dir, hash), err)
	}
	compiled, err := c.runtime.CompileModule(c.ctx, wasm)
	if err != nil {
		return nil, fmt.Errorf("the core %s cannot be run: %w", hash, err)
	}
	in, put := io.Pipe()
	get, out := io.Pipe()
	r := &core{in: put, out: bufio.NewReader(get), said: &bytes.Buffer{}}
	config := wazero.NewModuleConfig().WithName("").WithStdin(in).WithStdout(out).WithStderr(r.said)
	go func() { // until its input ends
		_, err := c.runtime.InstantiateModule(c.ctx, compiled, config)
		in.Close()
		out.CloseWithError(errors.Join(io.EOF, err))
	}()
	c.running[hash] = r
	return r, nil
}
