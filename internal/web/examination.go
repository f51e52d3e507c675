package web

import (
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// examination reads what was typed into the form of an examination.
func (f *form) examination(b *examineBody) kit.Examination {
	e := kit.Examination{Kind: kit.ExamKind(f.V("kind")), Day: f.day("day"), By: f.V("by"), Ref: f.text("ref"), WouldClimb: kit.Yes(f.V("would")),
		SignedBy: f.V("signed"), Latest: f.date("latest"), AfterEvent: f.V("after")}
	for id := range strings.SplitSeq(f.text("held_by"), ",") {
		if id = strings.TrimSpace(id); id != "" {
			e.HeldBy = append(e.HeldBy, id)
		}
	}
	if e.Kind.Rank() < 0 {
		f.fault("kind", f.s.say("form.choose", "what", f.s.say("examine.kind")))
	}
	f.choose("by", f.s.say("examine.by"))
	for i := range b.Looks {
		if l := string(b.Looks[i].ID); f.V("look."+l) != "" {
			e.Looks = append(e.Looks, f.look(l, e.By))
		}
	}
	for i := range b.Kind.Asks {
		if id := b.Kind.Asks[i].ID; f.V("ask."+id) != "" {
			if e.Asked == nil {
				e.Asked = map[string]kit.Yes{}
			}
			e.Asked[id] = kit.Yes(f.V("ask." + id))
		}
	}
	for _, g := range b.Known {
		at := "known." + g.Ref
		if st := f.V(at + ".state"); st != "" {
			x := kit.Sign{Ref: g.Ref, State: kit.SignState(st), At: f.place(at), Words: f.text(at + ".words")}
			e.Signs = append(e.Signs, x)
		}
	}
	for i := range b.SignRows {
		if x, ok := f.sign(key("sign", i), b); ok {
			e.Signs = append(e.Signs, x)
		}
	}
	for i := range b.ReadRows {
		if x, ok := f.reading(key("reading", i)); ok {
			e.Readings = append(e.Readings, x)
		}
	}
	if len(e.Looks) == 0 {
		f.fault("looks", f.s.say("examine.no-looks"))
	}
	for i := range e.Signs {
		if e.Signs[i].By == "" {
			e.Signs[i].By = e.By // as in a file
		}
	}
	return e
}

// look reads one look.
func (f *form) look(l, by string) kit.Look {
	at := "look." + l
	x := kit.Look{Look: kit.LookID(l), By: by, AfterWash: f.V(at+".washed") != "", Conditions: f.conditions(at)}
	if own := f.V(at + ".by"); own != "" {
		x.By = own
	}
	switch x.Look {
	case kit.Ask, kit.Read: // they go nowhere
		return x
	}
	if f.V(at+".covers") == "all" {
		x.Covers = []kit.Stretch{{All: true}}
		return x
	}
	for _, p := range f.v[at+".part"] {
		x.Covers = append(x.Covers, kit.Stretch{Part: p})
	}
	x.Covers = append(x.Covers, f.stretches(at+".stretches")...)
	if len(x.Covers) == 0 {
		f.fault(at+".covers", f.s.say("examine.no-covers"))
	}
	return x
}

// conditions gives what a look was made under; "all" are those of every look.
func (f *form) conditions(look string) kit.Conditions {
	yes := func(name string) kit.Yes { return kit.Yes(f.condition(look, name)) }
	return kit.Conditions{Light: f.condition(look, "light"), Cleaned: yes("cleaned"), Wet: yes("wet"), Frozen: yes("frozen"), Muddy: yes("muddy"),
		Gloves: yes("gloves"), Hurried: yes("hurried")}
}

// condition gives a condition of one look: its own where it has one, else that
// of all looks. "-" stands for not said.
func (f *form) condition(look, name string) string {
	v := f.V(look + "." + name)
	if v == "" {
		v = f.V("all." + name)
	}
	if v == "-" {
		return ""
	}
	return v
}

// stretches reads stretches, one on each line.
func (f *form) stretches(name string) []kit.Stretch {
	var out []kit.Stretch
	for _, line := range strings.Split(f.V(name), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			if st, ok := f.stretch(name, line); ok {
				out = append(out, st)
			}
		}
	}
	return out
}

