package record

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Schema writes the JSON Schema (2020-12) of a record written as JSON, with the
// ids of the tables. Whatever DecodeJSON accepts is valid by it; what takes
// more than one value to see (dates in order, refs that speak of something)
// only DecodeJSON refuses.
func Schema(t *table.Tables) []byte {
	s := schema{t}
	o := shape("One piece of kit with its history and the examination at hand. docs/record.md explains every key.",
		need("format", object{{"const", Format}}),
		may("as_of", says("day", "the day for which the outcome is asked; otherwise that of the last examination")),
		need("yard", s.yard()),
		need("piece", s.piece()),
		may("person", list(s.person())),
		may("use", list(s.use())),
		may("examination", list(s.examination())),
		may("run", list(s.run())),
		may("event", list(s.event())),
		may("answer", list(s.answer())),
		may("change", list(s.change())),
	)
	head := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"$id", "urn:kernbook:record:1"},
		{"title", Format},
	}
	o = append(head, o...)
	o.put("anyOf", []object{
		{{"required", []string{"as_of"}}},
		{{"required", []string{"examination"}}, {"properties", object{{"examination", object{{"minItems", 1}}}}}},
	})
	var kinds []object
	for i := range t.Kinds {
		kinds = append(kinds, ofKind(&t.Kinds[i]))
	}
	o.put("allOf", kinds)
	o.put("$defs", s.defs())
	return append(appendJSON(nil, o, "  ", ""), '\n')
}

type schema struct{ t *table.Tables }

// field is a key of a table, with what may stand there.
type field struct {
	key    string
	value  object
	needed bool
}

func need(key string, value object) field { return field{key, value, true} }
func may(key string, value object) field  { return field{key, value, false} }

// shape is a table that has these keys and no other.
func shape(words string, fields ...field) object {
	o := object{{"type", "object"}}
	o.text("description", words)
	var needed []string
	var properties object
	for _, f := range fields {
		properties.put(f.key, f.value)
		if f.needed {
			needed = append(needed, f.key)
		}
	}
	o.texts("required", needed)
	o.put("properties", properties)
	o.put("additionalProperties", false)
	return o
}

func list(items object) object { return object{{"type", "array"}, {"items", items}} }

func enum(words []string) object { return object{{"enum", append([]string{}, words...)}} }

func def(name string) object { return object{{"$ref", "#/$defs/" + name}} }

func says(name, words string) object {
	o := def(name)
	o.text("description", words)
	return o
}

func text(words string) object { return says("text", words) }

func boolean(words string) object {
	o := object{{"type", "boolean"}}
	o.text("description", words)
	return o
}

func anyOf(of ...object) object { return object{{"anyOf", of}} }

// spaces are those that package qty takes away around what is typed.
const spaces = "[ \t\u00a0\u2009\u202f]*"

