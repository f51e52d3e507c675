package record

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// DecodeJSON reads a record written as JSON. The record is nil when there is
// any fault. It stands apart from DecodeTOML so that a program which uses this
// alone carries no TOML parser.
func DecodeJSON(file string, b []byte, t *table.Tables) (*kit.Record, doc.Faults) {
	if f := tooLarge(file, b); f != nil {
		return nil, f
	}
	root, faults := doc.ParseJSON(file, b)
	return decode(file, root, faults, t)
}

func tooLarge(file string, b []byte) doc.Faults {
	if len(b) <= MaxSize {
		return nil
	}
	return doc.Faults{{File: file, What: "is larger than " + strconv.Itoa(MaxSize>>20) + " MB",
		Mend: "a record holds one piece; write runs of like looks as one [[run]]"}}
}

// decoder is one reading of one record.
type decoder struct {
	file   string
	t      *table.Tables
	kind   *table.Kind // nil while it is not known
	loose  bool        // of a block by itself: any id is taken, since the tables of its day may have had it
	rec    kit.Record
	own    doc.Faults      // beside those of the strict reader
	failed map[string]bool // paths that own has a fault of

	people set
	refs   map[string]*entry
	signs  []seen  // of all examinations, in the order of the file
	tells  []*tell // answers and examinations that speak of a ref
	dated  []dated
	runAt  []cursor // of each run, use and examination of the record
	useAt  []cursor
	examAt []cursor
	long   qty.Length // how long the piece is on the day of the entry being read; 0 means not known
}

// entry is something on record that others can speak of by its ref.
type entry struct {
	line  int
	noun  string // "sign", "event" …
	day   qty.Day
	dayOK bool
	sign  string // id of the sign, where it is one or a reading can be one
}

// dated is a day that must not lie before the piece was made, nor, where it
// begins a use, before the first one.
type dated struct {
	c   cursor
	key string
	day qty.Day
	use bool
}

// decode turns the tree into a record and gathers every fault. root is nil
// after a fault of syntax that leaves nothing to read.
func decode(file string, root *doc.Node, faults doc.Faults, t *table.Tables) (*kit.Record, doc.Faults) {
	if root == nil {
		return nil, faults
	}
	d := &decoder{file: file, t: t, failed: map[string]bool{}, refs: map[string]*entry{}}
	r := doc.NewReader(file, root)
	c := cursor{T: r.Root(), d: d}
	if c.Present() {
		c.n = root
	}
	if !d.format(c) {
		faults = append(faults, d.own...)
		faults.Sort()
		return nil, faults
	}
	asOf, asOfSaid := qty.Day(0), c.Has("as_of")
	if asOfSaid {
		var ok bool
		if asOf, ok = c.day("as_of"); ok {
			d.dated = append(d.dated, dated{c: c, key: "as_of", day: asOf})
		}
	}
	d.yard(c.needed("yard"))
	piece := c.needed("piece")
	d.piece(piece)
	d.persons(c.list("person"))
	d.uses(c.list("use"))
	d.changes(c.list("change"))
	d.events(c.list("event"))
	d.examinations(c.list("examination"))
	d.runs(c.list("run"))
	d.answers(c.list("answer"))
	d.together(piece)

	d.rec.AsOf = asOf
	if !asOfSaid && c.Present() {
		if len(d.rec.Examinations) == 0 {
			d.fault(root, "as_of", "is missing, and there is no [[examination]] to take it from",
				"add it: write the day for which the outcome is asked, such as as_of = 2026-06-01")
		}
		for i := range d.rec.Examinations {
			if e := &d.rec.Examinations[i]; i == 0 || e.Day > d.rec.AsOf {
				d.rec.AsOf = e.Day
			}
		}
		for i := range d.rec.Events { // what happened since must not be left out for want of a date
			d.rec.AsOf = max(d.rec.AsOf, d.rec.Events[i].Day)
		}
	}
	faults = append(append(faults, r.Faults()...), d.own...)
	faults.Sort()
	if len(faults) > 0 {
		return nil, faults
	}
	return &d.rec, nil
}

func (d *decoder) fault(at *doc.Node, path, what, mend string) {
	f := doc.Fault{File: d.file, Field: path, What: what, Mend: mend}
	if at != nil {
		f.Line, f.Col = at.Line, at.Col
	}
	d.own, d.failed[path] = append(d.own, f), true
}

