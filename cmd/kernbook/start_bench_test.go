//go:build unix

package main

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// BenchmarkStart starts the program with the invented yard, takes the address it
// prints and fetches the first page, "ms" from the start to its last byte: the
// median. "address-ms" is up to the address, "next-ms" the same page once more.
// "of-version" is how many times as long that takes as to start the program for its
// version alone, which reads the tables, turn by turn; "cpu-ms" is what the two pages
// took of the processors, start and end included; "peak-MB" is the largest
// that the program's memory got, where the system tells it.
func BenchmarkStart(b *testing.B) {
	dir, kernbook := filepath.Join(b.TempDir(), "yard"), program(b)
	if out, err := exec.Command(kernbook, "demo", dir).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	var first, address, next, version, cpu []float64
	peak := 0
	for b.Loop() {
		began := time.Now()
		c := exec.Command(kernbook, "serve", "--yard", dir, "--listen", "127.0.0.1:0")
		out, err := c.StdoutPipe()
		if err != nil {
			b.Fatal(err)
		}
		if err := c.Start(); err != nil {
			b.Fatal(err)
		}
		line, err := bufio.NewReader(out).ReadString('\n')
		if err != nil {
			b.Fatal(err)
		}
		address = append(address, since(began))
		page(b, strings.TrimSpace(line))
		first = append(first, since(began))
		again := time.Now()
		page(b, strings.TrimSpace(line))
		next = append(next, since(again))
		peak = max(peak, highest(c.Process.Pid))
		if err := c.Process.Signal(syscall.SIGINT); err != nil {
			b.Fatal(err)
		}
		if err := c.Wait(); err != nil {
			b.Fatal(err)
		}
		cpu = append(cpu, float64((c.ProcessState.UserTime()+c.ProcessState.SystemTime()).Microseconds())/1e3)
		began = time.Now()
		if err := exec.Command(kernbook, "version").Run(); err != nil {
			b.Fatal(err)
		}
		version = append(version, since(began))
	}
	b.ReportMetric(median(first), "ms")
	b.ReportMetric(slices.Min(first), "least-ms")
	b.ReportMetric(median(address), "address-ms")
	b.ReportMetric(median(next), "next-ms")
	b.ReportMetric(median(first)/median(version), "of-version")
	b.ReportMetric(median(cpu), "cpu-ms")
	b.ReportMetric(float64(peak)/1e3, "peak-MB")
	b.ReportMetric(0, "ns/op")
}

func page(b *testing.B, address string) {
	b.Helper()
	r, err := http.Get(address)
	if err != nil {
		b.Fatal(err)
	}
	defer r.Body.Close()
	if _, err := io.Copy(io.Discard, r.Body); err != nil || r.StatusCode != http.StatusOK {
		b.Fatal(r.Status, err)
	}
}

func since(t time.Time) float64 { return float64(time.Since(t).Microseconds()) / 1e3 }

func median(all []float64) float64 {
	slices.Sort(all)
	return all[len(all)/2]
}

// highest gives the most memory a process has held, in kB; 0 where that is not told.
func highest(pid int) (kB int) {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid)) // Linux alone has it
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			fmt.Sscan(rest, &kB)
		}
	}
	return kB
}