func (s schema) defs() object {
	measured := func(example string) object {
		return object{{"type", "string"}, {"pattern", "[0-9].*[A-Za-z]"}, {"description", "a number with its unit, such as " + example}}
	}
	day := "[0-9]{4}-[0-9]{2}-[0-9]{2}"
	return object{
		{"text", object{{"type", "string"}, {"pattern", "[^ \t\n\r\u00a0]"}}},
		{"day", object{{"type", "string"}, {"pattern", "^" + spaces + day + spaces + "$"}}},
		{"date", anyOf(
			object{{"type", "string"}, {"pattern", "^" + spaces + "([0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?|unknown)" + spaces + "$"}},
			object{{"type", "integer"}, {"minimum", 1900}, {"maximum", 2199}},
		)},
		{"length", measured("11.2mm, 58cm, 45m or 1/2in")},
		{"mass", measured("92kg")},
		{"force", measured("200N")},
		{"hours", measured("25h")},
		{"span", measured("6 months or 5 years")},
		{"share", anyOf(
			object{{"type", "number"}, {"minimum", 0}, {"maximum", 1}},
			object{{"type", "string"}, {"pattern", "[0-9]"}, {"description", "a percentage such as 12%"}},
		)},
		{"yes", enum(answers)},
		{"weekdays", object{{"type", "array"}, {"items", enum(weekdays)}, {"uniqueItems", true}}},
		{"look-id", enum(lookIDs().ids)},
		{"part", enum(s.union(func(k *table.Kind) (ids []string) {
			for i := range k.Parts {
				ids = append(ids, k.Parts[i].ID)
			}
			return ids
		}))},
		{"sides", object{{"type", "array"}, {"items", enum(s.union(func(k *table.Kind) []string { return k.Sides }))}, {"uniqueItems", true}}},
		{"zone", shape("a stretch that belongs to a zone",
			need("zone", text("id of the zone")),
			need("from", says("length", "from end A")),
			need("to", says("length", "from end A")))},
		{"place", anyOf(
			object{{"const", wholeIt}},
			spot("a named part", need("part", def("part"))),
			spot("a place", need("at", says("length", "from end A"))),
			spot("a stretch", need("from", says("length", "from end A")), need("to", says("length", "from end A"))),
		)},
		{"covers", anyOf(
			object{{"const", everyone}},
			list(anyOf(
				shape("a named part", need("part", def("part")), may("sides", def("reached"))),
				shape("a stretch", need("from", says("length", "from end A")), need("to", says("length", "from end A")), may("sides", def("reached"))),
			)),
		)},
		{"reached", anyOf(object{{"const", everyone}}, def("sides"))},
		{"conditions", conditions()},
		{"look", s.look()},
	}
}

func spot(words string, fields ...field) object {
	return shape(words, append(fields, may("sides", def("sides")), may("layer", enum(layerNames)))...)
}

func conditions() object {
	fields := []field{may("light", enum(lights))}
	for _, k := range yesKeys {
		fields = append(fields, may(k, def("yes")))
	}
	return shape("what a look was made under; what is not said is taken as the worse", fields...)
}