// stretch reads "0 mm to 430 mm, face, back".
func (f *form) stretch(name, line string) (kit.Stretch, bool) {
	list := strings.Split(line, ",")
	from, to, ok := strings.Cut(list[0], " to ")
	if !ok {
		f.fault(name, f.s.say("examine.stretch", "line", line))
		return kit.Stretch{}, false
	}
	var st kit.Stretch
	for text, l := range map[string]*qty.Length{from: &st.From, to: &st.To} {
		var err error
		if *l, err = qty.ParseLength(bare(text)); err != nil {
			f.fault(name, f.s.say("form.cannot", "error", err.Error()))
			return st, false
		}
	}
	for _, side := range list[1:] {
		st.Sides = append(st.Sides, strings.TrimSpace(side))
	}
	return st, true
}

// place reads where something is: the whole piece, a part, or a stretch.
func (f *form) place(at string) kit.Place {
	p := kit.Place{From: f.length(at + ".from"), To: f.length(at + ".to"), Sides: f.v[at+".side"], Layer: f.V(at + ".layer")}
	if f.text(at+".to") == "" {
		p.To = p.From
	}
	switch v := f.V(at + ".part"); {
	case v == "whole":
		p.Whole = true
	case v != "":
		p.Part = v
	}
	if (p.Whole || p.Part != "") && f.text(at+".from") != "" {
		f.fault(at+".from", f.s.say("examine.one-place"))
	}
	if p.From > p.To {
		f.fault(at+".to", f.s.say("examine.backwards"))
	}
	return p
}

// placed says whether a place was said.
func placed(f *form, at string) bool { return f.V(at+".part") != "" || f.text(at+".from") != "" }

// sign reads a row for a sign that was seen for the first time; false where it
// is empty.
func (f *form) sign(at string, b *examineBody) (kit.Sign, bool) {
	x := kit.Sign{Ref: f.text(at + ".ref"), Sign: f.V(at + ".sign"), State: kit.FirstSeen, Look: kit.LookID(f.V(at + ".look")), By: f.V(at + ".by"),
		AfterWash: f.V(at+".washed") != "", Words: f.text(at + ".words")}
	if x.Sign == "" {
		if x.Ref != "" || x.Words != "" || placed(f, at) {
			f.fault(at+".sign", f.s.say("examine.no-sign"))
		}
		return x, false
	}
	x.At = f.place(at)
	if k := b.Kind.Sign(x.Sign); !placed(f, at) {
		if k == nil || !k.Whole {
			f.fault(at+".part", f.s.say("examine.no-place"))
		}
		x.At = kit.Place{Whole: true}
	}
	return x, true
}

// reading reads a row for a reading; false where it is empty.
func (f *form) reading(at string) (kit.Reading, bool) {
	x := kit.Reading{Quantity: f.V(at + ".quantity"), Values: f.lengths(at + ".values"), Again: f.lengths(at + ".again"), Ref: f.text(at + ".ref"),
		Gauge: f.text(at + ".gauge"), Error: f.length(at + ".error"), Method: f.text(at + ".method"), Wet: kit.Yes(f.V(at + ".wet"))}
	if t := f.text(at + ".tension"); t != "" {
		var err error
		if x.Tension, err = qty.ParseForce(t); err != nil {
			f.fault(at+".tension", f.s.say("form.cannot", "error", err.Error()))
		}
	}
	if len(x.Values) == 0 && f.text(at+".values") == "" {
		if placed(f, at) || len(x.Again) > 0 {
			f.fault(at+".values", f.s.say("examine.no-values"))
		}
		return x, false
	}
	if x.Quantity == "" {
		f.fault(at+".quantity", f.s.say("form.choose", "what", f.s.say("examine.quantity")))
	}
	x.At = f.place(at)
	if !placed(f, at) {
		f.fault(at+".part", f.s.say("examine.no-place"))
	}
	return x, true
}