// format reports whether it is worth reading on: not where the record says that
// it is of another format.
func (d *decoder) format(c cursor) bool {
	if !c.Present() || !c.filled("format", `write format = "`+Format+`" as the first line`) {
		return true
	}
	if c.says("format", Format) {
		return true
	}
	f := c.text("format")
	if f == "" {
		return true
	}
	c.d.fault(c.value("format"), "format", "“"+doc.Short(f)+"” is not the format read here", `write "`+Format+`"`)
	return !strings.HasPrefix(f, "kernbook record ")
}

func (d *decoder) yard(c cursor) {
	y := &d.rec.Yard
	y.Name = c.text("name")
	countries := countrySet(d.t)
	countries.any = d.loose
	y.Country = c.needID("country", countries, "the country whose law holds")
	y.Limit = d.limit(c)
	if s := c.sub("scheme"); s.Present() {
		if s.filled("every", `write how often, such as every = "6 months"`) {
			y.Scheme.Every = s.months("every")
		}
		y.Scheme.Document = s.needText("document", "write where the written scheme is to be found")
		y.Scheme.By = s.needText("by", "write the competent person who drew it up")
	}
}

// limit reads "1 in 1000" as whole millionths, rounded to the stricter side.
func (d *decoder) limit(c cursor) int64 {
	const mend = "write it as “1 in 1000”"
	text := c.text("limit")
	if text == "" {
		return 0
	}
	f := strings.Fields(text)
	if len(f) != 3 || f[0] != "1" || f[1] != "in" {
		c.Fault("limit", "“"+doc.Short(text)+"” is not a limit of doubt", mend)
		return 0
	}
	n, err := strconv.ParseUint(f[2], 10, 32)
	switch {
	case err != nil:
		c.Fault("limit", "“"+doc.Short(text)+"” is not a limit of doubt: “"+doc.Short(f[2])+"” is no whole number in plain figures", mend)
		return 0
	case n == 0:
		c.Fault("limit", "“"+doc.Short(text)+"” is not a limit of doubt", mend)
		return 0
	case n > millionths:
		c.Fault("limit", "“"+doc.Short(text)+"” is finer than doubt is reckoned", "write “"+inWords(1)+"” at the strictest")
		return 0
	}
	l := int64(millionths / n)
	if most := d.t.Rules.LimitMost; most > 0 && l > most {
		c.Fault("limit", "“"+text+"” is looser than any yard may set", "write “"+inWords(most)+"” or stricter")
	}
	return l
}

const millionths = 1_000_000

// inWords writes a limit in whole millionths as it is typed.
func inWords(limit int64) string { return "1 in " + strconv.FormatInt(millionths/limit, 10) }

const (
	sinceMend = "write the day from which this person has held the role, such as 2025-03-01: only what they did from that day on counts as a competent person's"
	untilMend = "write the last day on which this person held the role, or take the key out where they still hold it"
)

// roleDay reads a day from or up to which a role was held. The day 0 stands for
// none in a record, so it cannot be said.
func (c cursor) roleDay(key, mend string) qty.Day {
	if !c.filled(key, mend) {
		return 0
	}
	day, ok := c.day(key)
	if ok && day == 0 {
		c.Fault(key, day.Words()+" cannot be told from a day that nobody wrote", "write the day after it")
	}
	return day
}

func (d *decoder) persons(list []cursor) {
	d.people = set{noun: "person of this record", any: d.loose}
	for _, c := range list {
		p := kit.Person{
			ID:    c.needText("id", "write the name or short sign by which entries speak of this person"),
			Role:  c.word("role", roles),
			Holds: c.Bool("holds", doc.Optional),
		}
		// In a block by itself the day of its entry says since when.
		if p.Competent() && !d.loose || c.Has("since") {
			p.Since = c.roleDay("since", sinceMend)
		}
		if c.Has("until") {
			if p.Until = c.roleDay("until", untilMend); p.Until != 0 && p.Since != 0 && p.Until < p.Since {
				c.Fault("until", p.Until.Words()+" lies before since ("+p.Since.Words()+")", "correct one of the two")
			}
		}
		if p.ID != "" {
			if slices.Contains(d.people.ids, p.ID) {
				c.Fault("id", "“"+doc.Short(p.ID)+"” is the id of another person too", "give each person an id of their own")
			} else {
				d.people.ids = append(d.people.ids, p.ID)
			}
		}
		k := c.sub("kappa")
		for _, look := range k.Keys() {
			n := k.value(look)
			if !lookIDs().has(look) {
				what, mend := lookIDs().wrong(look)
				d.fault(n, k.at(look), what, mend)
				continue
			}
			rate := k.sub(look)
			share, from := qty.Share(0), ""
			if rate.filled("share", "write the share of known damage that this person found, such as 0.4") {
				share = rate.Share("share", doc.Optional)
			}
			from = rate.needText("from", "write where it was measured, such as \"practice board 2026-03\"")
			if p.Kappa == nil {
				p.Kappa = map[kit.LookID]kit.Rate{}
			}
			p.Kappa[kit.LookID(look)] = kit.Rate{Share: share, From: from}
		}
		d.rec.People = append(d.rec.People, p)
	}
}

