package report

// Format is what the first key of every outcome says.
const Format = "kernbook outcome 1"

// The types below are the shape of "kernbook outcome 1", in the order in which
// it is written. docs/outcome.md explains each key, docs/outcome.schema.json is
// the same as a schema; a test holds the three together.

type outcomeDoc struct {
	Format      string             `json:"format"`
	Language    string             `json:"language"`
	Core        string             `json:"core"`
	Tables      string             `json:"tables"`
	Piece       pieceDoc           `json:"piece"`
	AsOf        string             `json:"as_of"`
	Examination *examDoc           `json:"examination,omitempty"`
	Outcome     string             `json:"outcome"`
	Held        bool               `json:"held"`
	Sentence    string             `json:"sentence"`
	Reasons     []reasonDoc        `json:"reasons"`
	Open        []openDoc          `json:"open"`
	Next        nextDoc            `json:"next"`
	Life        dueDoc             `json:"life"`
	Thorough    dueDoc             `json:"thorough"`
	Doubt       *doubtDoc          `json:"doubt,omitempty"`
	NoDoubt     *noDoubtDoc        `json:"no_doubt,omitempty"`
	Explanation *toldDoc           `json:"explanation,omitempty"`
	Lines       map[string]lineDoc `json:"lines"`
}

type pieceDoc struct {
	ID    string `json:"id"`
	Kind  string `json:"kind"`
	Words string `json:"words"`
}

type examDoc struct {
	Kind  string `json:"kind"`
	Words string `json:"words"`
	Day   string `json:"day"`
}

type reasonDoc struct {
	Row      string     `json:"row"`
	Outcome  string     `json:"outcome"`
	ID       string     `json:"id"`
	Lines    []string   `json:"lines"`
	Status   string     `json:"status"`
	Key      string     `json:"key"`
	Args     []argDoc   `json:"args"`
	Words    string     `json:"words,omitempty"`
	Sentence string     `json:"sentence"`
	At       []placeDoc `json:"at"`
	Until    string     `json:"until,omitempty"`
	Question string     `json:"question,omitempty"`
	To       string     `json:"to,omitempty"`
	Asked    string     `json:"asked,omitempty"`
}

type argDoc struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

type placeDoc struct {
	Part  string   `json:"part,omitempty"`
	From  float64  `json:"from_mm"`
	To    float64  `json:"to_mm"`
	Whole bool     `json:"whole"`
	Sides []string `json:"sides"`
	Layer string   `json:"layer,omitempty"`
	Words string   `json:"words"`
}

type openDoc struct {
	Question   string   `json:"question"`
	To         string   `json:"to"`
	Answerable bool     `json:"answerable"`
	Asked      string   `json:"asked,omitempty"`
	Row        string   `json:"row"`
	Lines      []string `json:"lines"`
	Sentence   string   `json:"sentence"`
}

type hoursDoc struct {
	Minutes int64  `json:"minutes"`
	Words   string `json:"words"`
}

type nextDoc struct {
	Day      string       `json:"day,omitempty"`
	Why      string       `json:"why,omitempty"`
	Hours    hoursDoc     `json:"hours"`
	Sentence string       `json:"sentence"`
	With     *forecastDoc `json:"with_looks_kept_up,omitempty"`
	Without  *forecastDoc `json:"without_looks,omitempty"`
	Kept     *keptDoc     `json:"kept,omitempty"`
}

type forecastDoc struct {
	Day     string   `json:"day"`
	Reached bool     `json:"reached"`
	Hours   hoursDoc `json:"hours"`
}

type keptDoc struct {
	Share     figureDoc `json:"share"`
	Enough    bool      `json:"enough"`
	Looks     []string  `json:"looks"`
	Sentences []string  `json:"sentences"`
}

type dueDoc struct {
	boundDoc
	Others []boundDoc `json:"others"`
}

type boundDoc struct {
	Day      string   `json:"day,omitempty"`
	Counts   bool     `json:"counts"`
	Line     string   `json:"line"`
	Lines    []string `json:"lines"`
	Status   string   `json:"status"`
	Key      string   `json:"key"`
	Args     []argDoc `json:"args"`
	Words    string   `json:"words,omitempty"`
	Sentence string   `json:"sentence"`
}

