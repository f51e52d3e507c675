package app

import (
	"context"
	"runtime"
	"slices"
	"sort"
	"sync"
	"sync/atomic"

	"kernbook/internal/book"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Card is how one piece stands on a day.
type Card struct {
	ID      string
	Kind    kit.KindID
	Words   string
	Serial  string
	Holder  string // id of the person who holds it; "" for nobody
	Place   string // where it hangs when nobody does
	In      string // the piece it is fitted to
	Verdict kit.Verdict
	Why     string // key of the first reason; "" where there is none
	Stopped fold.Stopped
	Doubt   int64   // whole millionths, -1 where there is none
	Limit   int64   // that holds for it
	Next    qty.Day // of the outcome or of a decision, the earlier; 0 where none is known
	NextWhy string
	LifeEnd qty.Day // 0 where none is known
	Err     error   // no outcome can be given

	Undecided bool // a thorough examination has no decision yet
}

// Stands gives what a card comes to: the stricter of the outcome, what people
// did about it, and what an examiner decided since.
func (c *Card) Stands() kit.Verdict {
	if c.Err != nil {
		return kit.Stricter(kit.SetAside, c.Stopped.Verdict())
	}
	return kit.Stricter(c.Verdict, c.Stopped.Verdict())
}

// Board gives every piece of the yard as it stands on a day, in the order in
// which they were registered.
func (a *App) Board(ctx context.Context, day qty.Day) ([]Card, error) {
	var out []Card
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		out = a.cards(s, day)
		return nil
	})
	return out, err
}

// cards gives the card of every piece. Pieces are judged side by side, on as many
// processors as there are. A panic in one of them is the caller's. Who asks while
// another board is being made waits for it, and finds its outcomes in memory.
func (a *App) cards(s *fold.State, day qty.Day) []Card {
	a.boards.Lock()
	defer a.boards.Unlock()
	out := make([]Card, len(s.Pieces))
	var next atomic.Int64
	var all sync.WaitGroup
	var once sync.Once
	var fell any
	for range min(runtime.GOMAXPROCS(0), len(out)) {
		all.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					once.Do(func() { fell = p })
				}
			}()
			for i := next.Add(1) - 1; i < int64(len(out)); i = next.Add(1) - 1 {
				out[i] = a.card(s, s.Pieces[i], day)
			}
		})
	}
	all.Wait()
	if fell != nil {
		panic(fell)
	}
	return out
}

func (a *App) card(s *fold.State, p *fold.Piece, day qty.Day) Card {
	c := Card{ID: p.ID, Kind: p.Kind, Stopped: p.Stopped().On(day), Doubt: -1, Undecided: p.Undecided()}
	c.Holder, c.Place = p.Holder(day)
	j, err := a.judge(s, p, day, false)
	if j.Record != nil { // known also where it has faults
		c.Serial, c.In = j.Record.Piece.Serial, j.Record.Piece.Fitted.In
	}
	if err != nil {
		c.Err = err
		return c
	}
	o := j.Outcome
	c.Words, c.Verdict = j.Record.Piece.Words, o.Verdict
	if len(o.Reasons) > 0 {
		c.Why = o.Reasons[0].Key
	}
	if o.Doubt != nil {
		c.Doubt, c.Limit = o.Doubt.Millions, o.Doubt.Limit
	}
	if o.Next.Known {
		c.Next, c.NextWhy = o.Next.Day, o.Next.Why
	}
	if d := c.Stopped.Latest; d != 0 && (c.Next == 0 || d < c.Next) {
		c.Next, c.NextWhy = d, "decided"
	}
	if o.LifeEnd.Known {
		c.LifeEnd = o.LifeEnd.Day
	}
	return c
}

// ToDo says whether anything is still to be done about a piece. What is out of use for
// good is taken from whoever holds it and cut up, unless it is held sealed; what was
// cut up waits for a decision at most.
func (c *Card) ToDo() bool { return !c.Stopped.Cut || c.Undecided }

// OutThere says whether a piece that is out of use for good still hangs with somebody,
// or is fitted to another.
func (c *Card) OutThere() bool {
	return c.Stopped.ForGood() && !c.Stopped.Cut && (c.Holder != "" || c.In != "")
}

// Due gives the cards of a board in the order of what has to be done: what may
// not be used first, of that what is out of use for good last, then by the day of the
// next look. What needs nothing more is left out.
func Due(cards []Card) []Card {
	var out []Card
	for i := range cards {
		if cards[i].ToDo() {
			out = append(out, cards[i])
		}
	}
	sort.SliceStable(out, func(i, k int) bool {
		a, b := &out[i], &out[k]
		if x, y := a.Stands() >= kit.SetAside, b.Stands() >= kit.SetAside; x != y {
			return x
		}
		if x, y := a.Stopped.ForGood() && !a.OutThere(), b.Stopped.ForGood() && !b.OutThere(); x != y {
			return y
		}
		return a.Next != 0 && (b.Next == 0 || a.Next < b.Next)
	})
	return out
}

// SetDoubt gives the doubt of everything a climber holds together, in whole
// millionths rounded up: that some piece of it is unfit. The second value says
// how many pieces have no figure, and are not in it. What is out of use for good is
// counted in neither.
func SetDoubt(cards []Card, holder string) (millions int64, without int) {
	sound := 1.0
	for i := range cards {
		c := &cards[i]
		switch {
		case !With(cards, c, holder) || c.Stopped.ForGood():
		case c.Doubt < 0:
			without++
		default:
			sound *= 1 - float64(c.Doubt)/1e6
		}
	}
	return num.CeilMillionths(1 - sound), without
}

// With says whether somebody climbs with a piece: who holds it, or holds what it is
// fitted to, however far in.
func With(cards []Card, c *Card, holder string) bool {
	for range cards { // each at most once, should parts be fitted in a ring
		if c.Holder == holder {
			return true
		}
		in := slices.IndexFunc(cards, func(x Card) bool { return c.In != "" && x.ID == c.In })
		if in < 0 {
			return false
		}
		c = &cards[in]
	}
	return false
}
