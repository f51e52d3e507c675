package record

import (
	"strings"
	"testing"

	"kernbook/internal/tables"
)

// TestBuild reads zones and layers that the default tables allow, and refuses
// those by which a record would explain signs away or take a layer off.
func TestBuild(t *testing.T) {
	const head = `format = "kernbook record 1"
as_of = 2026-06-01
yard = {country = "GB"}
[piece]
id = "x"
marking = "readable"
origin = "new"
history = "known"
made = 2025-01-10
first_use = 2025-04-07
fitted = {in = "H", allowed = "yes"}
`
	zone := func(list ...string) string {
		out := ""
		for i := 0; i < len(list); i += 3 {
			out += "[[piece.zone]]\nzone = \"" + list[i] + "\"\nfrom = \"" + list[i+1] + "mm\"\nto = \"" + list[i+2] + "mm\"\n"
		}
		return out
	}
	layer := func(list ...string) string {
		out := ""
		for i := 0; i < len(list); i += 2 {
			out += "[[piece.layer]]\nname = \"" + list[i] + "\"\nfibre = \"" + list[i+1] + "\"\n"
		}
		return out
	}
	for _, c := range []struct{ kind, text, want string }{
		{"bridge", zone("bend", "0", "54", "travel", "90", "630", "bend", "846", "900"), ""},
		{"bridge", zone("bend", "0", "54", "travel", "54", "846", "bend", "846", "900"), "gives the zone “travel” more than 85% of the length"},
		{"bridge", zone("travel", "0", "900"), "gives the zone “travel” more than 85%"},
		{"bridge", zone("travel", "180", "720"), "leaves an end without its “bend”"},
		{"bridge", zone("bend", "0", "54", "travel", "90", "630"), "leaves an end without its “bend”"},
		{"bridge", zone("bend", "0", "54", "bend", "400", "460", "bend", "846", "900"), "lies away from both ends"},
		{"bridge", zone("bend", "0", "150", "bend", "750", "900"), "gives the zone “bend” more than 30%"},
		{"bridge", layer("cover", "pes", "core", "pa"), ""},
		{"bridge", layer("cover", "pes", "intermediate", "none", "core", "pa"), ""},
		{"bridge", layer("cover", "pes", "core", "none"), "has a “core” — write what it is made of"},
		{"bridge", layer("cover", "none", "core", "pa"), "has a “cover”"},
		{"bridge", layer("webbing", "pes"), "“webbing” is no layer of the kind “bridge”"},
		{"bridge", layer("", "none"), "is not filled in"},
		{"lanyard", layer("cover", "pes", "core", "none", "wire core", "steel"), ""},
		{"lanyard", layer("cover", "pes", "core", "pes", "wire core", "none"), ""},
		{"lanyard", layer("cover", "pes", "core", "none", "wire core", "none"), "has a “core”"},
		{"bridge", layer("cover", "pes", "intermediate", "pa", "intermediate", "none"), "says that there is a “intermediate” and that there is none"},
	} {
		text := strings.Replace(head, `id = "x"`, "id = \"x\"\nkind = \""+c.kind+"\"\nlength = \"900mm\"", 1) + c.text
		r, faults := DecodeTOML("r.toml", []byte(text), tables.Default())
		told := ""
		for _, f := range faults {
			told += f.Error() + "\n"
		}
		if (c.want == "") != (r != nil) || !strings.Contains(told, c.want) {
			t.Errorf("%s %s: read %v, want %q, told %s", c.kind, c.text, r != nil, c.want, told)
		}
	}
}
