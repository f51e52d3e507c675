// Package tables reads the data files of the judgement into the types of
// core/table. It is strict: whatever it does not know, cannot place or finds
// without unit, source, place and status is refused, all faults in one go.
//
// The files of a set: lines, fibres, contaminants, causes, looks, events, use,
// rules, life, intervals and bench (each .toml), and one file per kind under kinds/.
package tables

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	data "kernbook/tables"
)

// largest is the size in bytes beyond which a data file is not read.
const largest = 4 << 20

// part reads one file into the tables. Parts are read in this order, so that a
// reference finds what it names already there.
type part struct {
	name string // file name without kinds/ and .toml
	unit map[string]string
	read func(l *loader, f *file)
}

var parts = []part{
	{"lines", nil, (*loader).lines},
	{"fibres", unitsFibres, (*loader).fibres},
	{"contaminants", unitsContaminants, (*loader).contaminants},
	{"causes", nil, (*loader).causes},
	{"looks", unitsLooks, (*loader).looks},
	{"events", nil, (*loader).events},
	{"use", unitsUse, (*loader).use},
	{"rules", unitsRules, (*loader).rules},
	{"intervals", unitsIntervals, (*loader).intervals},
	{"life", unitsLife, (*loader).life},
	{"bench", unitsBench, (*loader).bench},
}

var kindPart = part{"kinds/*", unitsKind, (*loader).kind}

// Load reads a set of data files. With any fault it gives nil and all faults.
func Load(fsys fs.FS) (*table.Tables, doc.Faults) {
	l := &loader{t: &table.Tables{}, ids: map[string]map[string]bool{}}
	found, kinds := l.find(fsys)
	l.t.Version = version(found)
	for _, p := range parts {
		name := p.name + ".toml"
		b, ok := found[name]
		if !ok {
			l.fault(name, "the file is missing", "add it; a set of tables needs it")
			l.lost(p.name)
			continue
		}
		l.file(name, b, p)
	}
	for _, name := range kinds {
		l.file(name, found[name], kindPart)
	}
	if len(kinds) == 0 {
		l.fault("kinds", "there is no file of a kind", "add kinds/bridge.toml or another")
	}
	if len(l.faults) > 0 {
		l.faults.Sort()
		return nil, l.faults
	}
	l.settle()
	l.t.Index()
	return l.t, nil
}

var builtIn = sync.OnceValue(func() *table.Tables {
	t, faults := Load(data.Files)
	if err := faults.Err(); err != nil {
		panic("the tables built into this program do not load:\n" + err.Error())
	}
	return t
})

// Default gives the tables built into the program. They are read once, at the
// first call; a test holds that they load.
func Default() *table.Tables { return builtIn() }

// loader gathers the tables and everything wrong with them.
type loader struct {
	t      *table.Tables
	faults doc.Faults
	ids    map[string]map[string]bool // known ids by sort: "line", "cause", …; nil set: its file was lost
	rows   []table.Interval           // before they are copied to other countries
}

// fault reports something about a file as a whole.
func (l *loader) fault(name, what, mend string) {
	l.faults = append(l.faults, doc.Fault{File: name, What: what, Mend: mend})
}

// find reads every file of the set, and refuses what does not belong there.
func (l *loader) find(fsys fs.FS) (found map[string][]byte, kinds []string) {
	found = map[string][]byte{}
	for _, dir := range []string{".", "kinds"} {
		entries, err := fs.ReadDir(fsys, dir)
		if err != nil {
			l.fault(dir, "the folder cannot be read: "+err.Error(), "check that it is there and may be read")
			continue
		}
		for _, e := range entries {
			name := path.Join(dir, e.Name())
			switch {
			case e.IsDir() && name == "kinds", strings.HasSuffix(name, ".go"):
				continue
			case e.IsDir() || !strings.HasSuffix(name, ".toml"):
				l.fault(name, "does not belong to the tables", "take it away, or name it .toml")
				continue
			case dir == "." && !known(e.Name()):
				l.fault(name, "is no file that the tables know", "rename it, or take it away")
				continue
			}
			b, err := fs.ReadFile(fsys, name)
			switch {
			case err != nil:
				l.fault(name, "cannot be read: "+err.Error(), "check that it may be read")
			case len(b) > largest:
				l.fault(name, "is larger than "+strconv.Itoa(largest>>20)+" MB", "check that it is the right file")
			default:
				found[name] = b
				if dir == "kinds" {
					kinds = append(kinds, name)
				}
			}
		}
	}
	slices.Sort(kinds)
	return found, kinds
}

func known(name string) bool {
	return slices.ContainsFunc(parts, func(p part) bool { return p.name+".toml" == name })
}

// file parses one file and hands it to its part.
func (l *loader) file(name string, b []byte, p part) {
	root, faults := doc.ParseTOML(name, b)
	l.faults = append(l.faults, faults...)
	if root == nil {
		l.lost(p.name)
		return
	}
	r := doc.NewReader(name, root)
	f := newFile(name, r, p.unit)
	p.read(l, f)
	l.faults = append(l.faults, r.Faults()...)
}

// version is the SHA-256 over names and bytes of all files in the order of
// their names, each preceded by its length.
func version(found map[string][]byte) string {
	names := make([]string, 0, len(found))
	for name := range found {
		names = append(names, name)
	}
	slices.Sort(names)
	h := sha256.New()
	for _, name := range names {
		h.Write([]byte(strconv.Itoa(len(name)) + ":" + name + strconv.Itoa(len(found[name])) + ":"))
		h.Write(found[name])
	}
	return hex.EncodeToString(h.Sum(nil))
}
