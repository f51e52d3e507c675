package report

// Format is what the first key of every outcome says.
const Format = "kernbook outcome 1"

// The types below are the shape of "kernbook outcome 1", in the order in which
// it is written. The tag "doc" says what a key holds, "is" what values it takes
// beyond its type; a test makes docs/outcome.schema.json from them and holds
// that docs/outcome.md explains every key.

type outcomeDoc struct {
	Format      string             `json:"format" is:"const=kernbook outcome 1" doc:"name and version of the format"`
	Language    string             `json:"language" doc:"language of the sentences, a tag of BCP 47"`
	Core        string             `json:"core" doc:"version of the core that judged"`
	Tables      string             `json:"tables" is:"hex" doc:"version of the tables: SHA-256 of their files, in hexadecimal"`
	Piece       pieceDoc           `json:"piece" doc:"the piece that was judged"`
	AsOf        string             `json:"as_of" is:"day" doc:"the day for which the outcome is given"`
	Examination *examDoc           `json:"examination,omitempty" doc:"the examination at hand: the latest not after that day; left out where there is none"`
	Later       int64              `json:"later" doc:"how many entries of the record are dated after that day; they were left out"`
	Uncounted   []uncountedDoc     `json:"uncounted" doc:"entries of the record that do not count for what they say they are"`
	Outcome     string             `json:"outcome" is:"outcome" doc:"the strictest of all reasons"`
	Held        bool               `json:"held" doc:"withdrawn and held: sealed and uncut until it is released in writing"`
	Sentence    string             `json:"sentence" doc:"the outcome with piece and day, in words"`
	Reasons     []reasonDoc        `json:"reasons" doc:"every rule that applies, strictest first"`
	Open        []openDoc          `json:"open" doc:"what must be answered or done"`
	Next        nextDoc            `json:"next" doc:"when the piece must be looked at again, and why then"`
	Life        dueDoc             `json:"life" doc:"when its life ends at the latest"`
	Thorough    dueDoc             `json:"thorough" doc:"when its next thorough examination is due at the latest"`
	Limit       *limitDoc          `json:"limit,omitempty" doc:"the limit of doubt it was decided under; left out where the kind has no doubt figure"`
	Doubt       *doubtDoc          `json:"doubt,omitempty" doc:"the doubt and where it sits; left out where there is none"`
	NoDoubt     *noDoubtDoc        `json:"no_doubt,omitempty" doc:"why there is no doubt figure; left out where there is one"`
	Explanation *toldDoc           `json:"explanation,omitempty" doc:"how the outcome came about; left out where it was not asked for"`
	Lines       map[string]lineDoc `json:"lines" doc:"every line cited above, by its id"`
}

type pieceDoc struct {
	ID    string `json:"id" doc:"the yard's own number or name"`
	Kind  string `json:"kind" doc:"kind of piece, an id of the tables"`
	Words string `json:"words" doc:"the kind in words"`
}

type examDoc struct {
	Kind  string `json:"kind" is:"exam" doc:"kind of examination"`
	Words string `json:"words" doc:"the same in words"`
	Day   string `json:"day" is:"day" doc:"its day"`
}

type uncountedDoc struct {
	What     string `json:"what" doc:"answer, or the kind of examination"`
	Day      string `json:"day" is:"day" doc:"its day"`
	By       string `json:"by,omitempty" doc:"who gave or made it"`
	To       string `json:"to,omitempty" doc:"what the answer names, or the ref of the examination"`
	Why      string `json:"why" doc:"what it lacks, as a word that stays the same in every language"`
	Sentence string `json:"sentence" doc:"the same in words"`
}