// figureDoc is a probability: as worked out, and in whole millionths. Doubts
// are rounded up, shares of explanation down.
type figureDoc struct {
	Exact      float64 `json:"exact"`
	Millionths int64   `json:"millionths"`
}

type doubtDoc struct {
	Limit    int64     `json:"limit_millionths"`
	Figure   figureDoc `json:"figure"`
	Hidden   figureDoc `json:"hidden"`
	OneIn    int64     `json:"one_in"`
	Wear     figureDoc `json:"wear"`
	Whole    figureDoc `json:"whole_piece"`
	Sentence string    `json:"sentence"`
	Cells    []cellDoc `json:"cells"`
}

type cellDoc struct {
	Part     string    `json:"part,omitempty"`
	From     float64   `json:"from_mm"`
	To       float64   `json:"to_mm"`
	Zone     string    `json:"zone"`
	Figure   figureDoc `json:"figure"`
	Findable figureDoc `json:"findable"`
	Hidden   int64     `json:"hidden_millionths"`
	Words    string    `json:"words"`
}

type noDoubtDoc struct {
	Why      string `json:"why"`
	Sentence string `json:"sentence"`
}

type toldDoc struct {
	Before   int64        `json:"before_millionths"`
	Drops    []dropDoc    `json:"drops"`
	Line     []pointDoc   `json:"line"`
	Worst    placeDoc     `json:"worst"`
	Signs    []signDoc    `json:"signs"`
	Gains    []gainDoc    `json:"gains"`
	Changes  []changeDoc  `json:"changes"`
	Assumed  []assumedDoc `json:"assumed"`
	Leaned   []leanedDoc  `json:"leaned"`
	Cautions []cautionDoc `json:"cautions"`
	Checked  *checkedDoc  `json:"checked,omitempty"`
}

type dropDoc struct {
	Look  string `json:"look"`
	Words string `json:"words"`
	By    int64  `json:"by_millionths"`
	After int64  `json:"after_millionths"`
}

type pointDoc struct {
	Day    string `json:"day"`
	After  bool   `json:"after"`
	Doubt  int64  `json:"millionths"`
	Hidden int64  `json:"hidden_millionths"`
	Mark   string `json:"mark,omitempty"`
}

type signDoc struct {
	Ref      string     `json:"ref,omitempty"`
	ID       string     `json:"id"`
	Words    string     `json:"words"`
	Class    string     `json:"class"`
	At       placeDoc   `json:"at"`
	Zone     string     `json:"zone,omitempty"`
	Day      string     `json:"day"`
	State    string     `json:"state"`
	Answered bool       `json:"answered"`
	Answer   string     `json:"answer,omitempty"`
	Why      figureDoc  `json:"why"`
	Shares   []shareDoc `json:"shares"`
	Sentence string     `json:"sentence"`
}

type shareDoc struct {
	What  string    `json:"what"`
	ID    string    `json:"id,omitempty"`
	Words string    `json:"words"`
	P     figureDoc `json:"share"`
}

type gainDoc struct {
	Look     string    `json:"look"`
	Nothing  figureDoc `json:"finds_nothing"`
	After    int64     `json:"after_millionths"`
	Worth    float64   `json:"worth"`
	Minutes  float64   `json:"minutes"`
	At       placeDoc  `json:"at"`
	Sentence string    `json:"sentence"`
}

type changeDoc struct {
	Key      string   `json:"key"`
	Args     []argDoc `json:"args"`
	Outcome  string   `json:"outcome"`
	Sentence string   `json:"sentence"`
}

type assumedDoc struct {
	Fact     string `json:"fact"`
	Sentence string `json:"sentence"`
}

type leanedDoc struct {
	What   string   `json:"what"`
	ID     string   `json:"id"`
	Words  string   `json:"words,omitempty"`
	Status string   `json:"status"`
	Source []string `json:"source"`
	Place  string   `json:"place,omitempty"`
}

type cautionDoc struct {
	ID    string `json:"id"`
	Words string `json:"words"`
}

type checkedDoc struct {
	Method     string  `json:"method"`
	Difference float64 `json:"relative_difference"`
}

type lineDoc struct {
	Says   string `json:"says"`
	Source string `json:"source"`
	Place  string `json:"place"`
	Mark   string `json:"mark"`
	Status string `json:"status"`
	Note   string `json:"note,omitempty"`
}
