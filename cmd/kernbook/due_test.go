package main

import (
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
)

// TestNotYetOut: who decided that a piece goes out of use is told the command
// that enters it, as long as it stands looser and nothing was entered since.
func TestNotYetOut(t *testing.T) {
	decided := func(v kit.Verdict) app.Deed { return app.Deed{Decision: true, What: v.String(), By: "p1"} }
	for _, x := range []struct {
		deeds  []app.Deed
		stands kit.Verdict
		want   string // in what is to be done; "" for nothing
	}{
		{nil, kit.Keep, ""},
		{[]app.Deed{decided(kit.KeepSooner)}, kit.Keep, ""},
		{[]app.Deed{decided(kit.Withdraw)}, kit.Keep, "kernbook withdraw BR-1 "},
		{[]app.Deed{decided(kit.Withdraw)}, kit.SetAside, "kernbook withdraw BR-1 "},
		{[]app.Deed{decided(kit.Withdraw)}, kit.Withdraw, ""},
		{[]app.Deed{decided(kit.SetAside)}, kit.KeepSooner, "kernbook piece stop BR-1 --what \"set aside\""},
		{[]app.Deed{decided(kit.SetAside)}, kit.Withdraw, ""},
		{[]app.Deed{decided(kit.SetAside), {What: "set aside"}, {What: "back in use"}}, kit.Keep, ""},
		{[]app.Deed{{What: "set aside"}, {What: "back in use"}, decided(kit.SetAside)}, kit.Keep, "--what \"set aside\""},
	} {
		got := notYetOut("BR-1", x.deeds, x.stands)
		if (got == "") != (x.want == "") || !strings.Contains(got, x.want) {
			t.Errorf("%v, stands at %v: %q, want %q", x.deeds, x.stands, got, x.want)
		}
	}
	for _, x := range []struct {
		decided, stands kit.Verdict
		want            string
	}{
		{kit.Keep, kit.Keep, ""}, {kit.KeepSooner, kit.Keep, ""}, {kit.SetAside, kit.Withdraw, ""}, {kit.Withdraw, kit.Withdraw, ""},
		{kit.SetAside, kit.Keep, "piece stop 'B 1'"}, {kit.Withdraw, kit.SetAside, "kernbook withdraw 'B 1'"},
	} {
		var b strings.Builder
		if err := tellStands(&b, "B 1", x.decided, x.stands); err != nil {
			t.Fatal(err)
		}
		_, more, _ := strings.Cut(b.String(), "\n")
		if (more == "") != (x.want == "") || !strings.Contains(more, x.want) || !strings.HasPrefix(b.String(), "B 1 now: "+x.stands.String()) {
			t.Errorf("decided %v, stands at %v: %q, want %q", x.decided, x.stands, b.String(), x.want)
		}
	}
}
