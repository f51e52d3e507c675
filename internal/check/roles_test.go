package check

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/record"
)

// TestForged: entries behind a book that holds, as somebody would write them who
// has the file and no right to make them. The first that its author may not make
// is named; those that anybody of the yard may make hold.
func TestForged(t *testing.T) {
	b := makeSmall(t)
	kinds := map[entry.Kind]entry.Leaf{}
	for _, l := range b.leaves(t) {
		kinds[l.Entry.Kind] = l
	}
	n := int64(0)
	// made makes an entry: who enters it, on which day, what. It takes all else from one of the book.
	made := func(by, on string, k entry.Kind, piece, body string) entry.Leaf {
		l := kinds[entry.Hang]
		n++
		at, err := time.Parse("2006-01-02", on)
		if err != nil {
			t.Fatal(err)
		}
		l.Recorded = "2026-06-30T08:30:00.000Z"
		l.Entry.ID, l.Entry.Kind, l.Entry.Author, l.Entry.Piece = entry.MakeID(n, [10]byte{1}), k, by, piece
		l.Entry.Day, l.Entry.Wall, l.Entry.Body = day(t, on), at.Format("2006-01-02")+"T09:30:00+01:00", []byte(body)
		return l
	}
	person := func(by, from, id, role, more string) entry.Leaf {
		l := made(by, smallDay, entry.Person, "", fmt.Sprintf(`{"person":{"id":"%s","role":"%s"}%s}`, id, role, more))
		l.Entry.Day = day(t, from)
		return l
	}
	hang := func(by, on string) entry.Leaf { return made(by, on, entry.Hang, "BR-1", `{"holder":"p1"}`) }
	stop := func(by, what string) entry.Leaf {
		return made(by, smallDay, entry.Stop, "BR-1", `{"what":"`+what+`","why":"w"}`)
	}
	// fix corrects the entry made last, on a day.
	fix := func(by, on, piece, more string) entry.Leaf {
		return made(by, on, entry.Correct, piece, `{"entry":"`+entry.MakeID(n, [10]byte{1}).String()+`","why":"a slip"`+more+`}`)
	}
	look := func(kind, would string, signs ...kit.Sign) string {
		e := kit.Examination{Kind: kit.ExamKind(kind), Day: day(t, smallDay), By: "p2", WouldClimb: kit.Yes(would), Looks: []kit.Look{{Look: kit.Eye, By: "p2", Covers: []kit.Stretch{{All: true}}}}, Signs: signs}
		if kind == "thorough" {
			e.SignedBy = "p1"
		}
		return string(record.EncodeExamination(&e))
	}
	looked := func(by, kind, would string, signs ...kit.Sign) entry.Leaf {
		return made(by, smallDay, entry.Examination, "BR-1", look(kind, would, signs...))
	}
	registered := string(kinds[entry.Piece].Entry.Body)
	amend := func(by, from, to string) entry.Leaf {
		return made(by, smallDay, entry.Amend, "BR-1", `{"piece":`+strings.Replace(registered, from, to, 1)+`,"why":"worn off"}`)
	}
	const rates = `,"kappa":{"eye":{"share":0.2,"from":"a board"}}}`
	rated := func(by, from, id, role string) entry.Leaf {
		l := made(by, smallDay, entry.Person, "", fmt.Sprintf(`{"person":{"id":"%s","role":"%s"%s}`, id, role, rates))
		l.Entry.Day = day(t, from)
		return l
	}
	correct := func(by string, k entry.Kind) entry.Leaf {
		piece := kinds[k].Entry.Piece
		return made(by, smallDay, entry.Correct, piece, `{"entry":"`+kinds[k].Entry.ID.String()+`","why":"a slip"}`)
	}
	decision := func(by string) entry.Leaf {
		l := made(by, smallDay, entry.Decision, "BR-1", string(kinds[entry.Decision].Entry.Body))
		l.Entry.Artefact = kinds[entry.Decision].Entry.Artefact
		return l
	}
	p2 := func() entry.Leaf { return person("p1", "2026-06-01", "p2", "climber", "") }
	const behind = 9 // the index of what comes behind p2
	for _, c := range []struct {
		name  string
		more  []entry.Leaf
		index int64
		want  string // part of the fault; "" where the book holds
	}{
		{"a climber hangs it", []entry.Leaf{hang("p2", smallDay)}, 0, ""},
		{"a climber sets it aside", []entry.Leaf{stop("p2", "set aside")}, 0, ""},
		{"a climber corrects where they hung it", []entry.Leaf{hang("p2", smallDay), fix("p2", smallDay, "BR-1", `,"instead":{"place":"van"}`)}, 0, ""},
		{"a climber corrects where another hung it", []entry.Leaf{correct("p2", entry.Hang)}, behind, "by “p1” on 2026-06-30, is for one"},
		{"a climber corrects it a day later", []entry.Leaf{hang("p2", "2026-06-29"), fix("p2", smallDay, "BR-1", "")}, behind + 1, "by “p2” on 2026-06-29, is for one"},
		{"a climber takes a look of theirs back", []entry.Leaf{looked("p2", "pre-use", "yes"), fix("p2", smallDay, "BR-1", "")}, 0, ""},
		{"a climber would not climb after all", []entry.Leaf{looked("p2", "partner", "yes"), fix("p2", smallDay, "BR-1", `,"instead":`+look("pre-use", "no"))}, 0, ""},
		{"a climber makes a thorough one of it", []entry.Leaf{looked("p2", "pre-use", "yes"), fix("p2", smallDay, "BR-1", `,"instead":`+look("thorough", "yes"))}, behind + 1, "is for one"},
		{"a climber would climb after all", []entry.Leaf{looked("p2", "pre-use", "no"), fix("p2", smallDay, "BR-1", `,"instead":`+look("pre-use", "yes"))}, behind + 1, "to correct entry 9 of the kind “examination”"},
		{"a climber saw nothing after all", []entry.Leaf{looked("p2", "pre-use", "yes", kit.Sign{Ref: "c1", Sign: "cut", State: kit.FirstSeen, At: kit.Place{Whole: true}, By: "p2"}), fix("p2", smallDay, "BR-1", "")}, behind + 1, "is for one"},
		{"a climber takes a saw's touch back", []entry.Leaf{made("p2", smallDay, entry.Event, "BR-1", `{"day":"2026-06-30","event":"saw-contact"}`), fix("p2", smallDay, "BR-1", "")}, behind + 1, "of the kind “event”"},
		{"a climber takes an unfit back", []entry.Leaf{made("p2", smallDay, entry.Answer, "BR-1", `{"day":"2026-06-30","to":"examine","verified":"by feel","by":"p2","unfit":true}`), fix("p2", smallDay, "BR-1", "")}, behind + 1, "of the kind “answer”"},
		{"who may takes it back", []entry.Leaf{made("p2", smallDay, entry.Event, "BR-1", `{"day":"2026-06-30","event":"saw-contact"}`), fix("p1", smallDay, "BR-1", "")}, 0, ""},
		{"a climber describes it anew", []entry.Leaf{amend("p2", `"readable"`, `"partly"`)}, behind, "to describe a piece anew is for one"},
		{"who may describes it anew", []entry.Leaf{amend("p1", `"readable"`, `"partly"`)}, 0, ""},
		{"a climber takes a role", []entry.Leaf{person("p1", smallDay, "p3", "storekeeper", ""), person("p2", smallDay, "p3", "climber", "")}, behind + 1, "another role"},
		{"a climber sends the competent person away", []entry.Leaf{person("p2", smallDay, "p1", "climber", `,"left":true`)}, behind, "who left"},
		{"a climber sends another away", []entry.Leaf{person("p1", smallDay, "p3", "climber", ""), person("p2", smallDay, "p3", "climber", `,"left":true`)}, behind + 1, "who left"},
		{"a climber has another back", []entry.Leaf{person("p1", "2026-06-01", "p3", "climber", `,"left":true`), person("p2", smallDay, "p3", "climber", "")}, behind + 1, "is back"},
		{"a climber drops rates", []entry.Leaf{rated("p1", smallDay, "p3", "climber"), person("p2", smallDay, "p3", "climber", "")}, behind + 1, "how well somebody looks"},
		{"a climber drops rates from before they were said", []entry.Leaf{person("p1", "2026-06-01", "p3", "climber", ""), rated("p1", "2026-06-20", "p3", "climber"), person("p2", "2026-06-10", "p3", "climber", "")}, behind + 2, "how well somebody looks"},
		{"a climber gives rates to who is new", []entry.Leaf{rated("p2", smallDay, "p3", "climber")}, behind, "how well somebody looks"},
		{"a climber says the same again", []entry.Leaf{rated("p1", smallDay, "p3", "climber"), rated("p2", smallDay, "p3", "climber")}, 0, ""},
		{"a climber tells of another", []entry.Leaf{person("p2", smallDay, "p3", "climber", "")}, 0, ""},
		{"back in use by who may", []entry.Leaf{stop("p2", "set aside"), stop("p1", "back in use")}, 0, ""},

		{"a climber decides", []entry.Leaf{decision("p2")}, behind, "“p2” enters it on 2026-06-30 and is no competent person on that day, and a decision is for one"},
		{"a climber sets the limit", []entry.Leaf{made("p2", smallDay, entry.Limit, "", `{"limit":"1 in 200","why":"w"}`)}, behind, "what holds in the yard"},
		{"a climber names the yard", []entry.Leaf{made("p2", smallDay, entry.Yard, "", string(kinds[entry.Yard].Entry.Body))}, behind, "what holds in the yard"},
		{"a climber has somebody forgotten", []entry.Leaf{made("p2", smallDay, entry.Forget, "", `{"person":"p1","why":"w"}`)}, behind, "forgotten is for one"},
		{"a climber takes it back into use", []entry.Leaf{stop("p2", "set aside"), stop("p2", "back in use")}, behind + 1, "“back in use” is for one"},
		{"a climber releases it", []entry.Leaf{stop("p2", "hold"), stop("p2", "release")}, behind + 1, "“release” is for one"},
		{"a climber cuts it up", []entry.Leaf{stop("p2", "cut up")}, behind, "“cut up” is for one"},
		{"a climber becomes competent", []entry.Leaf{person("p2", smallDay, "p2", "competent person", ""), decision("p2")}, behind, "who examines"},
		{"a climber makes an examiner", []entry.Leaf{person("p2", smallDay, "p3", "examiner", "")}, behind, "who examines"},
		{"a climber corrects a decision", []entry.Leaf{correct("p2", entry.Decision)}, behind, "to correct entry 7 of the kind “decision”"},
		{"a climber corrects a role", []entry.Leaf{correct("p2", entry.Person)}, behind, "to correct entry 0 of the kind “person”"},
		{"a stranger", []entry.Leaf{hang("x", smallDay)}, behind, "no entry before it brings such a person"},
		{"before they came", []entry.Leaf{hang("p2", "2026-05-31")}, behind, "“p2” enters it on 2026-05-31, and is not in the yard on that day"},
		{"on the day they came", []entry.Leaf{hang("p2", "2026-06-01")}, 0, ""},
		{"after they left", []entry.Leaf{person("p1", "2026-06-20", "p2", "climber", `,"left":true`), hang("p2", "2026-06-19"), hang("p2", "2026-06-20")}, behind + 2, "on 2026-06-20, and is not in the yard"},
		{"no longer competent", []entry.Leaf{person("p1", smallDay, "p1", "climber", ""), decision("p1")}, behind + 1, "“p1” enters it on 2026-06-30 and is no competent person"},
		{"competent from tomorrow on", []entry.Leaf{person("p1", "2026-07-01", "p2", "competent person", ""), decision("p2")}, behind + 1, "“p2” enters it on 2026-06-30 and is no competent person"},
		{"a role that was corrected", []entry.Leaf{person("p1", "2026-06-01", "p3", "examiner", ""), func() entry.Leaf {
			l := made("p1", smallDay, entry.Correct, "", `{"entry":"`+entry.MakeID(n, [10]byte{1}).String()+`","why":"a slip","instead":{"person":{"id":"p3","role":"climber"}}}`)
			return l
		}(), stop("p3", "cut up")}, behind + 2, "“cut up” is for one"},
	} {
		s := rewritten(t, append(append(b.leaves(t), p2()), c.more...))
		r := b.read(t, s, func(o *Options) { o.Cores = nil })
		switch {
		case c.want == "" && !r.Holds:
			t.Errorf("%s: %+v", c.name, r.Fault)
		case c.want != "" && (r.Holds || r.Fault.Index != c.index || r.Fault.What != "who enters it" || !strings.Contains(r.Fault.Why, c.want)):
			t.Errorf("%s: %+v, want %d, %q", c.name, r.Fault, c.index, c.want)
		}
	}
	for name, c := range map[string]struct{ from, to, want string }{
		"another kind": {`"kind":"bridge"`, `"kind":"line"`, "makes a “line” of “BR-1”, which is registered as “bridge”"},
		"another id":   {`"id":"BR-1"`, `"id":"ZZ-99"`, "it is about “BR-1”, and describes “ZZ-99”"},
	} {
		other := `,"instead":` + string(amend("p1", c.from, c.to).Entry.Body)
		for i, more := range [][]entry.Leaf{{amend("p1", c.from, c.to)}, {amend("p1", "", ""), fix("p1", smallDay, "BR-1", other)}} {
			r := b.read(t, rewritten(t, append(append(b.leaves(t), p2()), more...)), func(o *Options) { o.Cores = nil })
			if r.Holds || r.Fault.Index != int64(behind+i) || !strings.Contains(r.Fault.Why, c.want) {
				t.Errorf("%s, %d: %+v", name, i, r.Fault)
			}
		}
	}
	// In a yard without people somebody is the first; nothing else is entered there.
	l := b.leaves(t)
	l[0], l[1], l[2] = l[1], l[2], l[0]
	if r := b.read(t, rewritten(t, l)); r.Holds || r.Fault.Index != 1 || !strings.Contains(r.Fault.Why, "nobody is in the yard before it") {
		t.Errorf("a piece before anybody is there: %+v", r.Fault)
	}
}