type reasonDoc struct {
	Row      string     `json:"row" doc:"row of the decision: 1 absolute, 2 set aside, 3 dates, 4 looks not made, 5 signs not explained, 6 doubt over the limit, 6a wear and washed-out substances, 7 look sooner"`
	Outcome  string     `json:"outcome" is:"outcome" doc:"what this reason asks for by itself"`
	ID       string     `json:"id" doc:"the line that demands it"`
	Lines    []string   `json:"lines" doc:"every line that it rests on, that one first"`
	Status   string     `json:"status" is:"status" doc:"how far the rule is to be trusted"`
	Key      string     `json:"key" doc:"key of the message, the same in every language"`
	Args     []argDoc   `json:"args" doc:"values of the message, as the core gives them"`
	Words    string     `json:"words,omitempty" doc:"the tables' own words of the sign, event or rule"`
	Sentence string     `json:"sentence" doc:"the reason in words"`
	At       []placeDoc `json:"at" doc:"where on the piece; empty for the piece as a whole"`
	Until    string     `json:"until,omitempty" is:"day" doc:"last day of a \"keep, look sooner\""`
	Question string     `json:"question,omitempty" doc:"what kind of thing must be answered or done"`
	To       string     `json:"to,omitempty" doc:"what an answer on record has to name"`
	Asked    string     `json:"asked,omitempty" doc:"the tables' own words of the question"`
}

type argDoc struct {
	Name  string `json:"name" doc:"name of the value"`
	Value string `json:"value" doc:"a day as ISO 8601, a quantity with its unit, anything else as an id"`
}

type placeDoc struct {
	Part  string   `json:"part,omitempty" doc:"id of a named part; then from_mm and to_mm are 0"`
	From  float64  `json:"from_mm" doc:"start of the stretch, in millimetres from end A"`
	To    float64  `json:"to_mm" doc:"end of the stretch, in millimetres from end A"`
	Whole bool     `json:"whole" doc:"the piece as a whole"`
	Gone  bool     `json:"gone,omitempty" doc:"it has been cut off since; then from_mm and to_mm lie outside the piece"`
	Sides []string `json:"sides" doc:"sides; empty means all"`
	Layer string   `json:"layer,omitempty" doc:"layer of the construction"`
	Words string   `json:"words" doc:"the place in words; \"\" where it names nothing"`
}

type openDoc struct {
	Question   string   `json:"question" doc:"what kind of thing must be answered or done"`
	To         string   `json:"to" doc:"what an answer on record has to name"`
	Answerable bool     `json:"answerable" doc:"an answer on record can settle it; otherwise an examination, a look or a fact does"`
	Asked      string   `json:"asked,omitempty" doc:"the tables' own words of the question"`
	Row        string   `json:"row" doc:"row of the decision that asks"`
	Lines      []string `json:"lines" doc:"lines that it rests on"`
	Sentence   string   `json:"sentence" doc:"what is to be done, and who does it, in words"`
}

type hoursDoc struct {
	Minutes int64  `json:"minutes" doc:"hours of use, in minutes"`
	Words   string `json:"words" doc:"the same with its unit"`
}

type nextDoc struct {
	Day      string       `json:"day,omitempty" is:"day" doc:"the day by which it must be looked at again; left out where none can be set"`
	Why      string       `json:"why,omitempty" is:"enum=doubt|examination|life|reason|half the usual interval" doc:"what sets that day"`
	Hours    hoursDoc     `json:"hours" doc:"planned use until then"`
	Sentence string       `json:"sentence" doc:"the same in words; after \"set aside\" and \"withdraw\" no date is told"`
	With     *forecastDoc `json:"with_looks_kept_up,omitempty" doc:"forecast of the doubt with looks before use kept up as in the last weeks"`
	Without  *forecastDoc `json:"without_looks,omitempty" doc:"forecast of the doubt without such looks"`
	Kept     *keptDoc     `json:"kept,omitempty" doc:"how well looks before use were kept up"`
}

type forecastDoc struct {
	Day     string   `json:"day" is:"day" doc:"the first day on which the doubt is above the limit; where it is not reached, the day on which the forecast ended"`
	Reached bool     `json:"reached" doc:"the limit is passed on that day"`
	Hours   hoursDoc `json:"hours" doc:"planned use until then"`
}

type keptDoc struct {
	Share     figureDoc `json:"share" doc:"share of the working days of the last weeks with a look before use"`
	Enough    bool      `json:"enough" doc:"enough of them for the first forecast to count"`
	Looks     []string  `json:"looks" doc:"the looks that were made"`
	Sentences []string  `json:"sentences" doc:"both forecasts, and which one counts, in words"`
}