// union gives what the kinds have, each id once.
func (s schema) union(of func(*table.Kind) []string) []string {
	var out []string
	for i := range s.t.Kinds {
		for _, id := range of(&s.t.Kinds[i]) {
			if !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// ids gives the ids of rows, and unknown where that is a word for them too.
func ids[V any](rows []V, id func(*V) string, more ...string) object {
	var out []string
	for i := range rows {
		out = append(out, id(&rows[i]))
	}
	return enum(append(out, more...))
}

func (s schema) yard() object {
	return shape("",
		may("name", text("")),
		need("country", ids(s.t.Countries, func(c *table.Country) string { return c.Code }, unknown)),
		may("limit", object{{"type", "string"}, {"pattern", "^\\s*1\\s+in\\s+[0-9]+\\s*$"}, {"description", "limit of doubt, such as 1 in 1000"}}),
		may("scheme", shape("a written examination scheme by a competent person",
			need("every", def("span")), need("document", text("")), need("by", text("")))),
	)
}

func (s schema) piece() object {
	fibre := ids(s.t.Fibres, func(f *table.Fibre) string { return f.ID }, kit.NoLayer)
	end := shape("how the end is made", may("how", enum(endHows)), may("tail", def("length")), may("stitch", enum(endStitches)))
	return shape("",
		need("id", text("the yard's own number or name")),
		need("kind", ids(s.t.Kinds, func(k *table.Kind) string { return string(k.ID) })),
		may("words", text("")),
		may("maker", text("")),
		may("maker_address", text("")),
		may("trade_name", text("the maker's own name for it")),
		may("model", text("")),
		may("serial", text("")),
		may("batch", text("")),
		need("marking", enum(markings)),
		may("proof", text("how identity is proved where the marking is not readable")),
		need("origin", enum(origins)),
		need("history", enum(histories)),
		may("traced", text("document that traces an unknown manufacture or history")),
		need("made", def("date")),
		need("first_use", def("date")),
		may("bought", def("date")),
		may("declared", says("date", "declaration of conformity")),
		may("obsolete", says("date", "marked on the piece by its maker")),
		may("maker_life_from_made", def("span")),
		may("maker_life_from_use", def("span")),
		may("maker_document", text("")),
		may("examined", says("date", "last thorough examination before this record begins")),
		may("examined_before_use", boolean("thoroughly examined before first use, or its last report came with it")),
		may("examination_document", text("")),
		may("length", def("length")),
		may("diameter", anyOf(def("length"), object{{"const", unknown}})),
		may("stored", enum(storedIn)),
		may("layer", list(shape("from outside in", need("name", enum(layerNames)), need("fibre", fibre)))),
		may("end_a", end),
		may("end_b", end),
		may("zone", list(def("zone"))),
		may("fitted", shape("the assembly it is part of", may("in", text("")), need("allowed", def("yes")), may("document", text("")))),
	)
}

func (s schema) person() object {
	var rates []field
	for _, l := range kit.Looks {
		rates = append(rates, may(string(l), shape("", need("share", def("share")), need("from", text("where it was measured")))))
	}
	o := shape("",
		need("id", text("")),
		may("role", enum(roles)),
		may("since", def("day")),
		may("until", def("day")),
		may("holds", boolean("the piece is this person's own kit, or this person repaired it")),
		may("kappa", shape("own shares of known damage found, by look", rates...)),
	)
	var competent []string
	for _, role := range roles {
		if p := (kit.Person{Role: role}); p.Competent() {
			competent = append(competent, role)
		}
	}
	o.put("if", object{{"properties", object{{"role", enum(competent)}}}, {"required", []string{"role"}}})
	o.put("then", object{{"required", []string{"since"}}})
	return o
}

func (s schema) use() object {
	level := func(l *table.Level) string { return l.ID }
	return shape("from this day on, until the next use",
		need("from", def("day")),
		may("week", anyOf(def("hours"), object{{"const", unknown}})),
		may("weekdays", def("weekdays")),
		may("mass", anyOf(def("mass"), object{{"const", unknown}})),
		may("dirt", ids(s.t.Dirt, level, unknown)),
		may("hardware", ids(s.t.Hardware, level, unknown)),
		may("store", boolean("in store, unused")),
	)
}

func (s schema) look() object {
	o := shape("",
		need("look", def("look-id")),
		may("by", text("id of a person; otherwise the one of the whole examination")),
		may("covers", def("covers")),
		may("conditions", def("conditions")),
		may("after_washing", boolean("made after a washing on the same day")),
	)
	o.put("if", object{{"properties", object{{"look", enum([]string{string(kit.Ask), string(kit.Read)})}}}})
	o.put("else", object{{"required", []string{"covers"}}})
	return o
}

func (s schema) examination() object {
	sign := shape("",
		may("ref", text("the name by which later entries speak of it")),
		may("sign", text("id of a sign of this kind")),
		may("state", enum(states)),
		may("at", def("place")),
		may("look", def("look-id")),
		may("by", text("")),
		may("after_washing", boolean("")),
		may("words", text("")),
	)
	sign.put("if", object{{"properties", object{{"state", object{{"const", string(kit.FirstSeen)}}}}}})
	sign.put("then", object{{"required", []string{"sign"}}})
	sign.put("else", object{{"required", []string{"ref"}}})
	values := object{{"type", "array"}, {"items", def("length")}}
	return shape("",
		may("ref", text("")),
		need("kind", enum(examKinds)),
		need("day", def("day")),
		need("by", text("id of a person")),
		may("signed", text("id of a person")),
		may("would_climb", says("yes", "would the examiner climb on it?")),
		may("latest", says("date", "the latest date the examiner sets for the next one")),
		may("after_event", text("ref of the event that this examination answers")),
		may("held_by", list(text("id of a person whose own kit the piece was on that day, or who repaired it before"))),
		may("conditions", def("conditions")),
		may("look", list(def("look"))),
		may("asked", object{{"type", "object"}, {"additionalProperties", def("yes")}}),
		may("sign", list(sign)),
		may("reading", list(shape("",
			may("ref", text("")),
			need("quantity", text("id of a quantity of this kind")),
			need("at", def("place")),
			need("values", append(slices.Clone(values), member{"minItems", 1})),
			may("again", values),
			may("gauge", text("")),
			may("error", says("length", "standard error of one value")),
			may("tension", def("force")),
			may("method", text("")),
			may("wet", def("yes"))))),
	)
}

func (s schema) run() object {
	o := shape("a series of like looks, signed by one person",
		may("ref", text("")),
		need("kind", enum(runKinds)),
		need("by", text("id of a person")),
		need("from", def("day")),
		need("to", def("day")),
		need("weekdays", append(def("weekdays"), member{"minItems", 1})),
		may("conditions", def("conditions")),
		may("looks", object{{"type", "array"}, {"items", def("look-id")}, {"uniqueItems", true}, {"minItems", 1}}),
		may("look", list(def("look"))),
	)
	o.put("oneOf", []object{{{"required", []string{"looks"}}}, {{"required", []string{"look"}}}})
	return o
}

func (s schema) event() object {
	return shape("",
		may("ref", text("")),
		need("day", def("day")),
		need("event", ids(s.t.Events, func(e *table.Event) string { return e.ID })),
		may("at", def("place")),
		may("travel", anyOf(def("length"), object{{"const", unknown}})),
		may("peak", anyOf(def("share"), object{{"const", unknown}})),
		may("substance", ids(s.t.Contaminants, func(c *table.Contaminant) string { return c.ID })),
		may("amount", enum(amounts)),
		may("washed", says("yes", "washed out, and nothing left to see or feel")),
		may("injury", boolean("somebody was hurt, it was a dangerous event, or a claim goes with it")),
		may("words", text("")),
	)
}

func (s schema) answer() object {
	return shape("",
		need("day", def("day")),
		need("to", text("ref of an entry, or the word of a question")),
		may("cause", anyOf(
			ids(s.t.Causes, func(c *table.Cause) string { return c.ID }),
			ids(s.t.Contaminants, func(c *table.Contaminant) string { return c.ID }),
		)),
		need("verified", text("how it was verified")),
		need("by", text("id of a person")),
		may("document", text("")),
		may("unfit", boolean("the answer says that it is not fit")),
	)
}

func (s schema) change() object {
	return shape("",
		need("day", def("day")),
		need("what", enum(changes)),
		may("zones", list(def("zone"))),
		may("length", says("length", "how much was cut off")),
		need("by", text("id of a person")),
		may("words", text("")),
	)
}

// ofKind says what only pieces of a kind can have.
func ofKind(k *table.Kind) object {
	var zones, signs, quantities []string
	for i := range k.Zones {
		zones = append(zones, k.Zones[i].ID)
	}
	for i := range k.Signs {
		signs = append(signs, k.Signs[i].ID)
	}
	for i := range k.Reads {
		quantities = append(quantities, k.Reads[i].ID)
	}
	var asks object
	for i := range k.Asks {
		asks.put(k.Asks[i].ID, object{{"description", k.Asks[i].Words}})
	}
	props := func(o object) object { return object{{"properties", o}} }
	items := func(key string, ids []string) object {
		return object{{"items", props(object{{key, enum(ids)}})}}
	}
	piece := props(object{{"zone", items("zone", zones)}})
	var needed []string
	if k.Axis == "length" {
		needed = append(needed, "length")
	}
	if k.Fitted {
		needed = append(needed, "fitted")
	}
	piece.texts("required", needed)
	return object{
		{"if", props(object{{"piece", props(object{{"kind", object{{"const", string(k.ID)}}}})}})},
		{"then", props(object{
			{"piece", piece},
			{"examination", object{{"items", props(object{
				{"asked", append(props(asks), member{"propertyNames", enum(keys(asks))})},
				{"sign", items("sign", signs)},
				{"reading", items("quantity", quantities)},
			})}}},
			{"change", object{{"items", props(object{{"zones", items("zone", zones)}})}}},
		})},
	}
}

func keys(o object) []string {
	var out []string
	for _, m := range o {
		out = append(out, m.key)
	}
	return out
}