// countryName gives what a country is called: what follows a comma or colon in
// the tables describes its rules.
func countryName(c *table.Country) string {
	name, _, _ := strings.Cut(c.Words, ":")
	name, _, _ = strings.Cut(name, ",")
	return name
}

// needBy reads who did it.
func (c cursor) needBy() string {
	if !c.filled("by", "write who it was, by the id of a [[person]]") {
		return ""
	}
	return c.person("by")
}

// byOr reads who did it, where that may be left out because it was the same
// person as in the entry around it.
func (c cursor) byOr(otherwise string) string {
	if c.value("by") == nil {
		return otherwise
	}
	return c.person("by")
}

// person reads the id of a [[person]]. Nobody is named who is not one: a slip
// in a name would otherwise count as a second pair of eyes.
func (c cursor) person(key string) string {
	if !c.begun(key, "write the id of a [[person]], or take the key out where it was nobody") {
		return ""
	}
	id := c.text(key)
	if id == "" || c.d.people.has(id) {
		return id
	}
	what, mend := c.d.people.wrong(id)
	add := "add a [[person]] with this id"
	if len(c.d.people.ids) > 0 {
		add = mend + ", or " + add
	}
	c.Fault(key, what, add)
	return ""
}

// heldBy reads the ids of those whose own kit a piece was.
func (c cursor) heldBy() []string {
	ids := c.Strings("held_by", doc.Optional)
	for _, id := range ids {
		if !c.d.people.has(id) {
			c.Fault("held_by", "names “"+doc.Short(id)+"”, who is no [[person]] of the record", "write the id of a [[person]], or add one with this id")
			return nil
		}
	}
	return ids
}

func (d *decoder) uses(list []cursor) {
	from := map[qty.Day]int{}
	for _, c := range list {
		u := kit.Use{Week: -1, Store: c.Bool("store", doc.Optional)}
		day, ok := c.needDay("from")
		if first, twice := from[day]; ok && twice {
			c.Fault("from", "is the same day as that of the use in line "+strconv.Itoa(first), "keep one of the two")
		} else if ok {
			from[day] = c.line("from")
			d.dated = append(d.dated, dated{c, "from", day, !u.Store})
		}
		u.From = day
		switch {
		case c.says("week", unknown):
		case u.Store && c.Has("week"):
			c.Fault("week", "is given for a piece in store, which is not used", "take it out, or take out store")
		case u.Store:
		case c.filled("week", `write the hours of use in a week, such as "25h", or "unknown"`):
			if u.Week = c.Hours("week", doc.Optional); u.Week == 0 && !c.noHours() {
				u.Week = -1 // a fault, and nothing that other entries could speak against
			}
		}
		u.Weekdays = c.days("weekdays")
		d.week(c, &u)
		if !c.says("mass", unknown) && c.begun("mass", `write the body mass with kit, such as "92kg", or "unknown"`) {
			most := d.most().Mass
			if u.Mass = c.Mass("mass", doc.Optional); u.Mass > most {
				c.Fault("mass", u.Mass.String()+" is more than any climber with kit, which is "+most.String()+" at most", "correct the number or its unit")
			}
			switch {
			case u.Mass == 0 && c.Has("mass"):
				c.Fault("mass", "is nought", `write the body mass with kit, such as "92kg", or "unknown"`)
			case u.Mass > 0 && u.Mass < leastMass:
				c.Fault("mass", u.Mass.String()+" is less than any climber with kit", "correct the number or its unit")
			}
		}
		u.Dirt = c.level("dirt", "site and dirt", d.t.Dirt)
		u.Hardware = c.level("hardware", "hardware", d.t.Hardware)
		d.rec.Uses, d.useAt = append(d.rec.Uses, u), append(d.useAt, c)
	}
}