type dueDoc struct {
	boundDoc
	Others []boundDoc `json:"others" doc:"every rule that was looked at, the one that holds among them"`
}

type boundDoc struct {
	Day      string   `json:"day,omitempty" is:"day" doc:"the day that the rule sets; left out where the day it counts from is not known"`
	Counts   bool     `json:"counts" doc:"false for a rule that is only shown"`
	Line     string   `json:"line" doc:"the line that demands it"`
	Lines    []string `json:"lines" doc:"every line that it rests on, that one first"`
	Status   string   `json:"status" is:"status" doc:"how far the rule is to be trusted"`
	Key      string   `json:"key" doc:"key of the message, the same in every language"`
	Args     []argDoc `json:"args" doc:"values of the message, as the core gives them"`
	Words    string   `json:"words,omitempty" doc:"the tables' own words of the rule"`
	Sentence string   `json:"sentence" doc:"the rule in words"`
}

// figureDoc is a probability: as worked out, and in whole millionths. Doubts
// are rounded up, shares of explanation down.
type figureDoc struct {
	Exact      float64 `json:"exact" is:"share" doc:"as worked out: the shortest decimal that reads back as the same number"`
	Millionths int64   `json:"millionths" is:"millionths" doc:"in whole millionths; doubts rounded up, other shares down"`
}

type limitDoc struct {
	Holds    int64  `json:"millionths" is:"millionths" doc:"the limit that holds: the yard's, or else the default"`
	Default  int64  `json:"default_millionths" is:"millionths" doc:"the tables' own limit"`
	Sentence string `json:"sentence,omitempty" doc:"that the yard's limit is looser than the default; left out where it is not"`
}

type doubtDoc struct {
	Limit    int64     `json:"limit_millionths" is:"millionths" doc:"the limit that holds, in whole millionths: the yard's, or else the default"`
	Figure   figureDoc `json:"figure" doc:"the doubt: of pieces with such a record, the share that is unfit"`
	Hidden   figureDoc `json:"hidden" doc:"the part of it that no look can take away"`
	OneIn    int64     `json:"one_in" doc:"N of \"1 in N\", rounded down to two figures; 0 where the doubt is 0"`
	Wear     figureDoc `json:"wear" doc:"share that is harmed at all, still fit or unfit; it decides nothing"`
	Whole    figureDoc `json:"whole_piece" doc:"the doubt of what has no one place: ageing, a load on the whole of it"`
	Sentence string    `json:"sentence" doc:"the doubt in words"`
	Cells    []cellDoc `json:"cells" doc:"the doubt place by place, along the piece and then its parts"`
}

type cellDoc struct {
	Part     string    `json:"part,omitempty" doc:"id of a named part"`
	From     float64   `json:"from_mm" doc:"start of the cell, in millimetres from end A"`
	To       float64   `json:"to_mm" doc:"end of the cell, in millimetres from end A"`
	Zone     string    `json:"zone" doc:"id of its zone, or of its part"`
	Figure   figureDoc `json:"figure" doc:"doubt there"`
	Findable figureDoc `json:"findable" doc:"the part of it that a look can still find"`
	Hidden   int64     `json:"hidden_millionths" is:"millionths" doc:"the part of it that no look can take away, in whole millionths rounded up"`
	Words    string    `json:"words" doc:"the place in words"`
}

type noDoubtDoc struct {
	Why      string `json:"why" is:"enum=kind|too many|impossible" doc:"why there is none"`
	Sentence string `json:"sentence" doc:"the same in words"`
}

