package record

import (
	"errors"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// New writes a record to fill in for a piece of that kind, as TOML with every
// key explained: what is needed first, each as an empty text, then what may be
// said, behind a #. It parses, and deciding it as it stands lists what is still
// to be filled in. today becomes the day of the examination where it is known
// to the day.
func New(kind kit.KindID, t *table.Tables, today qty.PartialDate) ([]byte, error) {
	k := t.Kind(kind)
	if k == nil {
		all := set{noun: "kind of piece", named: calledKinds}
		for i := range t.Kinds {
			all.ids = append(all.ids, string(t.Kinds[i].ID))
		}
		what, mend := all.wrong(string(kind))
		return nil, errors.New(what + " — " + doc.Straight(mend))
	}
	p := &pen{t: t, k: k, today: today}
	p.head()
	p.yard()
	p.piece()
	p.use()
	p.person()
	p.run()
	p.examination()
	p.event()
	p.answer()
	p.change()
	return []byte(p.b.String()), nil
}

// pen writes a record to fill in. Prose stands behind "# ", a key that may be
// used behind "#" alone.
type pen struct {
	b     strings.Builder
	t     *table.Tables
	k     *table.Kind
	today qty.PartialDate
}

func (p *pen) line(s string) { p.b.WriteString(s + "\n") }

// say writes prose, wrapped; further lines of it are indented by hang.
func (p *pen) say(text string) { p.hang("# ", "# ", text) }

func (p *pen) hang(first, rest, text string) {
	const width = 110
	line := first
	for i, w := range strings.Fields(text) {
		switch {
		case i > 0 && len([]rune(line))+1+len([]rune(w)) > width:
			p.line(line)
			line = rest + w
		case i > 0:
			line += " " + w
		default:
			line += w
		}
	}
	p.line(line)
}

// part begins a part of the record.
func (p *pen) part(title string) {
	p.line("")
	p.line("# ---- " + title + " " + strings.Repeat("-", max(3, 104-len([]rune(title)))))
}

// blank writes a key that is needed, to be filled in.
func (p *pen) blank(key, words string) { p.fixed(key+` = ""`, words) }

func (p *pen) fixed(line, words string) {
	if words != "" {
		p.say(words)
	}
	p.line(line)
}

// may writes a line that may be used.
func (p *pen) may(line, words string) {
	if words != "" {
		p.say(words)
	}
	p.line("#" + line)
}

// quoted writes words as they are typed: "a", "b" or "c".
func quoted(words []string) string {
	return doc.Straight(doc.List(words))
}

func (p *pen) head() {
	p.say("A record of one piece: " + p.k.Words + ".")
	p.line("#")
	p.fill("When done: kernbook decide FILE. It lists everything that is still missing, with its line.")
	p.line("")
	p.line(`format = "` + Format + `"`)
	p.may("as_of = 2026-06-01", "The day for which the outcome is asked. Without it: the day of the last examination or event.")
}

// fill says how it is filled in.
func (p *pen) fill(done string) {
	p.say("How to fill it in:")
	for _, s := range []string{
		`A line with "" is needed: write the answer between the quotes. Where nobody knows, and it is said to be taken, write "unknown".`,
		`A line that begins with # and a key is optional: take the # away to use it (for a table, from all its lines). Nothing is gained by leaving it out: what is not said never counts as good.`,
		`Numbers have their unit: "900mm", "11.2mm" or "11,2mm", "1/2in", "92kg", "25h". Dates are 2026-06-01, "2026-06" or "2026".`,
		"Places along the piece count from end A, to be chosen once and marked. A block with [[ ]] may be repeated.",
		done,
	} {
		p.hang("# - ", "#   ", s)
	}
}

func (p *pen) yard() {
	p.part("the yard")
	p.line("[yard]")
	var codes []string
	for i := range p.t.Countries {
		c := &p.t.Countries[i]
		code := `"` + c.Code + `"`
		if name := countryName(c); name != "" {
			code += " (" + name + ")"
		}
		codes = append(codes, code)
	}
	p.blank("country", "The country whose law holds: "+strings.Join(codes, ", ")+` or "unknown" (then the strictest holds).`)
	p.may(`name = "…"`, "The yard's name.")
	p.may(`limit = "`+inWords(p.t.Rules.Limit)+`"`, "The yard's own limit of doubt: its policy for all its pieces, not a setting of one outcome. Default: "+
		inWords(p.t.Rules.Limit)+". A yard may set another, none looser than "+inWords(p.t.Rules.LimitMost)+
		"; under one looser than the default every outcome says so.")
	p.may("[yard.scheme]", "A written examination scheme by a competent person, where there is one.")
	p.may(`every = "6 months"`, "")
	p.may(`document = "…"`, "")
	p.may(`by = "…"`, "")
}

func (p *pen) piece() {
	p.part("the piece")
	p.line("[piece]")
	p.blank("id", "The yard's own number or name for it.")
	p.line(`kind = "` + string(p.k.ID) + `"`)
	p.blank("marking", "Can the marking be read? "+quoted(markings)+".")
	p.blank("origin", "Where did it come from? "+quoted(origins)+".")
	p.blank("history", "Is everything that happened to it known? "+quoted(histories)+".")
	p.blank("made", `When was it made? As near as is known; "unknown" is taken, and then it has to be traced.`)
	p.blank("first_use", `When was it first used? "unknown" is taken, also while it is still unused in store (then say stored = "store").`)
	if p.k.Axis == "length" {
		p.blank("length", "Its length between its ends, such as \""+p.k.Length.String()+"\".")
	} else {
		p.may(`length = "120mm"`, "Its length.")
	}
	p.may(`words = "…"`, "The yard's own description, maker, model and numbers.")
	for _, key := range []string{"maker", "maker_address", "trade_name", "model", "serial", "batch"} {
		p.may(key+` = "…"`, "")
	}
	p.may(`proof = "…"`, "How is it proved which piece this is, where the marking cannot be read: photo, purchase, batch.")
	p.may(`traced = "…"`, "The document that traces an unknown manufacture or history through maker or seller.")
	p.may(`bought = "2026-06"`, "When was it bought; the date of its declaration of conformity; a date of obsolescence marked on it.")
	p.may(`declared = "2026-06"`, "")
	p.may(`obsolete = "2031"`, "")
	p.may(`maker_life_from_made = "8 years"`, "What its maker says about its life, and the document that says so.")
	p.may(`maker_life_from_use = "5 years"`, "")
	p.may(`maker_document = "…"`, "")
	p.may(`examined = "2026-05-20"`, "The last thorough examination before this record begins, and its report.")
	p.may(`examination_document = "…"`, "")
	p.may("examined_before_use = true", "Was it thoroughly examined before its first use, or did its last report come with it?")
	if q := p.k.Quantity("nominal"); q != nil && len(q.Limits) > 0 {
		p.blank("diameter", `Its nominal diameter, as marked or as in its papers, such as "10mm"; "unknown" is taken, and then it stays out of use until it is known.`)
	} else {
		p.may(`diameter = "12mm"`, "Its nominal diameter. Where a diameter is measured, it is needed to compare that with.")
	}
	p.may(`stored = "used"`, "Is it in use or kept as a spare? "+quoted(storedIn)+".")
	p.line("")
	if p.k.Fitted {
		p.line("[piece.fitted]")
		p.blank("allowed", "Does the maker of the assembly allow this part there? "+quoted(answers)+".")
		p.blank("in", "The piece it is fitted to: its number or name.")
		p.may(`document = "…"`, "The document that says so.")
		p.line("")
	}
	p.construction()
}

func (p *pen) construction() {
	var fibres []string
	for i := range p.t.Fibres {
		fibres = append(fibres, p.t.Fibres[i].ID)
	}
	p.say("What it is made of, layer by layer from outside in: " + quoted(layerNames) + ", of " + quoted(fibres) + ".")
	layer, fibre := "body", "steel"
	if p.k.Group == "textile" {
		layer, fibre = "cover", "pes"
	}
	if len(fibres) > 0 && p.t.Fibre(fibre) == nil {
		fibre = fibres[0]
	}
	p.may("[[piece.layer]]", "")
	p.may(`name = "`+layer+`"`, "")
	p.may(`fibre = "`+fibre+`"`, "")
	if p.k.Ends() != (kit.EndParts{}) {
		p.line("")
		p.say("How each end is made: " + quoted(endHows) + "; the stitch that holds or locks it: " + quoted(endStitches) + " where it is made without one, and without a word of it the piece is set aside; the tail of a knot.")
		tail := p.k.Quantity("tail")
		for _, end := range []string{"end_a", "end_b"} {
			p.line("[piece." + end + "]")
			if tail != nil && len(tail.Limits) > 0 { // it is set aside without
				p.blank("how", "Of a knot its tail is needed too.")
			} else {
				p.may(`how = "stitched"`, "")
			}
			p.blank("stitch", "")
			p.may(`tail = "90mm"`, "")
		}
	}
	if len(p.k.Zones) > 0 {
		p.line("")
		p.say("Where its zones lie, when not as usual. Say all of them:")
		for i := range p.k.Zones {
			p.hang("#   ", "#     ", p.k.Zones[i].ID+": "+p.k.Zones[i].Words)
		}
		for _, z := range p.zones() {
			p.may("[[piece.zone]]", "")
			p.may(`zone = "`+z.Zone+`"`, "")
			p.may(`from = "`+z.From.String()+`"`, "")
			p.may(`to = "`+z.To.String()+`"`, "")
		}
	}
}

func (p *pen) person() {
	p.part("who examined it")
	p.line("[[person]]")
	p.blank("id", "A name or short sign; entries speak of persons by it.")
	p.blank("role", "Their role: "+quoted(roles)+". Only the last two make interim and thorough examinations that count, and answer by their own word.")
	p.blank("since", "The day since when they hold the role. The last two roles need it, for only what was done from that day on counts as a competent person's; of the others take the line out.")
	p.may("until = 2026-12-31", "The last day on which they held it; left out, they still do.")
	p.may("holds = true", "Is it this person's own kit, or did this person repair it? Left out: neither.")
}

func (p *pen) use() {
	p.part("how it is used")
	p.say(`What is not said, or "unknown", is taken as the hardest use there can be: a sound piece can be withdrawn for that alone.`)
	p.line("[[use]]")
	p.blank("from", "The day since when it is used like this, until the next such block; to begin with, its first use.")
	p.blank("week", `Hours of use in a week, such as "25h", or "unknown". While it lies in store unused, write store = true instead of this and of weekdays.`)
	p.fixed("weekdays = []", `Working days, such as ["mon", "tue", "wed", "thu", "fri"]: needed with the hours.`)
	p.blank("mass", `Body mass of the climber with kit, such as "92kg", or "unknown".`)
	if len(p.t.Dirt) > 0 {
		p.blank("dirt", "Site and dirt: "+quoted(append(levelIDs(p.t.Dirt), unknown))+".")
	}
	if len(p.t.Hardware) > 0 {
		p.blank("hardware", "What runs on it: "+quoted(append(levelIDs(p.t.Hardware), unknown))+".")
	}
}

func levelIDs(levels []table.Level) []string {
	out := make([]string, len(levels))
	for i := range levels {
		out[i] = levels[i].ID
	}
	return out
}

func (p *pen) run() {
	p.part("looks before each day's use, or by a partner: one block for a series of like looks")
	p.say("Were such looks made? Then take the # away here, once for each person: with none on record the piece counts as never looked at between examinations, and a sound one can be withdrawn for that alone.")
	p.may("[[run]]", "")
	p.may(`kind = "pre-use"`, quoted(runKinds)+".")
	p.may(`by = "…"`, "The id of a [[person]].")
	p.may("from = 2026-06-01", "First and last day, and on which days of the week.")
	p.may("to = 2026-06-30", "")
	p.may(`weekdays = ["mon", "tue", "wed", "thu", "fri"]`, "")
	p.may(`looks = ["eye", "hand"]`, "The looks that went all over it; for others write [[run.look]] blocks like [[examination.look]].")
}

func (p *pen) event() {
	p.part("things that happened to it")
	for i := range p.t.Events {
		p.hang("#   ", "#     ", p.t.Events[i].ID+": "+p.t.Events[i].Words)
	}
	if len(p.t.Events) == 0 {
		return
	}
	p.may("[[event]]", "")
	p.may("day = 2026-06-15", "")
	p.may(`event = "`+p.t.Events[0].ID+`"`, "")
	p.may(`ref = "X1"`, "A name for it, by which an answer or examination speaks of it.")
	p.may("at = "+p.examplePlace(false), "Where, if that is known.")
	p.may(`travel = "300mm"`, `For a fall or sudden load: the free travel until it was caught, or "unknown".`)
	p.may(`peak = "12%"`, `And the computed peak (upper end of its range) as a share of the least strength, or "unknown".`)
	if len(p.t.Contaminants) > 0 {
		p.say("For a spill, the substance:")
		for i := range p.t.Contaminants {
			p.hang("#   ", "#     ", p.t.Contaminants[i].ID+": "+p.t.Contaminants[i].Words)
		}
		p.may(`substance = "`+p.t.Contaminants[0].ID+`"`, "")
		p.may(`amount = "splash"`, "How much: "+quoted(amounts)+". Washed out, with nothing left to see or feel? "+quoted(answers)+".")
		p.may(`washed = "no"`, "")
	}
	p.may("injury = true", "Was somebody hurt, was it a dangerous event, or does a claim go with it?")
	p.may(`words = "…"`, "")
}

func (p *pen) answer() {
	p.part("questions settled")
	p.may("[[answer]]", "")
	p.may("day = 2026-06-20", "")
	p.may(`to = "S1"`, "The ref of a sign, reading, event or examination, or the word under which the outcome asks: "+quoted(questions)+".")
	p.may(`verified = "…"`, "How it was verified: that it washed off, that it fits the fitting, what its maker wrote.")
	p.may(`by = "…"`, "The id of a [[person]].")
	if len(p.k.Signs) > 0 {
		if s := p.exampleSign(); len(s.Causes) > 0 {
			p.may(`cause = "`+s.Causes[0].Cause+`"`, "For a sign the harmless cause that was found, for a substance what it was.")
			for i := range p.t.Causes {
				p.hang("#   ", "#     ", p.t.Causes[i].ID+": "+p.t.Causes[i].Words)
			}
		}
	}
	p.may(`document = "…"`, "Where that is written down.")
	p.may("unfit = true", "Does the answer say that the piece is not fit?")
}

// zones gives zones as they usually lie, as an example; one to the middle where
// the tables have no usual layout.
func (p *pen) zones() []kit.ZoneAt {
	if at := p.k.UsualZones(0, p.k.Length); len(at) > 0 {
		return at
	}
	return []kit.ZoneAt{{Zone: p.k.Zones[0].ID, To: p.k.Length / 2}}
}

func (p *pen) change() {
	if p.k.Axis != "length" || len(p.k.Zones) == 0 {
		return
	}
	p.part("turned end for end, shifted, re-tied, shortened")
	p.may("[[change]]", "")
	p.may("day = 2026-06-20", "")
	p.may(`what = "zones"`, quoted(changes)+".")
	p.may(`by = "…"`, "The id of a [[person]].")
	var all []string
	for _, z := range p.zones() {
		all = append(all, `{zone = "`+z.Zone+`", from = "`+z.From.String()+`", to = "`+z.To.String()+`"}`)
	}
	p.may("zones = ["+strings.Join(all, ", ")+"]", "For zones: where they lie from that day on, all of them.")
	p.say(`For what = "` + kit.CutA + `" or "` + kit.CutB + `": what was cut off, as length = "120mm".`)
	p.may(`words = "…"`, "")
}