// days reads days of the week, each by itself; a stretch such as "mon-fri" is a
// fault that says how it is written.
func (c cursor) days(key string) (on [8]bool) {
	const mend = `write each day by itself, such as ["mon", "tue", "wed", "thu", "fri"]`
	n := c.value(key)
	if n != nil && n.Kind == doc.String && !blank(n) {
		c.d.fault(n, c.at(key), "is a text (“"+doc.Short(n.Text)+"”) where a list is wanted", mend)
		return on
	}
	if n != nil && n.Kind == doc.Array {
		for i, it := range n.Items {
			if it.Kind == doc.String && strings.ContainsAny(it.Text, "-–, ") {
				c.d.fault(it, c.at(key)+"["+strconv.Itoa(i)+"]", "“"+doc.Short(it.Text)+"” is no day of the week", mend)
				return on
			}
		}
	}
	for _, w := range c.idList(key, set{noun: "day of the week", ids: weekdays}) {
		on[slices.Index(weekdays, w)+1] = true
	}
	return on
}

// noHours says whether the hours of a use are nought, and not what has a fault.
func (c cursor) noHours() bool {
	n := c.value("week")
	if n == nil || n.Kind != doc.String {
		return false
	}
	h, err := qty.ParseHours(n.Text)
	return err == nil && h == 0
}

// most gives the most that may be said of a use: what the tables take where
// nothing is said, so that no statement is stricter than silence.
func (d *decoder) most() table.Use {
	u := d.t.Rules.Cautious
	if u.Week == 0 || u.Week > hoursAWeek {
		u.Week = hoursAWeek
	}
	if u.Day == 0 {
		u.Day = hoursAWeek / 7
	}
	if u.Mass == 0 || u.Mass > mostMass {
		u.Mass = mostMass
	}
	return u
}

// week checks the hours of a use: no more than a piece can be used in a week,
// and on each of its working days, which have to be said with them.
func (d *decoder) week(c cursor, u *kit.Use) {
	if u.Store || u.Week <= 0 {
		return
	}
	const days = `write the working days, such as weekdays = ["mon", "tue", "wed", "thu", "fri"]`
	most, n := d.most(), qty.Duration(0)
	for _, on := range u.Weekdays {
		if on {
			n++
		}
	}
	switch {
	case u.Week > most.Week:
		c.Fault("week", u.Week.String()+" is more than a piece is used in a week, which is "+most.Week.String()+" at most", "write the hours for which this piece is in use in one week")
	case !c.filled("weekdays", days):
	case len(c.value("weekdays").Items) == 0:
		c.Fault("weekdays", "names no day", days)
	case len(c.value("weekdays").Items) == int(n) && u.Week > n*most.Day:
		c.Fault("week", u.Week.String()+" are more than "+most.Day.String()+" on each of its working days", "correct the hours, or name all working days")
	}
}

// level reads a word for site or hardware; "unknown" is the same as silence.
func (c cursor) level(key, noun string, levels []table.Level) string {
	if c.says(key, unknown) {
		return ""
	}
	s := set{noun: "word for " + noun, any: c.d.loose}
	for i := range levels {
		s.ids = append(s.ids, levels[i].ID)
	}
	s.ids = append(s.ids, unknown)
	if !c.begun(key, "write "+oneOf(s.ids)) {
		return ""
	}
	return c.id(key, s)
}

// register makes an entry known by its ref, and faults one that is taken.
func (d *decoder) register(c cursor, ref string, e entry) {
	if ref == "" {
		return
	}
	e.line = c.line("ref")
	if first := d.refs[ref]; first != nil {
		mend := "give each entry a ref of its own"
		if first.noun == "sign" && e.noun == "sign" {
			mend += "; where it is the same sign, say so: state = “same”, “grown” or “gone”"
		}
		c.Fault("ref", "“"+doc.Short(ref)+"” is the ref of the "+first.noun+" in line "+strconv.Itoa(first.line)+" too", mend)
		return
	}
	d.refs[ref] = &e
}

// together checks what only the whole record shows.
func (d *decoder) together(piece cursor) {
	d.datesInOrder(piece)
	slices.SortStableFunc(d.signs, func(a, b seen) int { return cmp.Compare(a.day, b.day) })
	d.states()
	d.toldOf()
	d.runsOnce()
}