type toldDoc struct {
	Before       int64            `json:"before_millionths" is:"millionths" doc:"the doubt before the looks of the examination at hand, in whole millionths"`
	Drops        []dropDoc        `json:"drops" doc:"what each of its looks did, in the fixed order of looks; the figures add up exactly"`
	Line         []pointDoc       `json:"line" doc:"the doubt over time"`
	With         []pointDoc       `json:"forecast_with_looks" doc:"the forecast with looks before use kept up, week by week: up to the limit, or to the day on which it ended"`
	Without      []pointDoc       `json:"forecast_without_looks" doc:"the forecast without such looks"`
	Worst        placeDoc         `json:"worst" doc:"where a look can still find most"`
	Signs        []signDoc        `json:"signs" doc:"signs on record, with the shares of what can have shown them"`
	Gains        []gainDoc        `json:"gains" doc:"looks not yet made, the one worth most for its time first"`
	Changes      []changeDoc      `json:"changes" doc:"what would change the outcome, or would not while other reasons stand"`
	Assumed      []assumedDoc     `json:"assumed" doc:"facts that are not on record, and what they were taken as"`
	Leaned       []leanedDoc      `json:"leaned" doc:"every row of the tables that the outcome leaned on, once in its group, with the values that counted"`
	LeanedGroups []leanedGroupDoc `json:"leaned_groups" doc:"the same rows summed up by group, with how many of their values have each standing: what is assumed is named here"`
	Cautions     []cautionDoc     `json:"cautions" doc:"what to keep in mind"`
	Checked      *checkedDoc      `json:"checked,omitempty" doc:"the doubt worked out a second way; left out where that cannot be done"`
}

type dropDoc struct {
	Look  string `json:"look" is:"look" doc:"id of the look"`
	Words string `json:"words" doc:"the look in words"`
	By    int64  `json:"by_millionths" doc:"by how much the doubt fell, in whole millionths; negative where it rose"`
	After int64  `json:"after_millionths" is:"millionths" doc:"the doubt after it, in whole millionths"`
}

type pointDoc struct {
	Day    string `json:"day" is:"day" doc:"the day"`
	After  bool   `json:"after" doc:"after the looks and events of that day; otherwise before them"`
	Doubt  int64  `json:"millionths" is:"millionths" doc:"the doubt, in whole millionths"`
	Hidden int64  `json:"hidden_millionths" is:"millionths" doc:"the part of it that no look can take away, in whole millionths"`
	Mark   string `json:"mark,omitempty" is:"enum=thorough|interim|pre-use|partner|event" doc:"what happened on that day: a kind of examination, or an event"`
}

type signDoc struct {
	Ref      string     `json:"ref,omitempty" doc:"the yard's name for it"`
	ID       string     `json:"id" doc:"id of the sign in the tables"`
	Words    string     `json:"words" doc:"the sign in words"`
	Class    string     `json:"class" is:"enum=absolute|set aside|to be weighed|observation" doc:"what it means by itself"`
	At       placeDoc   `json:"at" doc:"where it is"`
	Zone     string     `json:"zone,omitempty" doc:"id of the zone it lies in"`
	Day      string     `json:"day" is:"day" doc:"the day on which it was first seen"`
	State    string     `json:"state" is:"enum=first seen|same|grown|gone after washing|gone" doc:"how it stands now"`
	Answered bool       `json:"answered" doc:"a harmless cause was found and entered"`
	Answer   string     `json:"answer,omitempty" doc:"id of that cause"`
	Why      figureDoc  `json:"why" doc:"share of harmless explanation, given everything on record"`
	Shares   []shareDoc `json:"shares" doc:"how likely each thing showed it"`
	Sentence string     `json:"sentence" doc:"the sign in words, with its place and its share"`
}

type shareDoc struct {
	What  string    `json:"what" is:"enum=mode|whole|cause|leak" doc:"damage of a mode at a place or of the whole piece, a harmless cause, or nothing that the tables name"`
	ID    string    `json:"id,omitempty" doc:"id of the mode or cause"`
	Words string    `json:"words" doc:"the same in words"`
	P     figureDoc `json:"share" doc:"how likely it showed the sign"`
}

type gainDoc struct {
	Look     string    `json:"look" is:"look" doc:"id of the look"`
	Nothing  figureDoc `json:"finds_nothing" doc:"how likely it finds nothing that damage shows"`
	After    int64     `json:"after_millionths" is:"millionths" doc:"the doubt if it finds nothing, in whole millionths"`
	Worth    float64   `json:"worth" doc:"expected loss that it saves, as a share of a replacement; negative where it is not worth its time"`
	Minutes  float64   `json:"minutes" doc:"how long it takes"`
	At       placeDoc  `json:"at" doc:"where it helps most"`
	Sentence string    `json:"sentence" doc:"the same in words"`
}

type changeDoc struct {
	Key      string   `json:"key" doc:"key of the message, the same in every language"`
	Args     []argDoc `json:"args" doc:"values of the message, as the core gives them"`
	Outcome  string   `json:"outcome" is:"outcome" doc:"what the outcome would be then"`
	Sentence string   `json:"sentence" doc:"the same in words"`
}

type assumedDoc struct {
	Fact     string `json:"fact" is:"enum=length|use|hours|mass|dirt|hardware|weekdays|conditions" doc:"the fact that is missing"`
	Sentence string `json:"sentence" doc:"what it was taken as"`
}

type leanedDoc struct {
	Group  string     `json:"group" is:"enum=rules|life|intervals|needs|events|substances|piece|use|wear|looks|signs not seen|signs|causes|readings|further looks" doc:"what the row was needed for; of \"further looks\" hangs only what would help, and whether a doubt over the limit sets aside or withdraws"`
	What   string     `json:"what" is:"enum=rule|life|storage|no_limit|interval|need|ask|effect|kernel|contaminant|use|dirt|hardware|kind|zone|part|mode|look|kappa|factor|sign|figures|cause|prior|read|limit|time" doc:"sort of row, as the tables name it; figures are the links, leak, causes and spread of a sign, whose standing is their own"`
	ID     string     `json:"id" doc:"name of the row"`
	Also   []string   `json:"also,omitempty" doc:"other names under which the same row counted: one row can hold for several looks and examinations"`
	Words  string     `json:"words,omitempty" doc:"the row in words"`
	Values []valueDoc `json:"values" doc:"its values that counted"`
	Status string     `json:"status" is:"status" doc:"how far they are to be trusted"`
	Source []string   `json:"source" doc:"lines that they rest on"`
	Place  string     `json:"place,omitempty" doc:"where in the source, or how they were chosen"`
	File   string     `json:"file" doc:"file of the tables"`
	Row    int64      `json:"row" doc:"line of that file on which the row begins"`
}

type valueDoc struct {
	Of    string   `json:"of,omitempty" doc:"mode, zone, cause or state that the value belongs to; left out for the row itself"`
	Name  string   `json:"name" doc:"its column in the tables"`
	Value *float64 `json:"value,omitempty" doc:"the number; left out where it is a word"`
	Unit  string   `json:"unit,omitempty" doc:"unit of the number"`
	Text  string   `json:"text,omitempty" doc:"the word; left out where it is a number"`
}

type leanedGroupDoc struct {
	Group     string   `json:"group" doc:"the group"`
	Words     string   `json:"words" doc:"the group in words"`
	Rows      int64    `json:"rows" doc:"how many rows of it were leaned on"`
	Values    int64    `json:"values" doc:"how many values they have"`
	Published int64    `json:"published" doc:"how many of the values are published"`
	Practice  int64    `json:"common_practice" doc:"how many are common practice"`
	Memory    int64    `json:"from_memory" doc:"how many are from memory"`
	Assumed   int64    `json:"assumed" doc:"how many are assumed"`
	Tables    []string `json:"tables" doc:"the tables they stand in, as kernbook tables show prints them"`
	Sentence  string   `json:"sentence" doc:"the same in words"`
}

type cautionDoc struct {
	ID    string `json:"id" doc:"id of the line"`
	Words string `json:"words" doc:"the caution"`
}

type checkedDoc struct {
	Method     string  `json:"method" doc:"the second way"`
	Difference float64 `json:"relative_difference" doc:"difference of the two, as a share of the doubt"`
}

type lineDoc struct {
	Says   string `json:"says" doc:"what it says, in our own words"`
	Source string `json:"source" doc:"where it comes from"`
	Place  string `json:"place" doc:"where in the source"`
	Mark   string `json:"mark" is:"enum=seen|seen second-hand|from memory|common practice|proposed|finding|computed" doc:"how it is known"`
	Status string `json:"status" is:"status" doc:"how far it is to be trusted"`
	Note   string `json:"note,omitempty" doc:"where a part of it has another mark"`
}
